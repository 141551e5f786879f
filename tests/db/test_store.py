"""The two doors: what is kept when a block ends, and that nothing is when it raises."""

import pytest

from jobbook.core.errors import Conflict, NotFound
from jobbook.core.record.journal import Draft
from jobbook.db.audit import audit
from tests.db.building import PERSON, concern, customer, fact, job, one_job, opened, paper, shop, sign_off, vehicle


class Slip(Exception):
    """Something goes wrong in the middle of a write."""


def slip(store, first):
    """A write in which something is kept first, and then something goes wrong."""
    with store.write(PERSON) as tx:
        first(tx)
        raise Slip


def test_what_a_write_keeps_is_there_for_the_next_reading(either):
    one_job(either)
    with either.read() as reading:
        assert [row.number for row in reading.jobs.page()] == [1]
        assert reading.journal.head().size == 6


def test_nothing_is_kept_when_the_block_raises(either):
    one_job(either)
    with either.read() as reading:
        before = reading.journal.head(), reading.jobs.page()

    def much(tx):
        owner = customer(tx)
        job(tx, vehicle(tx, owner, vin="XX0VRNHLT00999999"), owner)
        paper(tx, either, 1, b"a paper that never left")

    with pytest.raises(Slip):
        slip(either, much)
    with either.read() as reading:
        assert (reading.journal.head(), reading.jobs.page()) == before
        assert reading.vehicles.by_vin("XX0VRNHLT00999999") is None
        assert reading.customers.page(text="Ottilie")[1:] == []
    assert list((either.folder / "papers").glob("*")) == []
    assert audit(either).findings == ()


def test_a_paper_that_was_there_before_outlives_a_write_that_raises(book):
    one_job(book)
    with book.write(PERSON) as tx:
        kept = paper(tx, book, 1, b"the paper")
    with pytest.raises(Slip):
        slip(book, lambda tx: paper(tx, book, 1, b"the paper"))
    with book.read() as reading:
        assert reading.papers.bytes(kept.payload["digest"]) == b"the paper"


def test_an_entry_that_was_kept_by_half_and_passed_over_keeps_the_whole_write_out(book):
    one_job(book)

    def passed_over():
        with book.write(PERSON) as tx:
            sign_off(tx)
            with pytest.raises(KeyError):
                tx.keep(Draft("piece-state/1", "job/1", {"job": 1, "piece": "7"}, job=1))

    with pytest.raises(RuntimeError, match="kept by half"):
        passed_over()
    with book.read() as reading:
        assert reading.journal.head().size == 6


def test_the_same_act_kept_twice_is_kept_once(either):
    one_job(either)
    with either.write(PERSON) as tx:
        first = sign_off(tx, act="lower bolt, stage 2")
    with either.write(PERSON) as tx:
        again = sign_off(tx, act="lower bolt, stage 2")
    assert again.number == first.number
    assert (again.body, again.leaf) == (first.body, first.leaf)
    with either.read() as reading:
        assert len(reading.journal.entries(kind="sign-off/1")) == 1


def test_the_same_act_with_other_content_is_a_conflict(either):
    one_job(either)
    with either.write(PERSON) as tx:
        sign_off(tx, act="lower bolt, stage 2")
    with pytest.raises(Conflict, match="kept before as entry 7"), either.write(PERSON) as tx:
        sign_off(tx, act="lower bolt, stage 2", joint="upper_bolt@FL")


def test_a_second_correction_of_the_same_entry_is_a_conflict(either):
    one_job(either)
    with either.write(PERSON) as tx:
        wrong = sign_off(tx)
        sign_off(tx, replaces=wrong.number, reason="the other bolt")
    with pytest.raises(Conflict, match="corrected by somebody else"), either.write(PERSON) as tx:
        sign_off(tx, replaces=wrong.number, reason="the other bolt")


def test_a_correction_is_of_the_same_kind_and_job(book):
    one_job(book)
    with book.write(PERSON) as tx:
        wrong = sign_off(tx)
    with pytest.raises(Conflict, match="another kind or job"), book.write(PERSON) as tx:
        fact(tx, "note/1", 1, {"text": ""}, replaces=wrong.number, reason="no")
    with pytest.raises(NotFound, match="no entry 99"), book.write(PERSON) as tx:
        sign_off(tx, replaces=99, reason="no")


