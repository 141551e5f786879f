"""People: who may do what, and how they show that it is they who sign."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace

from jobbook.core.errors import NotFound, Refused
from jobbook.core.people import PERMISSIONS, Person
from jobbook.core.record.journal import clean_text
from jobbook.db.store import Book, WritingBook
from jobbook.services.house import secrets_of_people
from jobbook.services.opened import OpenBook, person_draft, person_id

WRONG_ALLOWED = 5
WAIT_SECONDS = 30


def need(who: Person, *permissions: str) -> None:
    """Refused unless this person works here and has one of the permissions, where any is named."""
    if not who.active:
        raise Refused(f"Nothing was kept: {who.name} does not work here any more. Whoever does it now signs for it.")
    if permissions and not any(who.may(one) for one in permissions):
        wanted = " or to ".join(PERMISSIONS[one] for one in permissions)
        raise Refused(f"Nothing was kept: {who.name} has no permission to {wanted}. Ask a person who has it.")


def as_now(reading: Book, who: Person, *permissions: str) -> Person:
    """The person as the book knows them at this moment. Refused where they may not, whatever they might before."""
    now = reading.people.get(who.id)
    need(now, *permissions)
    return now


def as_learner(reading: Book, signer: Person) -> dict[str, bool]:
    """What a signature says of somebody who is learning now; nothing of anybody else."""
    return {"learning": True} if reading.people.get(signer.id).learning else {}


@contextmanager
def writing(book: OpenBook, who: Person, *permissions: str) -> Iterator[WritingBook]:
    """A write by a person who works here and has one of these permissions: judged inside the write, since permissions
    may have changed at another workstation."""
    with book.store.write(who.id) as tx:
        as_now(tx, who, *permissions)
        yield tx


def all_people(book: OpenBook) -> tuple[Person, ...]:
    with book.store.read() as reading:
        return tuple(reading.people.all())


def get_person(book: OpenBook, person: str) -> Person:
    with book.store.read() as reading:
        return reading.people.get(person)


def add_person(
    book: OpenBook,
    who: Person,
    name: str,
    permissions: frozenset[str],
    pin: str,
    badge: str = "",
    *,
    learning: bool = False,
) -> Person:
    """Add a person with a PIN, and a badge if there is one: all of it, or nothing."""
    called = _looked_at(name, permissions, "The person was not added")
    pin_hash = secrets_of_people.hash_pin(pin)
    badge_hash = secrets_of_people.hash_badge(book.store.book_id, badge) if badge.strip() else None
    with writing(book, who, "people") as tx:
        person = Person(person_id(called, tuple(p.id for p in tx.people.all())), called, permissions, learning=learning)
        _look_at_learning(person, "The person was not added")
        _look_at_badge(tx, person.id, badge_hash)
        tx.keep(person_draft(person))
        tx.set_credential(person.id, pin_hash=pin_hash, badge_hash=badge_hash)
        return tx.people.get(person.id)


def change_person(book: OpenBook, who: Person, person: Person) -> Person:
    """Keep a person's name, permissions and whether they still work here. Sign-offs keep their name for good."""
    called = _looked_at(person.name, person.permissions, "Nothing was changed")
    changed = replace(person, name=called)
    _look_at_learning(changed, "Nothing was changed")
    with writing(book, who, "people") as tx:
        tx.people.get(person.id)
        others = [p for p in tx.people.all() if p.id != person.id]
        if not changed.may("people") and not any(p.may("people") for p in others):
            raise Refused("Nothing was changed: nobody would be left who may keep people and permissions.")
        tx.keep(person_draft(changed))
    return changed


def _looked_at(name: str, permissions: frozenset[str], what_was_kept: str) -> str:
    called = clean_text(name).strip()
    if not any(sign.isalnum() for sign in called):
        raise Refused(f"{what_was_kept}: a name is needed, since it prints on papers.")
    if strange := sorted(permissions - set(PERMISSIONS)):
        raise Refused(f"{what_was_kept}: there is no permission “{strange[0]}”.")
    return called


def _look_at_learning(person: Person, what_was_kept: str) -> None:
    more = [PERMISSIONS[one] for one in ("check", "release", "allow") if one in person.permissions]
    if person.learning and more:
        raise Refused(f"{what_was_kept}: somebody who is learning cannot {more[0]}, since others look at their work.")


def set_pin(book: OpenBook, who: Person, person: str, pin: str) -> None:
    """Set a PIN: one's own, or another's with the permission to keep people."""
    pin_hash = secrets_of_people.hash_pin(pin)
    with writing(book, who, *(() if who.id == person else ("people",))) as tx:
        tx.people.get(person)
        tx.set_credential(person, pin_hash=pin_hash)


def set_badge(book: OpenBook, who: Person, person: str, code: str) -> None:
    """Give a person a badge. Refused when it is somebody else's."""
    badge_hash = secrets_of_people.hash_badge(book.store.book_id, code)
    with writing(book, who, "people") as tx:
        tx.people.get(person)
        _look_at_badge(tx, person, badge_hash)
        tx.set_credential(person, badge_hash=badge_hash)


def _look_at_badge(reading: Book, person: str, badge_hash: str | None) -> None:
    owner = reading.credentials.by_badge(badge_hash) if badge_hash else None
    if owner not in (None, person):
        raise Refused("Nothing was changed: this badge belongs to another person. Take a badge that nobody has.")


def by_pin(book: OpenBook, person: str, pin: str) -> Person:
    """The person, shown by their PIN. After five wrong ones in a row this person's PIN is not looked at for a while."""
    wrong, last = book.wrong_pins.get(person, (0, 0.0))
    now = book.clock().timestamp()
    if wrong >= WRONG_ALLOWED and 0 <= now - last < WAIT_SECONDS:
        raise Refused(
            "Five wrong PINs in a row, nothing was signed: "
            f"wait {WAIT_SECONDS} seconds and try again, or use the badge."
        )
    with book.store.read() as reading:
        found = reading.people.get(person)
        pin_hash = reading.credentials.pin_hash(person)
    _look_at_leaver(found)
    if pin_hash is None or not secrets_of_people.pin_fits(pin_hash, pin):
        book.wrong_pins[person] = (wrong + 1, now)
        raise Refused(f"That is not the PIN of {found.name}; nothing was signed.")
    book.wrong_pins.pop(person, None)
    return found


def by_badge(book: OpenBook, code: str) -> Person:
    """The person whose badge this is."""
    badge_hash = secrets_of_people.hash_badge(book.store.book_id, code)
    with book.store.read() as reading:
        person = reading.credentials.by_badge(badge_hash)
        if person is None:
            raise NotFound("This badge belongs to nobody who works here; nothing was signed.")
        found = reading.people.get(person)
    _look_at_leaver(found)
    return found


def _look_at_leaver(found: Person) -> None:
    if not found.active:
        raise Refused(f"{found.name} does not work here any more; nothing was signed.")
