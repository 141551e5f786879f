"""Is a paper as it was issued? By itself, against its book, against a fingerprint."""

from pathlib import Path

import pytest

from jobbook.core.errors import StoreUnavailable, Unreadable
from jobbook.paperwork.attached import attachment
from jobbook.services import papers
from jobbook.services.house.verifying import audit_book, verify_file
from jobbook.services.opened import start_book
from tests.services.workshop import PIN, SHOP


@pytest.fixture
def there(at):
    return at("taken in")


@pytest.fixture
def paper(there) -> Path:
    return papers.paper_path(there.book, papers.issue(there.book, there.jonas, there.job, "evidence"))


@pytest.fixture
def pack(paper, tmp_path) -> Path:
    file = tmp_path / "entries.json"
    file.write_bytes(attachment(paper.read_bytes(), "entries.json"))
    return file


@pytest.fixture
def stranger(tmp_path) -> Path:
    start_book(tmp_path / "other", SHOP, "Somebody Else", PIN)[0].close()
    return tmp_path / "other"


def test_a_paper_and_its_pack_are_consistent_and_name_the_key_to_compare(there, paper, pack):
    key = there.book.store.key.fingerprint
    for file in (paper, pack):
        answer = verify_file(file)
        assert (answer.word, answer.status) == ("consistent", 0)
        assert answer.sentences[0] == f"Consistent, signed by {key}: compare with a paper."


def test_the_book_and_the_fingerprint_say_more(there, paper, pack):
    place, key = str(there.book.folder), there.book.store.key.fingerprint
    for file in (paper, pack):
        assert verify_file(file, place, key.upper().replace(" ", "")).word == "consistent"
        answer = verify_file(file, key="0000 1111 2222 3333")
        assert answer.status == 1
        assert "not by 0000 1111 2222 3333" in answer.sentences[0]


def test_a_paper_of_another_book_is_told(paper, pack, stranger):
    for file in (paper, pack):
        answer = verify_file(file, str(stranger))
        assert (answer.word, answer.sentences) == (
            "altered",
            ("It does not come from this book: another book's id or key stands in it.",),
        )


def test_a_preview_is_consistent_and_says_that_it_never_left(there, tmp_path):
    file = papers.print_to(there.book, there.job, "handover", tmp_path)
    answer = verify_file(file, str(there.book.folder))
    assert answer.word == "consistent"
    assert "preview" in " ".join(answer.sentences).lower()


@pytest.mark.parametrize("place", [0.1, 0.5, 0.9])
def test_an_altered_byte_is_found(paper, tmp_path, place):
    data = bytearray(paper.read_bytes())
    data[int(len(data) * place)] ^= 1
    file = tmp_path / "altered.pdf"
    file.write_bytes(data)
    assert verify_file(file).word == "altered"


def test_a_pack_whose_words_were_changed_is_altered(pack):
    pack.write_bytes(pack.read_bytes().replace(b"down in the morning", b"down in the evening"))
    text = pack.read_bytes().replace(b"driven", b"towed!")
    pack.write_bytes(text)
    assert verify_file(pack).word == "altered"


def test_a_paper_that_left_another_copy_of_the_book_is_unknown_here(at, there, paper, tmp_path_factory, played):
    twin = played.at("taken in", tmp_path_factory.mktemp("twin"))
    twin.close()
    answer = verify_file(paper, str(twin.book.folder))
    assert answer.word == "altered"
    assert "This paper is not among those that left this book." in answer.sentences


@pytest.mark.parametrize("data", [b"", b"{", b'{"book": 1}', b"%PDF-1.4 nothing", b"hello", bytes(range(256))])
def test_what_is_no_paper_of_ours_is_unreadable_in_a_sentence(tmp_path, data):
    file = tmp_path / "file"
    file.write_bytes(data)
    word, sentence = told(file)
    assert word == "unreadable"
    assert sentence.endswith(".")


def told(file):
    try:
        answer = verify_file(file)
    except Unreadable as said:
        return "unreadable", str(said)
    return answer.word, answer.sentences[0]


def test_what_is_not_there_cannot_be_checked(tmp_path):
    with pytest.raises(Unreadable, match="is no file that can be checked"):
        verify_file(tmp_path / "none.pdf")
    with pytest.raises(Unreadable, match="is no file that can be checked"):
        verify_file(tmp_path)


def test_a_book_that_is_not_there_cannot_say_more(paper, tmp_path):
    with pytest.raises(StoreUnavailable):
        verify_file(paper, str(tmp_path / "nowhere"))


def test_a_whole_book_is_audited(there, paper):
    there.book.close()
    report = audit_book(str(there.book.folder))
    assert (report.findings, report.papers) == ((), 1)
    paper.write_bytes(paper.read_bytes()[:-1])
    assert audit_book(str(there.book.folder)).findings != ()
    there.open_again()
