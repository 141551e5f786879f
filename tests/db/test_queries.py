"""How many queries each list and each record costs, however much is in the book."""

from contextlib import contextmanager

import pytest
from sqlalchemy import event

from jobbook.core.record.journal import Draft
from jobbook.db.jobs import NEWEST_FIRST, ROW
from tests.db.building import PERSON, customer, job, shop, sign_off, vehicle


@pytest.fixture(scope="module")
def many(shared):
    with shared.write(PERSON) as tx:
        shop(tx)
        owners = [customer(tx, f"Customer {number}") for number in range(20)]
        for number in range(230):
            owner = owners[number % 20]
            its = vehicle(tx, owner, vin=f"VIN{number:05}") if number < 20 else number % 20 + 1
            job(tx, its, owner)
    return shared


@contextmanager
def counted(store):
    said = []

    def listen(_connection, _cursor, statement, *_rest):
        if not statement.startswith(("BEGIN", "PRAGMA", "SET", "SHOW")):
            said.append(statement)

    event.listen(store._engine, "before_cursor_execute", listen)
    yield said
    event.remove(store._engine, "before_cursor_execute", listen)


LISTS = {
    "a page of jobs": (lambda b: b.jobs.page(), 1),
    "a page of jobs further on": (lambda b: b.jobs.page(after=("2026-11-25T08:03:00+00:00", 100)), 1),
    "a page of jobs at a stage": (lambda b: b.jobs.page(stage="arrived"), 1),
    "a page of jobs found": (lambda b: b.jobs.page(text="customer 1 varn"), 2),
    "a job with its concerns": (lambda b: b.jobs.get(7), 2),
    "the visits of a vehicle": (lambda b: b.jobs.of_vehicle(3), 1),
    "a page of vehicles": (lambda b: b.vehicles.page(), 1),
    "a vehicle": (lambda b: b.vehicles.get(3), 1),
    "the vehicles of an owner": (lambda b: b.vehicles.of_owner(1), 1),
    "a page of customers": (lambda b: b.customers.page(), 1),
    "everybody": (lambda b: b.people.all(), 1),
    "the tool crib": (lambda b: b.tools.all(), 1),
    "the figures of a variant": (lambda b: b.specifications.for_variant("v"), 1),
    "the pieces of a job": (lambda b: b.pieces.of_job(7), 1),
    "the papers of a job": (lambda b: b.papers.of_job(7), 1),
    "what is due": (lambda b: b.reminders.open(), 1),
    "the permissions of a job": (lambda b: b.permissions(7), 1),
    "the entries of a job": (lambda b: b.journal.entries(job=7), 1),
    "the head": (lambda b: b.journal.head(), 1),
}  # fmt: skip


@pytest.mark.parametrize("what", LISTS)
def test_a_reading_costs_a_fixed_number_of_queries(what, many):
    read, queries = LISTS[what]
    with many.read() as reading, counted(many) as said:
        read(reading)
    assert len(said) == queries


def test_a_sign_off_costs_four_statements(many):
    with counted(many) as said, many.write(PERSON) as tx:
        sign_off(tx, of_job=7)
    assert [statement.split()[0] for statement in said] == ["SELECT", "SELECT", "INSERT", "UPDATE"]


def test_paging_by_key_meets_every_job_once(many):
    with many.read() as reading:
        seen, after = [], None
        while rows := reading.jobs.page(after=after, limit=47):
            seen += [row.number for row in rows]
            after = (rows[-1].opened_at, rows[-1].number)
    assert seen == list(range(230, 0, -1))


def test_paging_loses_nobody_who_came_at_the_same_moment(either):
    moment = "2026-11-25T09:00:00+00:00"
    with either.write(PERSON) as tx:
        shop(tx)
        vehicle(tx, customer(tx))
        for number in range(1, 12):
            facts = {"job": number, "vehicle": 1, "customer": 1}
            tx.keep(Draft("job-opened/1", f"job/{number}", facts, job=number, done_at=moment))
    with either.read() as reading:
        first = reading.jobs.page(limit=5)
        second = reading.jobs.page(limit=50, after=(moment, first[-1].number))
    assert [row.number for row in first + second] == list(range(11, 0, -1))


def test_pages_of_vehicles_and_customers_go_on_by_their_number(many):
    with many.read() as reading:
        assert [v.id for v in reading.vehicles.page(limit=3, after=10)] == [9, 8, 7]
        assert [c.id for c in reading.customers.page(limit=3, after=10)] == [9, 8, 7]


@pytest.mark.parametrize("what", ["jobs", "jobs of a stage", "jobs after"])
def test_a_page_of_jobs_is_read_along_an_index(what, book):
    where = {"jobs": "", "jobs of a stage": "WHERE j.stage = 'arrived'"}.get(
        what, "WHERE (j.opened_at, j.number) < ('2026-11-25', 9)"
    )
    with book.read() as reading:
        plan = [row["detail"] for row in reading.rows.all(f"EXPLAIN QUERY PLAN {ROW} {where} {NEWEST_FIRST} LIMIT 100")]
    assert any("job_stage" in line or "job_opened" in line for line in plan), plan
    assert not any("TEMP B-TREE" in line for line in plan), plan
