"""What papers say of a vehicle whose counter began anew, whose plate moved, or that was sold, read from the PDF."""

from dataclasses import replace

from jobbook.core.vehicle.odometers import NEVER_KNOWN, REPLACED, Reset
from jobbook.core.vehicle.ownership import Modification
from jobbook.core.vehicle.vehicles import Customer
from jobbook.services import papers, work
from jobbook.services.job.release import release
from jobbook.services.office import desk
from jobbook.services.office.intake import take_in
from jobbook.services.vehicle import modifications, ownership
from jobbook.services.vehicle.cries import cries, cries_at_arrival
from jobbook.services.vehicle.vehicles import find_by_vin
from tests.paperwork.reading import close, on_paper
from tests.services.workshop import ARRIVAL, REPAIR, VIN

BOTH_ENDS = Reset(REPLACED, "130 012", "km", "5")


def out(there):
    release(there.book, there.imke, there.job, "128 417", "km")
    return there


def back(there, odometer="905", reset=BOTH_ENDS):
    """The part failed a year later; by hand: 130 012 - 128 417 on the old counter and 900 on the new one, 2 495 km."""
    there.clock.now = there.clock.now.replace(year=2027)
    known = find_by_vin(there.book, VIN)
    job = take_in(there.book, there.jonas, replace(ARRIVAL, vehicle=known, odometer=odometer, reset=reset))
    desk.give_permission(there.book, there.jonas, job, replace(REPAIR, total="900.00"))
    options = {"link_on_strut": True, "keeps_pressure": False, "battery_off": False}
    work.begin_method(there.book, there.bram, job, "front-air-strut-renew-one-corner", "FL", options)
    return job


def page(there, job, kind):
    return on_paper(papers.preview(there.book, job, kind))


def test_a_claim_tells_both_the_reading_and_the_true_distance_over_a_replaced_cluster(at):
    there = out(at("done"))
    told = page(there, back(there), "evidence")
    assert close("905 km") in told
    assert close("true distance 130 912 km (81 345 mi)") in told
    assert close("365 days, 2 495 km") in told


def test_a_claim_over_a_counter_whose_old_end_nobody_knows_says_at_least(at):
    there = out(at("done"))
    told = page(there, back(there, reset=Reset(REPLACED, "", "", "5")), "evidence")
    assert close("true distance at least 129 317 km") in told
    assert close("365 days, at least 900 km") in told


def test_a_claim_over_a_distance_that_nobody_knows_does_not_make_one_up(at):
    there = out(at("done"))
    told = page(there, back(there, reset=Reset(NEVER_KNOWN)), "evidence")
    assert close("365 days, distance not known: the counter began anew in between") in told


def test_a_papers_odometer_that_could_not_be_read_is_unknown_with_the_reason(at):
    there = at("shop")
    job = take_in(there.book, there.jonas, replace(ARRIVAL, odometer="?", odometer_note="display dark"))
    assert close("unknown: display dark") in page(there, job, "handover")


def test_an_older_jobs_paper_shows_the_plate_and_customer_of_its_time(at):
    there = out(at("done"))
    there.clock.now = there.clock.now.replace(year=2027)
    vehicle = find_by_vin(there.book, VIN).id
    ownership.sell(there.book, there.jonas, vehicle, Customer(0, "Wenzel Ockham-Ray", "2 Cooper's Yard"))
    ownership.new_plate(there.book, there.jonas, vehicle, "WO-27-NEW")
    told = page(there, there.job, "handover")
    assert close("KX-07-ALD") in told
    assert not any(close(word) in told for word in ("WO-27-NEW", "Ockham", "Cooper"))


def test_what_others_changed_is_told_on_the_papers_and_cried_at_the_next_visit(at):
    """Nasty case 12: it bears on heights, figures and claims."""
    there = out(at("done"))
    vehicle = find_by_vin(there.book, VIN).id
    found = Modification("lowering links", "front", "25 mm lower", job=there.job)
    modifications.add_modification(there.book, there.bram, vehicle, found)
    assert close("Changed by others: lowering links, front (25 mm lower)") in page(there, there.job, "evidence")
    told = "Changed by others: lowering links, front (25 mm lower). The maker's heights may not hold."
    with there.book.store.read() as reading:
        assert told in cries(reading, reading.vehicles.get(vehicle), reading.shop(), there.book.today())
    entry = ownership.belongings(there.book, vehicle).modifications[0].entry
    modifications.modification_gone(there.book, there.bram, vehicle, entry)
    assert told not in cries_at_arrival(there.book, vehicle)
