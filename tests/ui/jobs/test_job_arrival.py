"""The Arrival tab: the people of the job and its odometer, through the presenter and on a real book."""

from jobbook.core.vehicle.vehicles import Customer
from jobbook.services.office import parties
from jobbook.services.office.desk import get_job
from jobbook.services.vehicle import odometers, ownership
from tests.ui.jobs.presented import at_work, deed


def block(seen, title):
    return next(one for one in seen.tabs["arrival"].blocks if one.title == title)


def facts(seen, title):
    return {fact.label: fact.value for fact in block(seen, title).facts}


def arrival(there):
    presenter, seen = at_work(there)
    presenter.open_tab("arrival")
    return presenter, seen


def test_the_four_people_of_a_job_are_shown_and_said_anew(there):
    presenter, seen = arrival(there)
    before = facts(seen, "People")
    assert before["Belongs to"] == before["Customer"] == before["May allow work"]
    told = {"brought_by": "Ulf", "may_authorise": "Petra Lent", "payer": "fleet", "payer_name": "Lent & Tallow"}
    presenter.do(deed(seen, "arrival", "people"), told)
    after = facts(seen, "People")
    assert (after["Brought by"], after["May allow work"], after["Pays"]) == (
        "Ulf",
        "Petra Lent",
        "fleet, Lent & Tallow",
    )
    assert parties.parties(there.book, seen.sheet.number).may_authorise == "Petra Lent"


def test_the_customer_of_a_job_stays_its_customer_when_the_vehicle_is_sold(there):
    presenter, seen = arrival(there)
    before = facts(seen, "People")["Customer"]
    vehicle = get_job(there.book, seen.sheet.number).vehicle_id
    ownership.sell(there.book, there.bram, vehicle, Customer(0, "Wenzel Ockham-Ray"))
    presenter.refresh()
    assert facts(seen, "People")["Customer"] == facts(seen, "People")["Belongs to"] == before


def test_a_reading_is_corrected_with_what_was_wrong_with_it(there):
    presenter, seen = arrival(there)
    wrong = deed(seen, "arrival", "odometer wrong")
    told = {"value": "128 401", "unit": "km", "reason": "", "reset": "", "old_end": "", "old_unit": "", "new_start": ""}
    presenter.do(wrong, told)
    assert "say what was wrong" in seen.refusals[-1]
    presenter.do(wrong, told | {"reason": "digits swapped"})
    vehicle = get_job(there.book, seen.sheet.number).vehicle_id
    assert odometers.distances(there.book, vehicle).readings[0].value == 128_401


def test_an_odometer_that_cannot_be_read_any_more_is_unknown(there):
    presenter, seen = arrival(there)
    dark = {"value": "?", "unit": "km", "what": "test", "note": "display dark"}
    presenter.do(deed(seen, "arrival", "odometer"), dark)
    (line,) = [line for line in block(seen, "Odometer").lines if line.words == "not read"]
    assert line.beside.startswith("on the road test, ")
    assert line.beside.endswith(" · display dark")
    assert line.mark == "bar"
