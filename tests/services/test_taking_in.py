"""Taking a vehicle in. Everything is kept, or nothing is."""

from dataclasses import replace
from datetime import timedelta

import pytest

from jobbook.core.errors import NotFound, Refused, StoreUnavailable
from jobbook.core.vehicle.vehicles import OLDER_NUMBER, Customer, Vehicle
from jobbook.services.jobs import jobs
from jobbook.services.measured.readings import add_odometer
from jobbook.services.office import desk
from jobbook.services.office.intake import take_in
from jobbook.services.sheet.jobsheet import job_sheet
from jobbook.services.vehicle.customers import customers
from jobbook.services.vehicle.ownership import correct_vin
from jobbook.services.vehicle.vehicles import (
    find_by_vin,
    keep_vehicle,
    odometer_question,
    vehicle,
    vehicles,
    vin_findings,
)
from tests.services.workshop import ARRIVAL, CUSTOMER, VEHICLE, VIN

ON_ITS_OWN = replace(VEHICLE, vin="A09VH2AT2LB310552", plate="MR-52-TEN")


@pytest.fixture
def there(at):
    return at("shop")


def come(there, **changes):
    return take_in(there.book, there.jonas, replace(ARRIVAL, **changes))


def entries(there):
    with there.book.store.read() as reading:
        return reading.journal.head().size


def known(there):
    """The vehicle as the book has it."""
    return find_by_vin(there.book, VIN)


def test_customer_vehicle_odometer_and_concern_are_kept_as_said(there):
    job = come(there, concerns=(" Down in the morning. ", "", "A hiss."), condition="old scratch", brought_by="his son")
    kept = desk.get_job(there.book, job)
    assert [concern.words for concern in kept.concerns] == ["Down in the morning.", "A hiss."]
    assert (kept.condition, kept.brought_by, kept.stage, kept.opened_by) == ("old scratch", "his son", "arrived", "jw")
    sheet = vehicle(there.book, kept.vehicle_id)
    assert sheet.customer.name == CUSTOMER.name
    assert [(one.value, one.unit, one.what) for one in sheet.odometers] == [(128_410, "km", "in")]
    assert [row.number for row in sheet.jobs] == [row.number for row in jobs(there.book).rows] == [job]
    assert [one.vin for one in vehicles(there.book, text="204117").rows] == [VIN]
    assert [one.name for one in customers(there.book, "harrow")] == [CUSTOMER.name]


def test_a_promise_is_kept_by_its_day_and_one_that_nobody_can_read_opens_no_job(there):
    """A promise that is no day would never stand on Today."""
    before = entries(there)
    with pytest.raises(Refused, match="no day or time"):
        come(there, promised="before the holidays")
    assert entries(there) == before
    day = there.book.today() + timedelta(days=3)
    assert desk.get_job(there.book, come(there, promised=f"{day:%d.%m.%Y} 17:00")).promised == f"{day} 17:00"


def test_a_plate_is_kept_in_capitals(there):
    come(there, vehicle=replace(VEHICLE, plate=" kx-07  ald "))
    assert known(there).plate == "KX-07 ALD"


@pytest.mark.parametrize("vin", ["a09vh2at4kbo0-4117", "A09VH2AT4KBI04117", "A09VH2ATQKB204117"])
def test_a_vin_with_an_i_an_o_or_a_q_is_refused_and_the_digit_is_named(there, vin):
    """ISO 3779: a VIN holds none of the three letters."""
    for ticked in ("", OLDER_NUMBER):
        with pytest.raises(Refused, match=r"not taken in: character \d+ is the letter .* it may be the digit [01]"):
            come(there, vehicle=replace(VEHICLE, vin=vin, vin_from=ticked))


def test_a_number_of_another_length_is_taken_only_where_it_is_ticked_as_an_older_one(there):
    assert vin_findings("KL 4711")
    with pytest.raises(Refused, match=r"17 characters and this has 6.*tick that it is an older number"):
        come(there, vehicle=replace(VEHICLE, vin="KL 4711"))
    job = come(there, vehicle=replace(VEHICLE, vin="KL 4711", vin_from=f"body, {OLDER_NUMBER}"))
    there_now = find_by_vin(there.book, "KL4711")
    assert there_now.id == desk.get_job(there.book, job).vehicle_id
    assert keep_vehicle(there.book, there.jonas, replace(there_now, make="Kestelle", vin_from="")).make == "Kestelle"
    with pytest.raises(Refused, match="Nothing was changed: a VIN has 17 characters and this has 7"):
        correct_vin(there.book, there.jonas, there_now.id, "KL 47111", "misread")


