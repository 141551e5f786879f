"""An opened book: the store with the clock and the source of chance that every use case is given."""

from collections.abc import Callable
from dataclasses import asdict, dataclass, field
from datetime import date
from pathlib import Path

from jobbook.core.errors import Refused
from jobbook.core.people import PERMISSIONS, Person, Shop
from jobbook.core.record.journal import Draft, clean_text
from jobbook.db import store as stores
from jobbook.services.clock import Chance, Clock, system_chance, system_clock
from jobbook.services.house import secrets_of_people, workstation


@dataclass(frozen=True)
class OpenBook:
    """One workshop's records, open. It lives from `open_book` or `start_book` until `close`."""

    store: stores.Store
    clock: Clock
    chance: Chance
    wrong_pins: dict[str, tuple[int, float]] = field(default_factory=dict)  # in a row, and when the last was

    @property
    def folder(self) -> Path:
        return self.store.folder

    def today(self) -> date:
        return self.clock().date()

    def now(self) -> str:
        """The present moment as it stands in entries."""
        return self.clock().isoformat()

    def on_change(self, tell: Callable[[set[str]], None]) -> None:
        """Call `tell` with the kinds touched, after each commit of this program and at `poll` for others'."""
        self.store.on_change(tell)

    def poll(self) -> None:
        self.store.poll()

    def close(self) -> None:
        self.store.close()


def needs_start(place: str | Path) -> bool:
    """Whether there is no book at this place yet."""
    return not stores.is_book(place)


def open_book(place: str | Path, *, clock: Clock = system_clock, chance: Chance = system_chance) -> OpenBook:
    """Open the book that lies at this place. Raises StoreUnavailable with the sentence for the person."""
    return OpenBook(stores.open_book(place, clock=clock, random=chance, keys=workstation.keys()), clock, chance)


def start_book(
    place: str | Path,
    shop: Shop,
    first_name: str,
    pin: str,
    *,
    clock: Clock = system_clock,
    chance: Chance = system_chance,
) -> tuple[OpenBook, Person]:
    """Create a book with its key, the workshop and the first person, who may do everything."""
    called = clean_text(first_name).strip()
    if not shop.name.strip() or not any(sign.isalnum() for sign in called):
        raise Refused("The book was not created: it needs the workshop's name and the first person's name.")
    pin_hash = secrets_of_people.hash_pin(pin)
    store = stores.create_book(place, clock=clock, random=chance, keys=workstation.keys())
    book = OpenBook(store, clock, chance)
    person = Person(person_id(called, ()), called, frozenset(PERMISSIONS), has_pin=True)
    facts = {key: value for key, value in asdict(shop).items() if key != "book_id"}
    try:
        with book.store.write(person.id) as tx:
            tx.keep(Draft("book-opened/1", "book", facts))
            tx.keep(person_draft(person))
            tx.set_credential(person.id, pin_hash=pin_hash)
    except BaseException:
        book.close()
        raise
    return book, person


def person_draft(person: Person) -> Draft:
    facts = {
        "person": person.id,
        "name": person.name,
        "permissions": sorted(person.permissions),
        "active": person.active,
        "learning": person.learning,
    }
    return Draft("person/1", f"person/{person.id}", facts)


def person_id(name: str, taken: tuple[str, ...]) -> str:
    """A short word for a new person: the initials, with a number where they are taken."""
    words = "".join(sign if sign.isalnum() else " " for sign in name).split()
    initials = "".join(word[0] for word in words).lower()
    numbered = (f"{initials}{number}" for number in range(2, 1000))
    return initials if initials not in taken else next(word for word in numbered if word not in taken)


def last_kept(book: OpenBook) -> tuple[str, int]:
    """When the last entry was written and its number, for the foot of the window."""
    with book.store.read() as reading:
        number = reading.journal.head().size
        return (str(reading.journal.get(number).facts["entered_at"]), number) if number else ("", 0)
