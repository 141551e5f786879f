"""The same work on a book that lies on a PostgreSQL server: the whole demonstration, compared with one in a folder."""

from pathlib import Path

import pytest

from jobbook.core.errors import StoreUnavailable
from jobbook.db.audit import audit
from jobbook.services import files, papers
from jobbook.services.demonstration import build
from jobbook.services.house import verifying
from jobbook.services.house.people import all_people
from jobbook.services.jobs import jobs
from jobbook.services.office.finding import find
from jobbook.services.office.today import today
from jobbook.services.opened import open_book
from jobbook.services.sheet.jobsheet import job_sheet
from tests.db.conftest import empty_database, needs_server
from tests.services.pictures_at_hand import picture

pytestmark = needs_server


@pytest.fixture(scope="module")
def both(tmp_path_factory):
    """The demonstration on a server and in a folder: address, folder, and what was built at each."""
    scratch = tmp_path_factory.mktemp("both")
    with pytest.MonkeyPatch.context() as patch, empty_database("services") as address:
        patch.setenv("XDG_DATA_HOME", str(scratch / "workstation"))
        yield address, scratch / "book", build(address), build(scratch / "book")


def test_the_whole_job_comes_to_the_same_on_a_server_and_in_a_folder(both):
    address, folder, on_server, in_folder = both
    assert on_server.jobs == in_folder.jobs
    assert shown(address, on_server.jobs) == shown(folder, in_folder.jobs)


def shown(place: str | Path, numbers: tuple[int, ...]) -> list[object]:
    """What the lists and the job pages show, without the ids and keys that every book has of its own."""
    book = open_book(place)
    rows = [jobs(book, text=text).rows for text in ("", "teasel", "ald", "204117", "parked")]
    sheets = [job_sheet(book, number) for number in numbers]
    told = [(s.facts, s.cry, s.staffs, s.state, s.loose_now, s.still_to_do, s.held, s.tabs, s.steps) for s in sheets]
    book.close()
    assert all(rows)
    return [rows, told]


def test_the_book_on_the_server_is_whole(both):
    address, _, _, _ = both
    report = verifying.audit_book(address)
    assert report.findings == ()
    assert report.papers == 3


def test_papers_lie_in_the_database_and_are_laid_on_disk_when_they_are_opened(both, tmp_path):
    address, _, built, _ = both
    book = open_book(address)
    paper = papers.papers(book, built.jobs[0])[0]
    papers.paper_path(book, paper).unlink()
    again = papers.paper_path(book, paper)
    preview = papers.print_to(book, built.jobs[1], "evidence", tmp_path)
    book.close()
    assert verifying.verify_file(again, address).word == "consistent"
    assert preview.read_bytes().startswith(b"%PDF")


def test_the_key_of_the_workstation_lies_apart_from_what_others_use(both, tmp_path):
    address, _, built, _ = both
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_DATA_HOME", str(tmp_path / "another workstation"))
        book = open_book(address)
        sheet = job_sheet(book, built.jobs[1])
        with pytest.raises(StoreUnavailable, match="no paper can leave"):
            papers.issue(book, all_people(book)[0], built.jobs[-1], "handover")
        book.close()
    assert sheet.steps


def test_pictures_lie_on_the_server_and_their_small_ones_beside_the_workstation(both):
    address, _, on_server, _ = both
    book = open_book(address)
    who = next(one for one in all_people(book) if one.may("work"))
    (file,) = files.add_files(book, who, on_server.jobs[0], [files.of_bytes("a.jpg", picture("red"))]).kept
    assert files.content(book, file.digest) == picture("red")
    assert not (book.folder / "photos" / file.digest).exists()
    (book.folder / "photos" / "small" / f"{file.digest}.jpg").unlink()
    assert files.small_picture(book, file)
    assert audit(book.store).sound
    book.close()


def test_today_comes_to_the_same_on_a_server_and_in_a_folder(both):
    address, folder, *_built = both
    said = []
    for place in (address, str(folder)):
        book = open_book(place)
        now = today(book)
        said.append(([(one.kind, one.what, one.due, one.where) for one in now.lines if one.kind != "backup"], now.last))
        book.close()
    assert said[0] == said[1]
    assert said[0][0]


def test_numbers_are_found_and_a_file_is_erased_on_a_server_too(both):
    address, _, on_server, _ = both
    book = open_book(address)
    imke = next(one for one in all_people(book) if one.may("people"))
    assert [len(find(book, typed)) for typed in ("0999 555 0147", "+999 555 0147", "CL-9981")] == [0, 0, 0]
    job = on_server.jobs[-1]
    (kept,) = files.add_files(book, imke, job, [files.of_bytes("face.jpg", picture("teal"))]).kept
    assert files.small_picture(book, kept)
    files.erase(book, imke, job, [kept.entry], "asked for by the person whom it shows")
    assert not list((book.folder / "photos").rglob(f"{kept.digest}*"))
    with book.store.read() as reading:
        assert not reading.files.is_there(kept.digest)
    report = audit(book.store)
    assert (report.sound, len(report.files_erased)) == (True, 1)
    book.close()
