"""That every measurement runs, at small sizes; how fast it is on a shared machine is no matter of a test."""

import pytest

from jobbook.core.record.journal import root
from jobbook.db.audit import audit
from tests.bench.__main__ import measure
from tests.bench.many_jobs import long_book
from tests.bench.reckoning import same_as_the_floats
from tests.bench.timing import QUICK, Measured, by_turns, line


@pytest.fixture(scope="module")
def figures(tmp_path_factory):
    return list(measure(tmp_path_factory.mktemp("bench"), QUICK))


def test_every_measurement_yields_the_time_of_both_sides(figures):
    assert [measured.what for measured in figures if not (measured.ours > 0 and measured.bare > 0)] == []


def test_what_the_program_is_measured_by_is_all_there(figures):
    told = " / ".join(measured.what for measured in figures)
    for subject in (
        "start of the program",
        "sign-off",
        "handover paper",
        "replay",
        "batch of",
        "survival of 1 000 parts",
        "jobs page",
        "head",
        "append",
        "proof",
        "a vehicle of",
        "part life",
        "found at",
        "longest wait of a sign-off",
        "longest gap while",
    ):
        assert subject in told


def test_the_batch_is_timed_beside_the_same_arithmetic():
    assert same_as_the_floats()


def test_the_long_book_is_one_that_the_program_could_have_written(tmp_path):
    with long_book(tmp_path / "book", jobs=40, entries=0) as store:
        report = audit(store)
    assert report.findings == ()
    assert report.entries > 120


def test_the_tree_of_the_filled_book_is_the_tree_of_its_leaves(tmp_path):
    with long_book(tmp_path / "book", jobs=1, entries=700) as store, store.read() as reading:
        head, leaves = reading.journal.head(), [entry.leaf for entry in reading.journal.entries()]
    assert head.size == len(leaves) == 700
    assert root(leaves) == head.root


def test_a_ratio_says_how_many_times_the_bare_counterpart_it_took():
    ours, bare = by_turns(lambda: sum(range(20_000)), lambda: sum(range(10)), times=5)
    assert ours > bare > 0
    assert "2.00" in line(Measured("twice", 6.0, 3.0, "once"))
