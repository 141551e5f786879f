"""The nasty cases about vehicles: VIN, plates, owners, who pays, modifications. Common practice all."""

from dataclasses import replace

import pytest

from jobbook.core.errors import Refused
from jobbook.core.vehicle.ownership import Modification
from jobbook.core.vehicle.vehicles import Customer
from jobbook.services.measured import guided, stands
from jobbook.services.office import desk, parties
from jobbook.services.papers.gathered import gather
from jobbook.services.papers.handing_over import handover
from jobbook.services.papers.leaving import issue
from jobbook.services.vehicle import modifications, ownership
from jobbook.services.vehicle.vehicles import keep_vehicle, vehicle, vehicles
from tests.services.two_vehicles import WRONG_VIN, audit_is_clean, both, come, known
from tests.services.workshop import ARRIVAL, CUSTOMER, REPAIR, VEHICLE, VIN

FLEET = "Lent & Tallow Couriers"


@pytest.fixture
def there(at):
    return at("shop")


# 1. VIN mistyped


def test_a_vin_found_wrong_is_corrected_with_a_reason_and_the_papers_that_left_with_it_are_listed(there):
    there.job = come(there, vehicle=replace(VEHICLE, vin=WRONG_VIN))
    issue(there.book, there.jonas, there.job, "handover")
    with pytest.raises(Refused, match="say what was wrong"):
        ownership.correct_vin(there.book, there.jonas, 1, VIN, " ")
    sent = ownership.correct_vin(there.book, there.jonas, 1, VIN, "one digit misread, seen on the body")
    assert [(paper.job, paper.kind) for paper in sent] == [(there.job, "handover")]
    assert vehicle(there.book, 1).vehicle.vin == VIN
    assert known(there, WRONG_VIN) is None
    issue(there.book, there.jonas, there.job, "handover")
    assert len(ownership.papers_with_another_vin(there.book, 1)) == 1


def test_a_known_vin_is_not_changed_in_passing(there):
    come(there)
    with pytest.raises(Refused, match="put right with its reason"):
        keep_vehicle(there.book, there.jonas, replace(known(there), vin=WRONG_VIN))
    assert keep_vehicle(there.book, there.jonas, replace(known(there), vin=WRONG_VIN), "misread").vin == WRONG_VIN


def test_a_corrected_vin_never_merges_a_vehicle_with_another_silently(there):
    both(there)
    with pytest.raises(Refused, match="belongs to another vehicle"):
        ownership.correct_vin(there.book, there.jonas, 2, VIN, "misread")


# 2. Same plate, different vehicle


def test_a_plate_that_moves_leaves_the_vehicle_that_bore_it_and_that_is_said_while_typing(there):
    both(there)
    assert "is on another vehicle, Varnholt estate" in ownership.plate_words(there.book, "kx07ald", 2)
    ownership.new_plate(there.book, there.jonas, 2, "KX 07 ALD", "2026-11-25")
    assert (vehicle(there.book, 1).vehicle.plate, vehicle(there.book, 2).vehicle.plate) == ("", "KX 07 ALD")
    first = ownership.belongings(there.book, 1).plates
    assert [(one.plate, one.until) for one in first] == [("KX-07-ALD", "2026-11-25")]
    assert [one.plate for one in ownership.belongings(there.book, 2).plates] == ["KX 07 ALD", "MR-52-TEN"]
    assert "was on another vehicle, Varnholt estate, until 25 Nov 2026" in ownership.plate_words(there.book, "MR52TEN")
    assert {one.id for one in vehicles(there.book, text="kx07ald").rows} == {1, 2}
    assert audit_is_clean(there)


def test_a_plate_typed_at_the_wrong_vehicle_goes_back_as_if_it_had_never_moved(there):
    both(there)
    ownership.new_plate(there.book, there.jonas, 2, "KX-07-ALD")
    ownership.correct_plate(there.book, there.jonas, 2, "MR-52-TEN", "typed at the wrong vehicle")
    assert (vehicle(there.book, 1).vehicle.plate, vehicle(there.book, 2).vehicle.plate) == ("KX-07-ALD", "MR-52-TEN")
    assert [(one.plate, one.until) for one in ownership.belongings(there.book, 2).plates] == [("MR-52-TEN", "")]
    assert ownership.plate_words(there.book, "KX-07-ALD", 1) == ""
    assert audit_is_clean(there)


