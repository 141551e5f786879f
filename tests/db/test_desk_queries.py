"""What the desk asks of a whole book: who was not seen for long, what is waited for, whose clock ran ahead; on both."""

from jobbook.core.record.journal import Draft
from tests.db.building import MORNING, PERSON, customer, fact, one_job

LATER = "2030-01-01"


def test_a_customer_is_seen_until_their_last_job_ended_and_gone_once_forgotten(either):
    number = one_job(either)
    with either.write(PERSON) as tx:
        idle = customer(tx, "Orla Finchley")

    def unseen(day):
        with either.read() as reading:
            return [
                (row["id"], row["jobs"], (row["last"] or "")[:10]) for row in reading.customers.last_seen_before(day, 9)
            ]

    assert unseen("2026-11-25") == []
    assert unseen(LATER) == [(idle, 0, "")]  # the other's job is open
    with either.write(PERSON) as tx:
        fact(tx, "released/1", number, {"job": number, "restriction": "", "let_go": []})
    assert unseen(LATER) == [(1, 1, "2026-11-25"), (idle, 0, "")]
    with either.write(PERSON) as tx:
        name = tx.journal.entries(kind="customer/1")[0].payload["name"]
        tx.keep(Draft("erased/1", "customer/1", {"commitments": [name], "reason": "asked for"}))
    assert unseen(LATER) == [(idle, 0, "")]


def test_a_call_that_came_to_nothing_is_unseen_until_it_is_erased(either):
    with either.write(PERSON) as tx:
        said = {"caller": tx.seal("Ida"), "phone": tx.seal("0700"), "words": tx.seal("Low.")}
        call = tx.keep(Draft("call/1", "call", said | {"expected": ""}))
    with either.read() as reading:
        assert reading.calls.ended_before(LATER, 9) == []
    with either.write(PERSON) as tx:
        tx.keep(Draft("call-closed/1", "call", {"call": call.number, "outcome": "not needed", "note": "", "job": 0}))
    with either.read() as reading:
        assert [one.caller for one in reading.calls.ended_before(LATER, 9)] == ["Ida"]
        assert reading.calls.entries_of(call.number) == [call.number]
        assert reading.calls.ended_before("2026-11-25", 9) == []


def test_what_a_vehicle_waits_for_is_due_however_far_its_day_is_off(either):
    number = one_job(either)
    with either.write(PERSON) as tx:
        facts = {"what": "strut", "due_on": LATER, "due_at": ""}
        fact(tx, "reminder/1", number, facts)
        waited = fact(tx, "reminder/1", number, facts | {"waits_for": "part", "stands": "lift"})
    with either.read() as reading:
        ((one, where),) = reading.reminders.due("2026-12-01", 9)
    assert (one.entry, one.waits_for, one.stands, one.made_at[:10]) == (waited.number, "part", "lift", "2026-11-25")
    assert where.startswith("Varnholt")


def test_the_entries_of_a_clock_that_ran_ahead_are_those_between_it_and_the_last_right_one(either):
    one_job(either)
    with either.read() as reading:
        size, last = reading.journal.head().size, reading.journal.entries()[-1].facts["entered_at"]
        assert reading.ahead() == ()
    before = MORNING.replace(year=2025).isoformat()
    with either.write(PERSON) as tx:
        facts = {"last": last, "entry": size, "now": before}
        tx.keep(Draft("clock-set-back/1", "book", facts, reason="the year was wrong"))
        tx.keep(Draft("clock-set-back/1", "book", {"last": "", "entry": 0, "now": ""}, reason="cannot be read"))
    with either.read() as reading:
        (told,) = reading.ahead()
    assert (told.first, told.last, told.entry) == (1, size, size + 1)