def test_a_vin_that_is_in_the_book_opens_no_second_history(there):
    come(there)
    with pytest.raises(Refused, match="belongs to another vehicle, Varnholt estate, KX-07-ALD"):
        come(there)
    come(there, vehicle=ON_ITS_OWN)
    wrong = replace(find_by_vin(there.book, ON_ITS_OWN.vin), vin=VIN)
    with pytest.raises(Refused, match="not taken in: the VIN"):
        come(there, vehicle=wrong, odometer="128 420")
    with pytest.raises(Refused, match="Nothing was changed: the VIN"):
        keep_vehicle(there.book, there.jonas, wrong)


def test_a_vehicles_facts_change_with_its_visit_and_stay_in_one_history(there):
    first = come(there)
    second = come(there, vehicle=replace(known(there), plate="NEW-1"), odometer="128 500")
    assert known(there).plate == "NEW-1"
    assert [row.number for row in vehicle(there.book, known(there).id).jobs] == [second, first]
    assert keep_vehicle(there.book, there.jonas, replace(known(there), vin=f" {VIN.lower()} ")).vin == VIN


def test_what_is_said_anew_of_a_known_customer_is_kept_and_the_rest_stays(there):
    come(there)
    entry = entries(there)
    number = known(there).customer_id
    again = Customer(number, "", phone="Quillhaven 9999", email=" ")
    come(there, vehicle=known(there), customer=again)
    kept = vehicle(there.book, known(there).id).customer
    assert kept == replace(CUSTOMER, id=number, phone="Quillhaven 9999")
    assert [one.id for one in customers(there.book, "harrow")] == [number]
    come(there, vehicle=known(there), customer=again)
    with there.book.store.read() as reading:
        assert len(reading.journal.entries(kind="customer/1", after=entry)) == 1


def test_an_odometer_that_falls_is_asked_about_and_a_note_answers(there):
    come(there)
    assert "less than 128410 km" in odometer_question(there.book, known(there).id, 12_841, "km")
    with pytest.raises(Refused, match=r"not taken in yet.*less than 128410 km read before"):
        come(there, vehicle=known(there), odometer="12 841")
    job = come(there, vehicle=known(there), odometer="12 841", odometer_note="cluster renewed in May")
    assert vehicle(there.book, known(there).id).odometers[0].note == "cluster renewed in May"
    assert desk.get_job(there.book, job).number == job


def test_a_jump_by_the_factor_of_the_mile_names_the_units(there):
    come(there, odometer="100.000")
    with pytest.raises(Refused, match="miles and kilometres mixed up"):
        come(there, vehicle=known(there), odometer="160'900")
    assert come(there, vehicle=known(there), odometer="160'900", odometer_note="long journeys, looked at twice")


def test_a_first_visit_has_no_odometer_to_ask_about(there):
    assert odometer_question(there.book, 0, 5, "km") == ""


@pytest.mark.parametrize("typed", ["", "12a", "-5", "1e6", "99 999 999", "१२३", "12\n34"])
def test_what_is_no_odometer_is_refused(there, typed):
    before = entries(there)
    with pytest.raises(Refused, match="is not a whole number"):
        come(there, odometer=typed)
    assert entries(there) == before


@pytest.mark.parametrize("typed", ["4000 mm", "4000", "12 bar", "40 kg", "soon", "400,5,5"])
def test_a_height_that_cannot_be_is_refused_and_nothing_of_the_visit_is_kept(there, typed):
    before = entries(there)
    with pytest.raises(Refused):
        come(there, heights={"FL": "401", "FR": typed})
    assert entries(there) == before


def test_heights_are_kept_in_millimetres_before_anybody_touched_the_system(there):
    job = come(there, heights={"FL": "15 3/4 in", "FR": "40,1 cm", "RL": " ", "RR": "398"}, instrument="SR-01")
    with there.book.store.read() as reading:
        (act,) = [
            e.payload["act"] for e in reading.journal.entries(job=job, kind="act/1") if "what" in e.payload["act"]
        ]
    assert dict(act["readings"]) == {
        "FL": "400.05",
        "typed FL": "15 3/4 in",
        "FR": "401",
        "typed FR": "40,1 cm",
        "RR": "398",
    }
    shown = {staff.corner: staff.before for staff in job_sheet(there.book, job).staffs}
    assert shown == {"FL": "400", "FR": "401", "RL": "", "RR": "398"}


