"""A person asks for their data, or to be forgotten. What is done on the vehicle stays without them."""

import json
from dataclasses import replace

import pytest

from jobbook.core.desk.calls import Call
from jobbook.core.errors import Refused
from jobbook.core.record.journal import Draft
from jobbook.core.vehicle.ownership import Contact
from jobbook.core.vehicle.vehicles import Customer
from jobbook.db.audit import audit
from jobbook.services.house.people import add_person
from jobbook.services.job.release import release
from jobbook.services.office import calls, desk
from jobbook.services.office.intake import take_in
from jobbook.services.vehicle import customers, data_copies, forgetting, merging
from jobbook.services.vehicle.vehicles import find_by_vin, vehicle
from tests.services.workshop import ARRIVAL, CUSTOMER, PIN, REPAIR, VIN


@pytest.fixture
def there(at):
    return at("shop")


def come_and_go(there, **changes):
    """A visit that ends the same day: nothing was taken apart."""
    job = take_in(there.book, there.jonas, replace(ARRIVAL, **changes))
    giver = changes.get("may_authorise", CUSTOMER.name)
    desk.give_permission(there.book, there.jonas, job, replace(REPAIR, who=giver))
    release(there.book, there.imke, job, "128 411", "km", let_go_reason="looked at only")
    return job


def everything_written(there):
    with there.book.store.read() as reading:
        return " ".join(
            str(row["value"]) for row in reading.rows.all("SELECT value FROM sealed WHERE value IS NOT NULL")
        )


def test_a_customer_is_forgotten_with_what_they_said_and_the_work_on_the_vehicle_stays(there):
    job = come_and_go(there, brought_by="his son Ulf", may_authorise="Ada Harrow", condition="old scratch, says Ansel")
    told = forgetting.forget(there.book, there.jonas, 1, "asked for by letter")
    assert told.erased >= 8
    assert not any(word in everything_written(there) for word in ("Harrow", "Ropewalk", "0147", "Ulf", "Ansel"))
    sheet = customers.customer(there.book, 1)
    assert (sheet.customer.name, sheet.customer.phone) == (None, None)
    assert [row.number for row in sheet.jobs] == [job]
    assert customers.customers(there.book, "harrow") == ()
    assert vehicle(there.book, 1).vehicle.vin == VIN
    assert [one.value for one in vehicle(there.book, 1).odometers] == [128_411, 128_410]
    assert audit(there.book.store).findings == ()
    with pytest.raises(Refused, match="nothing of this customer is left"):
        forgetting.forget(there.book, there.jonas, 1, "again")


def test_the_data_before_a_change_and_under_a_merged_number_are_forgotten_too(there):
    come_and_go(there)
    people = (Contact(0, "Runa Clerk-Holm", "Quillhaven 9090", "clerk", may_authorise=True),)
    customers.keep_customer(there.book, there.jonas, Customer(1, "Ansel Harrow-Lund", "5 Pilot Row"), people)
    twin = customers.keep_customer(there.book, there.jonas, Customer(0, "A. Harrow", phone="Quillhaven 0148"))
    merging.merge_customers(there.book, there.jonas, twin.id, 1, "one person")
    forgetting.forget(there.book, there.jonas, 1, "asked for")
    written = everything_written(there)
    assert not any(word in written for word in ("Harrow", "Pilot", "Ropewalk", "0148", "Runa", "9090"))
    assert customers.customer(there.book, 1).contacts[0].name is None


def test_the_call_before_the_visit_is_forgotten_with_it(there):
    unknown = dict.fromkeys(("temperature", "after", "driven"), "unknown")
    call = Call(0, "Ansel Harrow", "Quillhaven 0147", "It hangs.", **unknown)
    number = calls.take_call(there.book, there.jonas, call)
    job = come_and_go(there)
    calls.close_call(there.book, there.jonas, number, "arrived", job=job)
    forgetting.forget(there.book, there.jonas, 1, "asked for")
    assert "hangs" not in everything_written(there)


# 80. Erasure asked for while something is running


