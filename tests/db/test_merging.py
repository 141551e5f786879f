"""Two numbers that are one: everything that names the one that goes belongs to the one that stays."""

from jobbook.core.record.journal import Draft
from jobbook.db.audit import audit
from jobbook.db.standings.standing import TABLES
from jobbook.db.standings.standing_vehicles import NAMED
from tests.db.building import PERSON, customer, job, one_job, vehicle


def test_every_column_that_names_a_vehicle_or_a_customer_follows(book):
    """A new table that names one is not forgotten here: its column bears the name of what it names."""
    one_job(book)
    with book.read() as reading:
        there = {
            (what, table, what)
            for table in TABLES
            for row in reading.rows.all(f"SELECT name FROM pragma_table_info('{table}')")
            for what in NAMED
            if row["name"] == what
        }
        named = {
            (row["table"], table, row["from"])
            for table in TABLES
            for row in reading.rows.all(f'SELECT "table", "from" FROM pragma_foreign_key_list(\'{table}\')')
            if row["table"] in NAMED
        }
    assert there | named == {(what, table, column) for what, pairs in NAMED.items() for table, column in pairs}


def merge(tx, what, gone, kept):
    tx.keep(Draft("merged/1", f"{what}/{gone}", {"what": what, "gone": gone, "kept": kept}, reason="one and the same"))


def people(tx, number, *names):
    told = [{"name": tx.seal(name), "phone": "", "role": "", "may_authorise": False} for name in names]
    facts = {"customer": number, "name": tx.seal("A fleet"), "address": "", "phone": "", "email": "", "contacts": told}
    tx.keep(Draft("customer/1", f"customer/{number}", facts))


def test_people_of_both_customers_stand_under_the_one_that_stays_and_are_found_there(either):
    one_job(either)
    with either.write(PERSON) as tx:
        other = customer(tx, "Ottilie Brandvold junior")
        people(tx, 1, "Runa Holm")
        people(tx, other, "Odo Marsh", "Petra Lent")
        merge(tx, "customer", other, 1)
    with either.read() as reading:
        assert [(one.number, one.name) for one in reading.customers.contacts(1)] == [
            (1, "Runa Holm"),
            (2, "Odo Marsh"),
            (3, "Petra Lent"),
        ]
        assert [one.id for one in reading.customers.page(text="petra")] == [1]
    assert audit(either).findings == ()


def test_numbers_merged_one_after_the_other_all_lead_to_the_last_and_none_is_given_again(either):
    one_job(either)
    with either.write(PERSON) as tx:
        second, third = vehicle(tx, 1, vin="XX0VRNHLT00000002"), vehicle(tx, 1, vin="XX0VRNHLT00000003")
        late = job(tx, third, 1)
        merge(tx, "vehicle", third, second)
        merge(tx, "vehicle", second, 1)
        assert tx.next_vehicle_id() == third + 1
    with either.read() as reading:
        assert [reading.vehicles.get(number).id for number in (1, second, third)] == [1, 1, 1]
        assert reading.vehicles.numbers(1) == [1, second, third]
        assert late in [row.number for row in reading.jobs.of_vehicle(1)]
        assert [one.id for one in reading.vehicles.page(text="000003")] == [1]
    assert audit(either).findings == ()


def test_what_is_said_of_a_number_that_is_gone_changes_nothing(either):
    one_job(either)
    with either.write(PERSON) as tx:
        second, other = vehicle(tx, 1, vin="XX0VRNHLT00000002"), customer(tx, "Twin")
        merge(tx, "vehicle", second, 1)
        merge(tx, "customer", other, 1)
        facts = {"vehicle": second, "vin": "LATE", "plate": "LATE", "make": "", "model": "", "customer": other}
        tx.keep(Draft("vehicle/1", f"vehicle/{second}", facts))
        people(tx, other, "Late Arrival")
        merge(tx, "vehicle", second, 1)
    with either.read() as reading:
        assert reading.vehicles.get(second).vin == "XX0VRNHLT00123456"
        assert reading.customers.contacts(1) == []
    assert audit(either).findings == ()