def test_a_slip_in_a_plate_keeps_the_day_from_which_it_holds(there):
    come(there, vehicle=replace(VEHICLE, plate="KX-07-ALO"))
    since = ownership.belongings(there.book, 1).plates[0].since
    ownership.correct_plate(there.book, there.jonas, 1, "KX-07-ALD", "the last letter")
    assert [(one.plate, one.since) for one in ownership.belongings(there.book, 1).plates] == [("KX-07-ALD", since)]
    assert vehicles(there.book, text="kx07alo").rows == ()


@pytest.mark.parametrize("day", ["2027-01-01", "yesterday", "2026-11-24"])
def test_a_plate_has_a_day_that_was_and_not_before_the_one_that_holds(there, day):
    come(there)
    with pytest.raises(Refused, match="the day of the plate"):
        ownership.new_plate(there.book, there.jonas, 1, "ZZ-99-NEW", day)
    with pytest.raises(Refused, match="bears this plate already"):
        ownership.new_plate(there.book, there.jonas, 1, "KX-07-ALD")


# 3. Vehicle sold


def test_a_sold_vehicle_keeps_its_history_and_the_owner_before_is_on_no_paper_of_the_new_one(there):
    first = come(there)
    buyer = Customer(0, "Wenzel Ockham-Ray", "2 Cooper's Yard", "Quillhaven 7710")
    owner = ownership.sell(there.book, there.jonas, 1, buyer, "2026-11-25")
    second = come(there, vehicle=known(there), customer=Customer(owner, ""), odometer="128 900")
    sheet = vehicle(there.book, 1)
    assert [row.number for row in sheet.jobs] == [second, first]
    assert sheet.customer.name == "Wenzel Ockham-Ray"
    owners = ownership.belongings(there.book, 1).owners
    assert [(one.name, one.since, one.until) for one in owners] == [
        ("Wenzel Ockham-Ray", "2026-11-25", ""),
        (CUSTOMER.name, "2026-11-25", "2026-11-25"),
    ]
    with there.book.store.read() as reading:
        said = str(handover(gather(reading, second), there.book.clock(), "", 1, ""))
    assert "Wenzel" in said
    assert not any(word in said for word in ("Harrow", "Ropewalk", "0147"))
    assert "may not pass to a new owner" in ownership.TRANSFER


def test_a_sale_is_refused_without_a_buyer_or_to_the_owner(there):
    come(there)
    with pytest.raises(Refused, match="name of the new owner"):
        ownership.sell(there.book, there.jonas, 1, Customer(0, " "))
    with pytest.raises(Refused, match="belongs to this customer already"):
        ownership.sell(there.book, there.jonas, 1, Customer(known(there).customer_id, ""))


def test_an_owner_written_down_wrong_is_corrected_and_never_was(there):
    come(there)
    ownership.sell(there.book, there.jonas, 1, Customer(0, "Wrong Person"))
    ownership.correct_owner(there.book, there.jonas, 1, Customer(1, ""), "it was another vehicle that was sold")
    assert [(one.name, one.until) for one in ownership.belongings(there.book, 1).owners] == [(CUSTOMER.name, "")]


# 6. and 7. Two jobs on one day, two payers


def test_two_jobs_of_one_vehicle_on_one_day_have_their_own_concerns_readings_and_payers(there):
    morning = come(there, payer="supplier", payer_name="Quillhaven Spring Supply")
    afternoon = come(there, vehicle=known(there), concerns=("The compressor is loud.",))
    jobs = [desk.get_job(there.book, number) for number in (morning, afternoon)]
    assert [(job.payer, job.payer_name) for job in jobs] == [("supplier", "Quillhaven Spring Supply"), ("customer", "")]
    assert [[c.words for c in job.concerns] for job in jobs] == [list(ARRIVAL.concerns), ["The compressor is loud."]]
    with there.book.store.read() as reading:
        counted = [len(reading.journal.entries(job=job.number, kind="odometer/1")) for job in jobs]
    assert counted == [1, 1]


