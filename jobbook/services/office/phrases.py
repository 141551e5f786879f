"""Phrases to pick from while writing: those that ship, and the shop's own. What is typed is never changed by them."""

import tomllib
from collections.abc import Callable
from functools import lru_cache

from jobbook.core.desk.phrases import FIELDS, Phrase, slip_words, words_of
from jobbook.core.errors import NotFound, Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, clean_text
from jobbook.db.store import Book
from jobbook.places import resources
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook

PHRASE = "phrase/1"
LONGEST = 300


@lru_cache(maxsize=1)
def shipped() -> tuple[Phrase, ...]:
    """The phrases that come with the program, in the order of their files."""
    files = sorted((resources() / "phrases").glob("*.toml"))
    told = [tomllib.loads(file.read_text(encoding="utf-8")) for file in files]
    return tuple(Phrase(field, text) for one in told for field, texts in one["phrases"].items() for text in texts)


def own_phrases(book: OpenBook) -> tuple[Phrase, ...]:
    """The shop's own phrases that stand, in the order in which they were added."""
    with book.store.read() as reading:
        return tuple(own_of(reading))


def own_of(reading: Book) -> list[Phrase]:
    """The same within a reading: a phrase that was taken away is no longer among them."""
    found: dict[int, Phrase] = {}
    for entry in reading.journal.entries(kind=PHRASE):
        facts = entry.payload
        number = int(facts["of"] or entry.number)
        found[number] = Phrase(facts["field"], facts["text"], number)
        if facts["state"] == "gone":
            del found[number]
    return list(found.values())


def all_of(reading: Book) -> tuple[Phrase, ...]:
    """The shop's own first, since they are what people here write; then those that ship."""
    return (*own_of(reading), *shipped())


def phrases(book: OpenBook) -> tuple[Phrase, ...]:
    with book.store.read() as reading:
        return all_of(reading)


def phrases_for(there: tuple[Phrase, ...], field: str) -> tuple[str, ...]:
    """The phrases for one field, each once."""
    return tuple(dict.fromkeys(one.text for one in there if one.field == field))


def slip_hint(there: tuple[Phrase, ...]) -> Callable[[str], str]:
    """A hint for a field of text: words one slip away from a word of the phrases, asked about and never changed."""
    known = words_of(one.text for one in there)
    return lambda typed: slip_words(typed, known)


def add_phrase(book: OpenBook, who: Person, field: str, text: str) -> Phrase:
    """Keep a phrase of the shop's own. Refused: an empty or overlong one, an unknown field, one that is there."""
    said = clean_text(text).strip()
    _look_at(field, said)
    with writing(book, who, "work", "desk") as tx:
        if said in phrases_for(all_of(tx), field):
            raise Refused("The phrase was not added: it is in the list already.")
        entry = tx.keep(Draft(PHRASE, "phrase", {"field": field, "text": said, "state": "there", "of": 0}))
    return Phrase(field, said, entry.number)


def take_away(book: OpenBook, who: Person, number: int) -> None:
    """Take a phrase of the shop's own out of the list. What was written with it stays as it is."""
    with writing(book, who, "work", "desk") as tx:
        there = next((one for one in own_of(tx) if one.number == number), None)
        if there is None:
            raise NotFound("That phrase is not in the shop's list; nothing was changed.")
        tx.keep(Draft(PHRASE, "phrase", {"field": there.field, "text": there.text, "state": "gone", "of": number}))


def _look_at(field: str, said: str) -> None:
    if field not in FIELDS:
        raise Refused("The phrase was not added: choose where it is offered.")
    if not said:
        raise Refused("The phrase was not added: write it first.")
    if len(said) > LONGEST:
        raise Refused(f"The phrase was not added: it has {len(said)} letters, and {LONGEST} are the most.")
