"""The command line's contract: exit statuses, JSON, one sentence on standard error, never a traceback."""

import json
import shutil
import subprocess
import sys
from pathlib import Path
from sqlite3 import connect

import pytest
from click.testing import CliRunner, Result

from jobbook.cli import main
from jobbook.places import resources
from tests.db.saying import contents

FLAWED = Path(__file__).parent.parent / "data" / "methods" / "flawed"


@pytest.fixture(scope="session")
def built(tmp_path_factory) -> Path:
    """The demonstration book, built by the command."""
    folder = tmp_path_factory.mktemp("sample") / "book"
    done = jobbook("sample", folder, "--json")
    assert done.exit_code == 0
    facts = json.loads(done.stdout)
    assert facts["jobs"] == [1, 2, 3, 4, 5, 6, 7, 8]
    assert [Path(paper).is_file() for paper in facts["papers"]] == [True] * 3
    return folder


@pytest.fixture
def book(built, tmp_path) -> Path:
    return shutil.copytree(built, tmp_path / "book")


def jobbook(*words: object) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


def refused(*words: object, status: int = 2) -> str:
    """The one sentence on standard error of a command that was refused."""
    done = jobbook(*words)
    assert isinstance(done.exception, SystemExit), done.exception
    assert (done.exit_code, done.stdout) == (status, "")
    (sentence,) = done.stderr.splitlines()
    assert sentence.endswith(".")
    return sentence


def as_json(*words: object, status: int = 0):
    done = jobbook(*words, "--json")
    assert (done.exit_code, done.stderr) == (status, "")
    return json.loads(done.stdout)


def test_the_sample_says_where_it_lies_and_is_not_built_over_a_book(built, book):
    before = (book / "book.sqlite").read_bytes()
    assert "There is a book in" in refused("sample", book)
    assert (book / "book.sqlite").read_bytes() == before
    assert jobbook("audit", built).exit_code == 0


@pytest.mark.skipif(shutil.which("prlimit") is None, reason="needs prlimit, to make a disk that is soon full")
@pytest.mark.parametrize("there", ["nothing", "an empty folder", "a letter"])
@pytest.mark.parametrize("room", [100_000, 300_000])
def test_on_a_disk_that_takes_no_more_nothing_half_built_is_left(tmp_path, there, room):
    folder = tmp_path / "book"
    if there != "nothing":
        folder.mkdir()
    if there == "a letter":
        (folder / "letter.txt").write_text("keep me")
    command = [sys.executable, "-m", "jobbook.cli", "sample", str(folder)]
    done = subprocess.run(["prlimit", f"--fsize={room}", *command], capture_output=True, text=True, timeout=120)
    assert (done.returncode, done.stdout) == (2, "")
    (sentence,) = done.stderr.splitlines()
    assert "The disk of the book at" in sentence
    if there == "a letter":
        assert (folder / "letter.txt").read_text() == "keep me"
    else:
        assert not folder.exists()


@pytest.mark.parametrize("kind", ["arrival", "estimate", "handover", "evidence"])
def test_a_paper_is_a_preview_or_one_that_left(book, tmp_path, kind):
    facts = as_json("paper", book, 2, kind, "--out", tmp_path / "out")
    assert facts == {"file": str(tmp_path / "out" / f"{kind}-2-preview.pdf"), "job": 2, "kind": kind, "issued": False}
    done = jobbook("paper", book, 2, kind, "--out", tmp_path / "out", "--issue")
    assert done.stdout.strip() == str(tmp_path / "out" / f"{kind}-2.pdf")
    for file, left in ((facts["file"], False), (done.stdout.strip(), True)):
        told = as_json("verify", file, "--book", book)
        assert told["verdict"] == "consistent"
        assert any("preview" in one.lower() for one in told["findings"]) is not left
    assert as_json("audit", book)["papers"] == 4


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("2", "invoice"), "There is no paper “invoice”"),
        (("99", "handover"), "There is no job 99"),
        (("2", "handover", "--issue", "--by", "nobody"), "There is no person “nobody”"),
        (("2", "handover", "--issue", "--by", "nop"), "has no permission"),
    ],
)
def test_a_paper_that_cannot_be_printed_is_one_sentence(book, tmp_path, words, said):
    assert said in refused("paper", book, *words, "--out", tmp_path / "out")
    assert not list((tmp_path / "out").glob("*.*"))
    assert as_json("audit", book)["papers"] == 3


def test_a_folder_that_cannot_be_written_is_one_sentence(book, tmp_path):
    (tmp_path / "file").write_text("in the way")
    sentence = refused("paper", book, 2, "handover", "--out", tmp_path / "file" / "inside")
    assert "Not a directory" in sentence
    assert "look at the disk and the path" in sentence


BAD_BOOKS = ["missing", "no database", "from the future", "cut short"]