def test_a_wish_to_be_forgotten_waits_for_an_open_job_and_is_looked_at_again(there):
    job = take_in(there.book, there.jonas, ARRIVAL)
    told = forgetting.forget(there.book, there.jonas, 1, "asked for")
    assert (told.erased, told.waits_for, told.look_again) == (0, f"job {job} is open", "2026-12-25")
    assert forgetting.forget(there.book, there.jonas, 1, "asked for once more").look_again == "2026-12-25"
    with there.book.store.read() as reading:
        assert [one.due_on for one in reading.reminders.of_job(job) if one.what == forgetting.FORGET] == ["2026-12-25"]
    assert customers.customer(there.book, 1).customer.name == CUSTOMER.name


def test_an_owner_is_not_forgotten_while_somebody_elses_job_on_the_vehicle_is_open(there):
    come_and_go(there)
    known = find_by_vin(there.book, VIN)
    arrival = replace(
        ARRIVAL, vehicle=known, customer=Customer(0, "A Neighbour"), owner="as before", odometer="128 500"
    )
    job = take_in(there.book, there.jonas, arrival)
    assert forgetting.forget(there.book, there.jonas, 1, "asked for").waits_for == f"job {job} is open"


def test_nobody_is_forgotten_without_a_reason_or_permission(there):
    come_and_go(there)
    with pytest.raises(Refused, match="say why"):
        forgetting.forget(there.book, there.jonas, 1, " ")
    with pytest.raises(Refused, match="no permission"):
        forgetting.forget(there.book, there.bram, 1, "asked for")
    with pytest.raises(Refused, match="no permission"):
        data_copies.copy_of_data(there.book, there.bram, 1)


# 81. A copy of all data


def test_a_person_gets_a_copy_of_their_data_and_not_of_others(there):
    job = come_and_go(there, brought_by="Ulf Someone-Else", may_authorise="Ada Other")
    add_person(there.book, there.imke, "Zita Newcome", frozenset({"work"}), PIN)
    data = data_copies.copy_of_data(there.book, there.jonas, 1)
    told = json.loads(data)
    assert told["customer"]["name"] == CUSTOMER.name
    assert told["vehicles"][0]["vin"] == VIN
    (visit,) = told["jobs"]
    assert (visit["job"], visit["concerns"][0]["you_said"]) == (job, ARRIVAL.concerns[0])
    assert visit["permissions"][0]["given_by"] == "another person"
    assert visit["odometer"][0].startswith("128411 km")
    assert not any(word in data.decode() for word in ("Someone-Else", "Ada", "Zita"))
    with there.book.store.read() as reading:
        (kept,) = reading.journal.entries(kind="data-copied/1")
    assert (kept.payload["customer"], kept.facts["entered_by"]) == (1, "jw")


def test_a_copy_is_written_into_a_folder_that_is_there_and_never_over_another_file(there, tmp_path):
    come_and_go(there)
    first, second = (data_copies.write_copy(there.book, there.jonas, 1, tmp_path) for _ in range(2))
    assert (first.name, second.name) == ("customer-1-2026-11-25.json", "customer-1-2026-11-25-2.json")
    assert json.loads(first.read_bytes())["customer"]["name"] == CUSTOMER.name
    for nowhere in ("", tmp_path / "gone"):
        with pytest.raises(Refused, match="is no folder"):
            data_copies.write_copy(there.book, there.jonas, 1, nowhere)


def test_an_attempt_to_reach_them_is_in_the_copy_of_their_data(there):
    job = take_in(there.book, there.jonas, ARRIVAL)
    with there.book.store.write(there.jonas.id) as tx:
        facts = {"job": job, "how": "by telephone", "at": "2026-11-25", "outcome": "reached", "about": "the strut"}
        facts |= {"reached_at": tx.seal("Quillhaven 0147"), "said": tx.seal("go on")}
        tx.keep(Draft("contact/1", f"job/{job}", facts, job=job))
    (visit,) = json.loads(data_copies.copy_of_data(there.book, there.jonas, 1))["jobs"]
    assert [(one["reached_at"], one["said"]) for one in visit["contacts"]] == [("Quillhaven 0147", "go on")]
