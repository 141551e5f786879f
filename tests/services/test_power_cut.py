"""The power goes in the middle: what was acknowledged is there when the book is opened again, and says so."""

import subprocess
import sys
from pathlib import Path

import pytest

from jobbook.services.house.backups import back_up, last_backup
from jobbook.services.house.verifying import audit_book
from jobbook.services.opened import last_kept, open_book

ROOT = Path(__file__).parents[2]
BACKING_UP = """
import os, sys
from pathlib import Path
from jobbook.db.disk.backing_up import write_backup
from tests.db.building import opened
with opened(sys.argv[1]) as store:
    looks = 0
    def cut():
        global looks
        looks += 1
        if looks > int(sys.argv[3]):
            os.kill(os.getpid(), 9)
        return False
    write_backup(store, Path(sys.argv[2]), "", stop=cut)
"""


def test_nasty_case_75_what_was_acknowledged_before_the_power_went_is_kept_and_shown(at):
    there = at("taken in")
    there.book.close()
    command = [sys.executable, "-m", "tests.db.signing_meanwhile", str(there.book.folder), there.bram.id]
    program = subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert program.stdout.readline() == "ready\n"
    told = [program.stdout.readline().split()[0] for _ in range(25)]
    program.kill()
    program.communicate()
    again = open_book(there.book.folder, clock=there.clock)
    _at, number = last_kept(again)
    assert number >= int(told[-1])
    with again.store.read() as reading:
        assert [entry.number for entry in reading.journal.entries(after=int(told[0]) - 1, limit=25)] == list(
            map(int, told)
        )
    again.close()
    assert audit_book(str(there.book.folder)).findings == ()
    there.open_again()


@pytest.mark.parametrize("looks", [0, 2, 5])
def test_a_backup_in_which_the_power_went_has_no_name_and_the_next_one_is_whole(at, tmp_path, looks):
    there = at("taken in")
    (there.book.folder / "photos" / "aa.jpg").write_bytes(bytes(4 << 20))
    target = tmp_path / "a.zip"
    command = [sys.executable, "-c", BACKING_UP, str(there.book.folder), str(target), str(looks)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False, timeout=60)
    assert done.returncode == -9, done.stderr
    assert not target.exists()
    assert last_backup(there.book).at == ""
    assert back_up(there.book, there.jonas, target).file == target
    assert [one.name for one in tmp_path.glob("a.zip*")] == ["a.zip"]
    there.book.close()
    assert audit_book(str(there.book.folder)).findings == ()
    there.open_again()