@pytest.fixture(params=BAD_BOOKS)
def bad_book(request, built, tmp_path) -> Path:
    place = tmp_path / "bad"
    if request.param == "missing":
        return place
    shutil.copytree(built, place)
    file = place / "book.sqlite"
    if request.param == "no database":
        file.write_bytes(b"a shopping list" * 300)
    elif request.param == "cut short":
        file.write_bytes(file.read_bytes()[:5000])
    else:
        connection = connect(file)
        connection.execute("UPDATE schema SET major = 99")
        connection.commit()
        connection.close()
    return place


def test_a_book_that_cannot_be_opened_is_one_sentence_for_every_command(bad_book, built, tmp_path):
    before = contents(bad_book)
    left = next((built / "papers").glob("*.pdf"))
    for words in (
        ("paper", bad_book, 2, "handover", "--out", tmp_path / "out"),
        ("audit", bad_book),
        ("verify", left, "--book", bad_book),
    ):
        assert str(bad_book) in refused(*words)
    assert contents(bad_book) == before


def test_verify_says_consistent_altered_or_unreadable(built, tmp_path):
    left = next((built / "papers").glob("*.pdf"))
    key = as_json("audit", built)["key"]
    assert as_json("verify", left, "--book", built, "--key", key)["verdict"] == "consistent"
    assert as_json("verify", left, "--key", "dead beef", status=1)["verdict"] == "altered"
    data = bytearray(left.read_bytes())
    data[len(data) // 2] ^= 1
    (tmp_path / "altered.pdf").write_bytes(data)
    done = jobbook("verify", tmp_path / "altered.pdf")
    assert (done.exit_code, done.stderr) == (1, "")
    (tmp_path / "letter.txt").write_text("dear sir")
    assert jobbook("verify", tmp_path / "letter.txt").exit_code == 2
    assert "is no file that can be checked" in refused("verify", tmp_path / "none.pdf")


def test_audit_says_sound_or_names_what_it_found(book):
    done = jobbook("audit", book)
    assert done.exit_code == 0
    assert "3 papers: sound. Key " in done.stdout
    paper = next((book / "papers").glob("*.pdf"))
    paper.unlink()
    found = as_json("audit", book, status=1)
    assert len(found["findings"]) == 1
    assert "1 findings" in jobbook("audit", book).stdout


def test_the_methods_that_ship_have_no_findings():
    files = sorted((resources() / "methods").glob("*.toml"))
    assert files
    done = jobbook("method", "check", *files)
    assert (done.exit_code, done.stdout) == (0, "No findings.\n")
    assert as_json("method", "check", files[0]) == []


def test_a_finding_has_rule_step_options_and_message():
    found = as_json("method", "check", FLAWED / "half-built.toml", status=1)
    assert {frozenset(one) for one in found} == {frozenset({"rule", "step", "options", "message"})}
    assert "half-built" in {one["rule"] for one in found}
    assert all(one["step"] == "end" or isinstance(one["step"], int) for one in found)
    line = jobbook("method", "check", FLAWED / "half-built.toml").stdout.splitlines()[0]
    assert f"half-built.toml: {found[0]['rule']}, " in line
    assert found[0]["message"] in line


def test_findings_of_several_files_name_the_file():
    files = (FLAWED / "half-built.toml", FLAWED / "left-off.toml")
    found = as_json("method", "check", *files, status=1)
    assert {one["file"] for one in found} == {str(file) for file in files}


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"a = [1, 2", "line 1, column"),
        (b"[method\ntitle = 1", "line 1"),
        (b"\xff\xfe", "."),
        (b"a." * 200 + b"b = 1", "."),
        (b"x = 1\n" * 60_000, "262144"),
        (b"a = " + b"[" * 900, "."),
    ],
)
def test_a_file_that_is_no_method_is_one_sentence_with_its_place(tmp_path, data, said):
    file = tmp_path / "method.toml"
    file.write_bytes(data)
    sentence = refused("method", "check", file)
    assert sentence.startswith(f"{file}: ")
    assert said in sentence


def test_a_method_file_that_is_not_there_is_one_sentence(tmp_path):
    assert "No such file" in refused("method", "check", tmp_path / "none.toml")
    assert "Is a directory" in refused("method", "check", tmp_path)


def test_words_that_are_missing_or_wrong_say_how_to_use_the_command():
    for words in (("paper",), ("paper", "book", "two", "handover", "--out", "x"), ("method", "check"), ("verify",)):
        done = jobbook(*words)
        assert done.exit_code == 2
        assert done.stderr.startswith("Usage:")
        assert "Traceback" not in done.stderr


def test_a_first_word_that_is_no_command_is_a_book_for_the_window_which_wants_a_screen(monkeypatch, tmp_path):
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    for words in ((tmp_path / "book",), ()):
        done = jobbook(*words)
        assert done.exit_code == 2
    assert not list(tmp_path.iterdir())