def test_what_names_a_job_that_is_not_there_is_refused(either):
    one_job(either)
    with pytest.raises(NotFound, match="no job 8"), either.write(PERSON) as tx:
        sign_off(tx, of_job=8)


def test_what_names_a_vehicle_or_customer_that_is_not_there_is_refused(either):
    one_job(either)
    with pytest.raises(NotFound, match="not in the book"), either.write(PERSON) as tx:
        job(tx, 77, 1)


def test_a_job_number_that_somebody_else_took_is_a_conflict(book):
    one_job(book)
    with pytest.raises(Conflict, match="Job 1 was opened"), book.write(PERSON) as tx:
        tx.keep(Draft("job-opened/1", "job/1", {"job": 1, "vehicle": 1, "customer": 1}, job=1))


def test_something_is_undone_once_and_only_in_its_own_job(book):
    one_job(book)
    with book.write(PERSON) as tx:
        fact(tx, "act/1", 1, {"act": {}}, act="a")
        fact(tx, "undone/1", 1, {"act": "a"})
    with pytest.raises(Conflict, match="undone already"), book.write(PERSON) as tx:
        fact(tx, "undone/1", 1, {"act": "a"})
    with pytest.raises(NotFound, match="not in this job"), book.write(PERSON) as tx:
        fact(tx, "undone/1", 1, {"act": "b"})


def test_the_head_inside_a_write_takes_in_what_the_write_has_kept(either):
    with either.write(PERSON) as tx:
        assert tx.journal.head().size == 0
        shop(tx)
        inside = tx.journal.head()
    with either.read() as reading:
        assert reading.journal.head() == inside


def test_done_by_and_entered_by_are_two_people(book):
    one_job(book)
    with book.write("jw") as tx:
        entry = sign_off(tx, done_by="np", done_at="2026-11-24T16:00:00+01:00")
    assert (entry.done_by, entry.entered_by) == ("np", "jw")
    assert (entry.done_at, entry.facts["done_at"]) == ("2026-11-24T16:00:00+01:00",) * 2


def test_listeners_hear_the_kinds_after_the_commit_and_nothing_after_a_slip(book):
    heard = []

    def listen(kinds):
        with book.read() as reading:
            heard.append((kinds, reading.journal.head().size))

    book.on_change(listen)
    one_job(book)
    with pytest.raises(Slip):
        slip(book, sign_off)
    kinds = {"book-opened/1", "person/1", "customer/1", "vehicle/1", "job-opened/1", "concern/1"}
    assert heard == [(kinds, 6)]


def test_poll_tells_what_other_programs_kept_and_not_what_this_one_did(book):
    one_job(book)
    heard = []
    book.on_change(heard.append)
    with opened(book.folder) as other, other.write("np") as tx:
        sign_off(tx)
    with book.write(PERSON) as tx:
        concern(tx, 1, cause="sleeve")
    assert book.poll() == {"sign-off/1"}
    assert book.poll() == set()
    assert heard == [{"concern/1"}, {"sign-off/1"}]


def test_poll_tells_it_on_a_server_too(either):
    one_job(either)
    with opened(either.place, keys=either.folder / "keys") as other, other.write("np") as tx:
        sign_off(tx)
    assert either.poll() == {"sign-off/1"}
    assert either.poll() == set()


def test_a_reading_stays_at_its_moment_while_others_write(either):
    one_job(either)
    with either.read() as reading:
        before = reading.journal.head().size
        with either.write(PERSON) as tx:
            sign_off(tx)
        assert reading.journal.head().size == before
    with either.read() as reading:
        assert reading.journal.head().size == before + 1


def test_a_book_that_is_opened_again_is_the_same(book):
    one_job(book)
    with opened(book.folder) as again:
        assert (again.book_id, again.key_hex, again.key.fingerprint) == (
            book.book_id,
            book.key_hex,
            book.key.fingerprint,
        )
        with again.read() as reading:
            assert reading.jobs.get(1).concerns[0].words == "Hangs at the front left after a night"


def test_an_earlier_head_is_what_the_book_had_at_that_size(either):
    heads = {}
    one_job(either)
    for _ in range(3):
        with either.write(PERSON) as tx:
            sign_off(tx)
            heads[tx.journal.head().size] = tx.journal.head()
    with either.read() as reading:
        assert {size: reading.journal.head_at(size) for size in heads} == heads
        assert reading.journal.head_at(99) is None
