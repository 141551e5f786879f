"""Where things stand, rebuilt from the entries, equals what is kept: for a whole job, and for any entries at all."""

import tempfile

from hypothesis import given, settings
from hypothesis import strategies as st

from jobbook.core.errors import BookError
from jobbook.core.record.journal import Draft
from jobbook.db.audit import audit
from jobbook.db.standings.rebuild import KEYS
from jobbook.db.standings.standing import KINDS, TABLES
from tests.db.building import PERSON, customer, job, new_book, one_job, shop, vehicle, whole_job

NOT_AT_RANDOM = {"job-opened/1", "paper/1", "file/1", "credential/1", "restored/1"}
SMALL = st.integers(1, 4)
OF_NO_JOB = ("book-opened", "shop", "person", "customer", "vehicle", "tool", "specification", "method", "erased")
SEALED = ("customer/1", "concern/1")
WORDS = st.sampled_from(["", "Ott", "Weiß", "AB-12 CD", "strut", "Ørjan Ångström"])


def test_every_table_of_where_things_stand_is_rebuilt_and_compared(book):
    one_job(book)
    with book.read() as reading:
        there = {row["name"] for row in reading.rows.all("SELECT name FROM sqlite_master WHERE type = 'table'")}
    truth = {"schema", "head", "journal", "tree", "sealed", "paper_content", "file_content", "alembic_version"}
    waiting = {"import_row"}  # rows of an import that are no facts yet
    assert set(TABLES) == set(KEYS) == there - truth - waiting


def test_a_whole_job_is_rebuilt_equal_on_both_databases(either):
    whole_job(either)
    report = audit(either)
    assert (report.findings, report.complete, report.papers, report.erased) == ((), True, 2, 2)


@st.composite
def steps(draw):
    """An entry of a random kind about one of a few jobs; it may correct the last of its kind, or make no sense."""
    kind = draw(st.sampled_from(sorted(set(KINDS) - NOT_AT_RANDOM)))
    payload = {
        "job": draw(SMALL), "vehicle": draw(SMALL), "customer": draw(SMALL), "number": draw(SMALL),
        "person": draw(WORDS) or "x", "name": draw(WORDS), "phone": draw(WORDS), "vin": draw(WORDS),
        "plate": draw(WORDS), "make": "Ondry", "model": draw(WORDS), "words": draw(WORDS), "cause": draw(WORDS),
        "variant": draw(WORDS), "key": draw(WORDS), "serves": "strut@FL", "piece": str(draw(st.integers(19, 60))),
        "outcome": draw(WORDS),
        "what": draw(st.sampled_from(["vehicle", "customer"])), "gone": draw(SMALL), "kept": draw(SMALL),
        "state": draw(st.sampled_from(["fitted", "discarded"])), "due_on": "2026-12-09", "value": 1, "title": "Strut",
        "call": draw(st.integers(19, 60)), "promised": "2026-11-28", "expected": draw(WORDS),
        "reminder": draw(st.integers(19, 60)), "digest": "", "text": "", "unit": "km", "kind": "part",
        "part": str(draw(st.integers(19, 60))), "reason": draw(st.sampled_from(["failed", "still on"])),
    }  # fmt: skip
    return kind, payload, draw(st.integers(0, 3)) == 0


def keep(tx, kind, payload, corrects):
    """Keep one step, its names sealed; what is corrected, undone or erased is the last there is."""
    of_job = None if kind.split("/")[0] in OF_NO_JOB else payload["job"]
    alike = [entry for entry in tx.journal.entries(kind=kind) if entry.job == of_job]
    payload = payload | {name: tx.seal(payload[name]) for name in ("name", "phone", "words") if kind in SEALED}
    if kind == "tool/1":
        payload["number"] = payload["person"]
    if kind == "part/1":
        payload |= {"part": payload["number"], "number": payload["person"]}
    if kind == "undone/1":
        payload["act"] = next((e.act for e in reversed(tx.journal.entries(job=of_job, kind="begun/1"))), "none")
    if kind == "erased/1":
        said = [e.payload for e in tx.journal.entries(kind=SEALED)][-1]
        payload["commitments"] = [said[name] for name in ("name", "words") if said.get(name)]
    replaces = alike[-1].number if corrects and alike else None
    return tx.keep(Draft(kind, "any", payload, job=of_job, replaces=replaces))


@settings(max_examples=15)
@given(st.lists(steps(), min_size=25, max_size=60))
def test_whatever_is_kept_is_rebuilt_equal(sequence):
    refused = 0
    with tempfile.TemporaryDirectory() as folder, new_book(folder) as store:
        with store.write(PERSON) as tx:
            shop(tx)
            for number in range(4):
                owner = customer(tx)
                job(tx, vehicle(tx, owner, vin=f"V{number}"), owner)
        for step in sequence:
            try:
                with store.write(PERSON) as tx:
                    keep(tx, *step)
            except BookError:
                refused += 1  # undone twice, or a person, vehicle or customer that is not there
        report = audit(store)
    assert report.findings == ()
    assert refused < len(sequence) / 2
    assert report.entries == 18 + len(sequence) - refused
