"""Where things stand, rebuilt from the entries, equals what is kept: for a whole job, and for any entries at all."""

import tempfile

from hypothesis import given, settings
from hypothesis import strategies as st

from jobbook.core.errors import BookError
from jobbook.core.journal import Draft
from jobbook.db.audit import audit
from jobbook.db.rebuild import KEYS
from jobbook.db.standing import KINDS, TABLES
from tests.db.building import PERSON, new_book, one_job, whole_job

SMALL = st.integers(1, 4)
WORDS = st.sampled_from(["", "Ott", "Weiß", "AB-12 CD", "strut", "Ørjan Ångström"])


def test_every_table_of_where_things_stand_is_rebuilt_and_compared(book):
    one_job(book)
    with book.read() as reading:
        there = {row["name"] for row in reading.rows.all("SELECT name FROM sqlite_master WHERE type = 'table'")}
    truth = {"schema", "head", "journal", "tree", "sealed", "paper_content", "alembic_version"}
    assert set(TABLES) == set(KEYS) == there - truth


def test_a_whole_job_is_rebuilt_equal_on_both_databases(either):
    whole_job(either)
    report = audit(either)
    assert (report.findings, report.complete, report.papers, report.erased) == ((), True, 2, 2)


@st.composite
def drafts(draw):
    """A draft of a random kind about a few jobs, vehicles, people and pieces; it need not make sense."""
    kind = draw(st.sampled_from(sorted(set(KINDS) - {"erased/1", "credential/1"})))
    job = draw(SMALL)
    payload = {
        "job": job, "vehicle": draw(SMALL), "customer": draw(SMALL), "number": draw(SMALL),
        "person": draw(WORDS) or "x", "name": draw(WORDS), "phone": "", "vin": draw(WORDS),
        "plate": draw(WORDS), "make": "Ondry", "model": draw(WORDS), "words": draw(WORDS), "cause": draw(WORDS),
        "variant": draw(WORDS), "key": draw(WORDS), "serves": "strut@FL",
        "piece": str(draw(st.integers(1, 30))), "state": draw(st.sampled_from(["fitted", "discarded"])),
        "due_on": "2026-12-09", "reminder": draw(st.integers(1, 30)), "outcome": draw(WORDS), "value": 1,
        "act": draw(st.sampled_from(["a1", "a2", "a3"])), "title": "Strut", "digest": "", "text": "",
    }  # fmt: skip
    if kind == "tool/1":
        payload["number"] = draw(WORDS) or "W1"
    of_job = kind.split("/")[0] not in ("book-opened", "shop", "person", "customer", "vehicle", "tool", "specification")
    replaces = draw(st.none() | st.integers(1, 30))
    act = draw(st.sampled_from(["", "", "a1", "a2", "a3"]))
    return Draft(kind, "any", payload, job=job if of_job else None, replaces=replaces, act=act)


def keep_what_can_be_kept(store, draft, seal):
    try:
        with store.write(PERSON) as tx:
            if seal and draft.kind in ("customer/1", "concern/1"):
                sealed = {name: tx.seal(draft.payload[name]) for name in ("name", "words")}
                draft = Draft(**(vars(draft) | {"payload": {**draft.payload, **sealed}}))
            if draft.kind == "paper/1":
                return
            tx.keep(draft)
            if seal and draft.kind == "customer/1" and draft.payload["name"] and draft.payload["number"] == 4:
                tx.keep(Draft("erased/1", "book", {"commitments": [draft.payload["name"]], "reason": "asked for"}))
    except BookError:
        pass  # what the book refuses is kept by nobody, and the audit below says so


@settings(max_examples=25)
@given(st.lists(st.tuples(drafts(), st.booleans()), min_size=5, max_size=40))
def test_whatever_is_kept_is_rebuilt_equal(sequence):
    with tempfile.TemporaryDirectory() as folder, new_book(folder) as store:
        one_job(store)
        for draft, seal in sequence:
            keep_what_can_be_kept(store, draft, seal)
        report = audit(store)
    assert report.findings == ()
    assert report.entries > 5
