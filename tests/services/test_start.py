"""Beginning a book: the workshop, the first person, the key; and what is in the way."""

from dataclasses import replace

import pytest

from jobbook.core.errors import Refused, StoreUnavailable
from jobbook.core.people import PERMISSIONS
from jobbook.services.house.people import add_person, all_people, by_pin
from jobbook.services.house.shop import shop
from jobbook.services.opened import last_kept, needs_start, open_book, start_book
from tests.services.workshop import MORNING, PIN, SHOP


def files(folder):
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def test_a_new_book_knows_its_workshop_its_first_person_and_has_a_key(tmp_path):
    assert needs_start(tmp_path / "book")
    book, first = start_book(tmp_path / "book", SHOP, " Imke Tolland ", PIN, clock=lambda: MORNING)
    try:
        assert not needs_start(tmp_path / "book")
        assert first.permissions == frozenset(PERMISSIONS)
        assert [person.id for person in all_people(book)] == [first.id] == ["it"]
        assert by_pin(book, first.id, PIN).has_pin
        assert shop(book) == replace(SHOP, book_id=book.store.book_id)
        assert len(book.store.key.hex) == 64
        at, number = last_kept(book)
        assert (number, at) == (3, book.now())
    finally:
        book.close()


@pytest.mark.parametrize(
    ("name", "first", "pin"),
    [
        ("  ", "Imke", PIN),
        (SHOP.name, " \n", PIN),
        (SHOP.name, "--", PIN),
        (SHOP.name, "Imke", "12"),
        (SHOP.name, "Imke", "12a4"),
    ],
)
def test_without_a_name_a_person_or_a_pin_no_book_is_begun(tmp_path, name, first, pin):
    with pytest.raises(Refused, match=r"not created|nothing was changed"):
        start_book(tmp_path / "book", replace(SHOP, name=name), first, pin)
    assert needs_start(tmp_path / "book")
    assert not (tmp_path / "book").exists()


def test_a_book_is_not_begun_over_another(tmp_path):
    start_book(tmp_path, SHOP, "Imke Tolland", PIN)[0].close()
    before = (tmp_path / "book.sqlite").read_bytes()
    with pytest.raises(StoreUnavailable, match="already"):
        start_book(tmp_path, SHOP, "Somebody Else", PIN)
    assert (tmp_path / "book.sqlite").read_bytes() == before


def test_a_start_that_broke_off_leaves_a_book_that_can_be_begun_again(tmp_path):
    def no_clock():
        raise StoreUnavailable("the power went")

    with pytest.raises(StoreUnavailable, match="power"):
        start_book(tmp_path, SHOP, "Imke Tolland", PIN, clock=no_clock)
    assert needs_start(tmp_path)
    book, first = start_book(tmp_path, SHOP, "Imke Tolland", PIN)
    book.close()
    assert first.name == "Imke Tolland"


def test_what_is_no_book_is_said_in_a_sentence_and_left_alone(tmp_path):
    (tmp_path / "book.sqlite").write_bytes(b"a shopping list, not a book" * 40)
    before = files(tmp_path), (tmp_path / "book.sqlite").read_bytes()
    assert not needs_start(tmp_path)
    with pytest.raises(StoreUnavailable) as said:
        open_book(tmp_path)
    assert str(said.value).endswith(".")
    assert "Traceback" not in str(said.value)
    assert (files(tmp_path), (tmp_path / "book.sqlite").read_bytes()) == before


def test_initials_that_are_taken_get_a_number_and_marks_are_no_initials(at):
    there = at("shop")
    same = add_person(there.book, there.imke, "Bo 'Fin' (Jr.)", frozenset({"work"}), PIN)
    twin = add_person(there.book, there.imke, "Berta Frost", frozenset({"work"}), PIN)
    assert (same.id, twin.id) == ("bfj", "bf2")