# 11. Who brought it, whose it is, who may authorise, who pays


def test_who_brings_it_who_owns_it_who_may_allow_work_and_who_pays_are_four_people(there):
    job = come(
        there, customer=Customer(0, FLEET), brought_by="Odo Marsh", owner="other",
        owner_name="Fenwick Leasing", may_authorise="Petra Lent", payer="insurer", payer_name="Harbour Mutual",
    )  # fmt: skip
    told = parties.parties(there.book, job)
    assert told == parties.Parties("Odo Marsh", "Fenwick Leasing", "Petra Lent", "insurer", "Harbour Mutual", FLEET)
    assert vehicle(there.book, 1).customer.name == "Fenwick Leasing"
    parties.keep_parties(
        there.book, there.jonas, job, brought_by="", may_authorise="Ivo Lent", payer="customer", payer_name=""
    )
    told = parties.parties(there.book, job)
    assert told == parties.Parties(FLEET, "Fenwick Leasing", "Ivo Lent", "customer", FLEET, FLEET)
    assert desk.get_job(there.book, job).condition == ARRIVAL.condition
    with pytest.raises(Refused, match="say who pays"):
        parties.keep_parties(there.book, there.jonas, job, brought_by="", may_authorise="", payer="", payer_name="")


def test_an_owner_stays_when_somebody_else_brings_the_vehicle(there):
    come(there)
    job = come(there, vehicle=known(there), customer=Customer(0, "A Neighbour"), owner="as before", odometer="128 500")
    assert parties.parties(there.book, job).owner == CUSTOMER.name
    assert [one.name for one in ownership.belongings(there.book, 1).owners] == [CUSTOMER.name]
    with pytest.raises(Refused, match="write whose it is"):
        come(there, vehicle=known(there), owner="other", odometer="128 600")


# 12. Earlier repairs and modifications by others


def test_modifications_are_written_down_with_what_they_do_to_the_heights_and_can_be_taken_back(there):
    job = come(there)
    found = Modification("lowering links", "front", "25 mm lower in front", changed_by="a shop elsewhere", job=job)
    modifications.add_modification(there.book, there.bram, 1, found)
    told = ownership.belongings(there.book, 1).modifications
    assert [(one.what, one.found_on, one.by, one.gone_on) for one in told] == [
        ("lowering links", "2026-11-25", "bf", "")
    ]
    modifications.modification_gone(there.book, there.bram, 1, told[0].entry)
    gone = ownership.belongings(there.book, 1).modifications
    assert [(one.what, one.effect, one.gone_on) for one in gone] == [
        ("lowering links", "25 mm lower in front", "2026-11-25")
    ]
    with pytest.raises(Refused, match="not on the vehicle any more"):
        modifications.modification_gone(there.book, there.bram, 1, gone[0].entry)
    with pytest.raises(Refused, match="what it does to the heights"):
        modifications.add_modification(there.book, there.bram, 1, Modification("other tyres"))
    with pytest.raises(Refused, match="say what it is"):
        modifications.add_modification(there.book, there.bram, 1, replace(found, what="magic"))


# 13. Left after hours with a note


def test_a_vehicle_left_with_nobody_there_is_not_tested_before_its_customer_was_reached(there):
    there.job = come(there, arrival="left")
    with pytest.raises(Refused, match="Reach the customer first"):
        desk.add_test(there.book, there.bram, there.job, "Soap test", "done", "bubbles")
    with pytest.raises(Refused, match="Reach the customer first"):
        guided.keep_guided(
            there.book, there.bram, there.job, next(iter(guided.BY_KEY)), {"answer": "done", "result": "x"}
        )
    with pytest.raises(Refused, match="Reach the customer first"):
        stands.begin_stand(there.book, there.bram, there.job, {})
    desk.add_test(there.book, there.bram, there.job, "Soap test", "not done", reason="customer not reached")
    permission = replace(REPAIR, scope="diagnosis", how="by telephone", reached_at="Quillhaven 0147", total="120.00")
    desk.give_permission(there.book, there.jonas, there.job, permission)
    desk.add_test(there.book, there.bram, there.job, "Soap test", "done", "bubbles")
