"""A backup while the book is open: whole, read back, or not there."""

import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from jobbook.core.errors import Refused, StoreUnavailable
from jobbook.core.record.heads import Head
from jobbook.db.disk.backing_up import write_backup
from jobbook.db.disk.backup_file import opened_archive, read_back
from tests.db.building import MORNING, PERSON, one_job, sign_off, whole_job
from tests.db.saying import contents

ROOT = Path(__file__).parents[2]
AT = MORNING.isoformat()


def quiet(_bytes):
    pass


def manifest_of(file):
    read_back(file, quiet)
    with opened_archive(file) as (_archive, manifest):
        return manifest


@pytest.fixture
def target(tmp_path):
    (tmp_path / "stick").mkdir()
    return tmp_path / "stick" / "a.zip"


def test_a_backup_says_which_book_it_is_of_and_up_to_which_entry(book, target):
    whole_job(book)
    written = write_backup(book, target, AT)
    manifest = manifest_of(target)
    with book.read() as reading:
        assert manifest.head == reading.journal.head()
    assert (manifest.book, manifest.key, manifest.made_at) == (book.book_id, book.key_hex, AT)
    assert manifest.is_signed
    assert manifest == written.manifest
    papers = [m.name for m in manifest.members if m.name.startswith("papers/")]
    assert len(papers) == 2
    assert list(target.parent.iterdir()) == [target]


def test_any_zip_program_opens_it(book, target):
    whole_job(book)
    write_backup(book, target, AT)
    with zipfile.ZipFile(target) as archive:
        assert archive.testzip() is None
        assert {info.compress_type for info in archive.infolist()} == {zipfile.ZIP_STORED}
    listed = shutil.which("unzip") and subprocess.run(["unzip", "-tq", target], capture_output=True, text=True)
    assert not listed or listed.returncode == 0, listed.stderr


def test_the_key_is_in_it_only_where_that_was_asked_for(book, target):
    one_job(book)
    assert not write_backup(book, target, AT).manifest.with_key
    secret = (book.folder / "keys" / "book.pem").read_bytes().splitlines()[1]
    assert secret not in target.read_bytes()
    other = target.with_name("b.zip")
    assert write_backup(book, other, AT, with_key=True).manifest.with_key
    assert secret in other.read_bytes()


def test_only_its_owner_may_read_it(book, target):
    one_job(book)
    write_backup(book, target, AT)
    assert target.stat().st_mode & 0o077 == 0


def test_photos_come_along_and_half_written_files_do_not(book, target):
    one_job(book)
    (book.folder / "photos" / "small").mkdir()
    (book.folder / "photos" / "small" / "aa.jpg").write_bytes(b"a picture")
    (book.folder / "photos" / "bb.new").write_bytes(b"half")
    names = [member.name for member in write_backup(book, target, AT).manifest.members]
    assert "photos/small/aa.jpg" in names
    assert "photos/bb.new" not in names


def test_it_is_written_over_nothing_and_not_into_the_book(book, target):
    one_job(book)
    target.write_bytes(b"something else")
    with pytest.raises(StoreUnavailable, match="is there already: nothing was backed up"):
        write_backup(book, target, AT)
    assert target.read_bytes() == b"something else"
    with pytest.raises(Refused, match="in the book's own folder"):
        write_backup(book, book.folder / "a.zip", AT)
    with pytest.raises(StoreUnavailable, match="There is no folder"):
        write_backup(book, target.parent / "gone" / "a.zip", AT)


def test_a_book_that_lost_its_key_is_backed_up_all_the_same(book, target):
    one_job(book)
    (book.folder / "keys" / "book.pem").unlink()
    assert write_backup(book, target, AT).manifest.signature == ""
    with pytest.raises(StoreUnavailable, match="key"):
        write_backup(book, target.with_name("b.zip"), AT, with_key=True)


class Stopping:
    """A wish to stop that comes at the given look."""

    def __init__(self, at):
        self.looks, self.at = 0, at

    def __call__(self):
        self.looks += 1
        return self.looks >= self.at


@pytest.mark.parametrize("at", [1, 2, 3, 4])
def test_a_backup_that_is_stopped_leaves_nothing(book, target, at):
    one_job(book)
    (book.folder / "photos" / "aa.jpg").write_bytes(bytes(3 << 20))
    before = contents(book.folder)
    with pytest.raises(Refused, match=r"was stopped: nothing of .* was left"):
        write_backup(book, target, AT, stop=Stopping(at))
    assert list(target.parent.iterdir()) == []
    assert contents(book.folder) == before


def test_how_far_it_is_grows_to_the_end(book, target):
    one_job(book)
    (book.folder / "photos" / "aa.jpg").write_bytes(bytes(3 << 20))
    told = []
    write_backup(book, target, AT, progress=lambda done, total: told.append(done / total))
    assert told == sorted(told)
    assert told[0] < 0.5 < 0.95 < told[-1] <= 1


FULL = """
import sys
from pathlib import Path
from jobbook.core.errors import StoreUnavailable
from jobbook.db.disk.backing_up import write_backup
from tests.db.building import opened
with opened(sys.argv[1]) as store:
    try:
        write_backup(store, Path(sys.argv[2]) / "a.zip", "")
    except StoreUnavailable as error:
        print(error)
print(sorted(path.name for path in Path(sys.argv[2]).iterdir()))
"""


def may_mount():
    probe = ["unshare", "-rm", "mount", "-t", "tmpfs", "none", "/mnt"]
    return shutil.which("unshare") is not None and subprocess.run(probe, capture_output=True).returncode == 0


@pytest.mark.skipif(not may_mount(), reason="needs to mount a small disk of its own (unshare -rm)")
@pytest.mark.parametrize("kilobytes", [100, 400, 1000])
def test_a_full_disk_leaves_nothing_and_says_so(book, target, kilobytes):
    """The copy of the book does not fit; the archive does not; its last photo does not."""
    whole_job(book)
    (book.folder / "photos" / "aa.jpg").write_bytes(os.urandom(900_000))
    mount = f'mount -t tmpfs -o size={kilobytes}k none "$2" && exec "$0" -c "$3" "$1" "$2"'
    command = ["unshare", "-rm", "sh", "-c", mount, sys.executable, book.folder, target.parent, FULL]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=60)
    assert done.stderr == ""
    sentence, left = done.stdout.splitlines()
    assert "nothing was left under that name, and the book is untouched" in sentence
    assert left == "[]"


LONGEST_WAIT = 2000  # milliseconds; measured: see docs/scale.md


def test_a_backup_holds_all_that_was_acknowledged_before_it_while_another_program_signs_off(book, target):
    one_job(book)
    with book.write(PERSON) as tx:
        for number in range(4000):
            sign_off(tx, joint=f"bolt {number}@FL")
    (book.folder / "photos" / "aa.jpg").write_bytes(os.urandom(20 << 20))
    command = [sys.executable, "-m", "tests.db.signing_meanwhile", str(book.folder), "np"]
    program = subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert program.stdout.readline() == "ready\n"
    before = [program.stdout.readline().split() for _ in range(20)]
    head = write_backup(book, target, AT).manifest.head
    rest = [line.split() for line in program.communicate(timeout=60)[0].splitlines()]
    assert program.returncode == 0
    assert head.size >= int(before[-1][0])
    told = [*before, *rest]
    numbers = [int(number) for number, _took in told]
    assert numbers == list(range(numbers[0], numbers[0] + len(told)))
    assert numbers[-1] > head.size
    assert max(float(took) for _number, took in told) < LONGEST_WAIT
    with book.read() as reading:
        assert reading.journal.head_at(head.size) == Head(head.size, head.root)