def test_a_vehicle_that_came_with_no_air_is_vented_and_its_heights_are_not_possible(there):
    """Nasty case 8 of the trade notes."""
    job = come(there, arrival="no air")
    said = [word.text for word in job_sheet(there.book, job).state]
    assert "FL vented" in said
    assert "FR vented" in said
    assert "no air at the rear" in said
    with there.book.store.read() as reading:
        (act,) = [
            e.payload["act"] for e in reading.journal.entries(job=job, kind="act/1") if "what" in e.payload["act"]
        ]
    assert (act["answer"], act["what"]) == ("not possible", "heights")
    assert "on its stops" in act["reason"]


def test_corners_on_their_stops_are_vented_and_the_others_charged(there):
    job = come(there, on_stops=("FL", "RL"))
    said = [word.text for word in job_sheet(there.book, job).state]
    assert [word for word in said if "vented" in word] == ["FL vented"]
    assert "FR charged" in said


def test_two_jobs_of_one_vehicle_on_one_day_stay_apart_and_each_names_the_other(there):
    """Nasty case 6 of the trade notes."""
    first = come(there)
    second = come(there, vehicle=known(there), customer=replace(CUSTOMER, id=known(there).customer_id))
    assert job_sheet(there.book, second).cry.startswith(f"Job {first} of this vehicle is open too since today")
    assert job_sheet(there.book, first).cry.startswith(f"Job {second} of this vehicle is open too since today")
    assert desk.get_job(there.book, second).customer_id == desk.get_job(there.book, first).customer_id


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"concerns": (" ",)}, "write the concern"),
        ({"customer": Customer(0, "  ")}, "customer's name is missing"),
        ({"arrival": "flown"}, "driven in, recovered"),
        ({"vehicle": Vehicle(0, VIN, air="left")}, "where the vehicle has air springs"),
        ({"odometer_unit": "furlongs"}, "no unit of an odometer"),
    ],
)
def test_what_is_missing_is_named_and_nothing_is_kept(there, changes, said):
    before = entries(there)
    with pytest.raises(Refused, match=said):
        come(there, **changes)
    assert entries(there) == before


@pytest.mark.parametrize("changes", [{"customer": Customer(7, "")}, {"vehicle": replace(VEHICLE, id=7, vin="X")}])
def test_a_customer_or_vehicle_that_is_not_there_is_said_so(there, changes):
    with pytest.raises(NotFound, match=r"There is no (customer|vehicle) 7"):
        come(there, **changes)


@pytest.mark.parametrize("trouble", ["PRAGMA query_only = ON", "PRAGMA max_page_count = {pages}"])
def test_on_a_disk_that_is_read_only_or_full_nothing_of_the_visit_is_kept(there, trouble):
    before = entries(there)
    with there.book.store._engine.connect() as connection:
        raw = connection.connection.dbapi_connection
        pages = raw.execute("PRAGMA page_count").fetchone()[0]
        raw.execute(trouble.format(pages=pages))
    with pytest.raises(StoreUnavailable, match=r"read-only|The disk of the book"):
        come(there, concerns=tuple(f"{number} " + "long words " * 400 for number in range(60)))
    assert entries(there) == before
    assert jobs(there.book).rows == ()


def test_a_retry_opens_no_second_job(there):
    first = take_in(there.book, there.jonas, ARRIVAL, attempt="the same press of the button")
    assert take_in(there.book, there.jonas, ARRIVAL, attempt="the same press of the button") == first
    assert len(jobs(there.book).rows) == 1


def test_more_readings_of_a_job_are_kept_with_their_kind(there):
    job = come(there)
    add_odometer(there.book, there.bram, job, "128 415", "km", "test")
    with pytest.raises(Refused, match=r"not kept yet.*less than 128415 km"):
        add_odometer(there.book, there.bram, job, "128 411", "km", "test")
    with pytest.raises(Refused, match="say when it was read"):
        add_odometer(there.book, there.bram, job, "128 416", "km", "out")
    add_odometer(there.book, there.jonas, job, "128 411", "km", "stated", "read off a photo")
    assert [one.what for one in vehicle(there.book, known(there).id).odometers] == ["stated", "test", "in"]


def test_a_page_of_vehicles_is_followed_by_the_next(there):
    come(there)
    come(there, vehicle=ON_ITS_OWN)
    first = vehicles(there.book, limit=1)
    assert [one.vin for one in first.rows] == [ON_ITS_OWN.vin]
    second = vehicles(there.book, after=first.next, limit=1)
    assert [one.vin for one in second.rows] == [VIN]
    page = jobs(there.book, limit=1)
    assert [row.number for row in jobs(there.book, after=page.next, limit=2).rows] == [1]
    assert jobs(there.book, limit=5).next is None
