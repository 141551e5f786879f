"""`jobbook backup` and `jobbook restore`: exit statuses, JSON, one sentence, nothing half-done."""

import json

import pytest
from click.testing import CliRunner

from jobbook.cli import main
from jobbook.services import papers
from jobbook.services.house.people import get_person
from jobbook.services.office.intake import take_in
from jobbook.services.opened import open_book, start_book
from tests.services.workshop import ARRIVAL, PIN, SHOP


@pytest.fixture
def place(tmp_path):
    start_book(tmp_path / "book", SHOP, "Imke Tolland", PIN)[0].close()
    return str(tmp_path / "book")


@pytest.fixture
def file(tmp_path):
    return tmp_path / "a.zip"


def run(*words):
    result = CliRunner().invoke(main, [str(word) for word in words])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def test_a_book_is_backed_up_restored_and_audited(place, file, tmp_path):
    told = json.loads(run("backup", place, file, "--with-key", "--by", "it", "--json").stdout)
    assert told["file"] == str(file)
    assert (told["with_key"], told["signed"], told["bytes"]) == (True, True, file.stat().st_size)
    told = json.loads(run("restore", file, tmp_path / "again", "--last-entry", 40, "--json").stdout)
    assert (told["last_entry"], told["epoch"], told["missing"]) == (40, 2, 40 - told["entries"])
    assert told["next"]["job"] == 101
    audited = json.loads(run("audit", tmp_path / "again", "--json").stdout)
    assert (audited["findings"], audited["epoch"]) == ([], 2)


def test_sentences_say_where_it_lies_and_what_is_missing(place, file, tmp_path):
    said = run("backup", place, file)
    assert said.exit_code == 0
    assert "written and read back" in said.stdout
    assert "The book's key is not in it." in said.stdout
    said = run("restore", file, tmp_path / "again")
    assert "begins with entry" in said.stdout
    assert "Put your copy of the key back" in said.stdout


def test_an_altered_file_ends_with_1_and_an_unreadable_one_with_2(place, file, tmp_path):
    run("backup", place, file)
    whole = file.read_bytes()
    file.write_bytes(whole[:200] + bytes([whole[200] ^ 1]) + whole[201:])
    for data, status in ((file.read_bytes(), 1), (whole[:5000], 2), (b"", 2)):
        file.write_bytes(data)
        said = run("restore", file, tmp_path / "again")
        assert (said.exit_code, said.stderr.count("\n")) == (status, 1)
        assert "nothing was restored" in said.stderr
        assert not (tmp_path / "again").exists()


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("backup", "{book}", "{file}", "--by", "zz"), "zz"),
        (("backup", "{book}/none", "{file}"), "There is no book"),
        (("backup", "{book}", "{book}/a.zip"), "in the book's own folder"),
        (("restore", "{file}", "{book}"), "There is no backup"),
        (("restore", "{book}", "{book}"), "There is no backup"),
    ],
)
def test_what_cannot_be_done_is_one_sentence_and_2(place, file, words, sentence):
    said = run(*(word.format(book=place, file=file) for word in words))
    assert said.exit_code == 2
    assert sentence in said.stderr
    assert said.stderr.count("\n") == 1
    assert not file.exists()


def test_a_paper_of_the_lost_part_is_consistent_and_the_json_says_so(place, file, tmp_path):
    book = open_book(place)
    imke = get_person(book, "it")
    job = take_in(book, imke, ARRIVAL)
    run("backup", place, file, "--with-key")
    paper = papers.paper_path(book, papers.issue(book, imke, job, "evidence"))
    book.close()
    restored = run("restore", file, tmp_path / "again", "--paper", paper, "--json")
    assert json.loads(restored.stdout)["last_entry"]
    said = run("verify", paper, "--book", tmp_path / "again", "--json")
    assert (said.exit_code, json.loads(said.stdout)["lost"]) == (0, True)


def test_a_restored_book_opens(place, file, tmp_path):
    run("backup", place, file, "--with-key")
    run("restore", file, tmp_path / "again")
    book = open_book(tmp_path / "again")
    with book.store.read() as reading:
        assert reading.shop().name == SHOP.name
    book.close()
