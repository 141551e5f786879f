"""Several programs on one book: real processes, and one of them killed."""

import subprocess
import sys
from pathlib import Path

from jobbook.db.audit import audit
from tests.db.building import one_job, opened

ROOT = Path(__file__).parents[2]
EACH = 25


def start(what, store, name, count):
    command = [sys.executable, "-m", "tests.db.writers", what, str(store.place), str(store.folder / "keys"), name]
    program = subprocess.Popen(
        [*command, str(count)], cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    assert program.stdout is not None
    assert program.stdout.readline() == "ready\n"
    return program


def test_two_programs_number_jobs_densely_and_never_twice(either):
    one_job(either)
    programs = [start("jobs", either, name, EACH) for name in ("np", "bf")]
    for program in programs:
        program.stdin.write("go\n")
        program.stdin.flush()
    numbers = [[int(line) for line in program.communicate(timeout=120)[0].split()] for program in programs]
    assert [program.returncode for program in programs] == [0, 0]
    assert [len(own) for own in numbers] == [EACH, EACH]
    assert sorted(numbers[0] + numbers[1]) == list(range(2, 2 * EACH + 2))
    with either.read() as reading:
        assert sorted(row.number for row in reading.jobs.page(limit=1000)) == list(range(1, 2 * EACH + 2))
    assert audit(either).findings == ()


def test_a_program_that_is_killed_keeps_every_entry_that_it_was_told_is_kept(book):
    one_job(book)
    program = start("entries", book, "np", 1_000_000)
    program.stdin.write("go\n")
    program.stdin.flush()
    told = [int(program.stdout.readline()) for _ in range(150)]
    program.kill()
    rest, _ = program.communicate(timeout=60)
    told += [int(line) for line in rest.splitlines(keepends=True) if line.endswith("\n")]
    assert program.returncode == -9
    with opened(book.folder) as again:
        with again.read() as reading:
            kept = [entry.number for entry in reading.journal.entries(kind="sign-off/1")]
        assert audit(again).findings == ()
    assert set(told) <= set(kept)
    assert len(kept) - len(told) <= 1  # the one that was committed and could not be told any more
