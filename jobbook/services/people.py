"""People: who may do what, and how they show that it is they who sign."""

from jobbook.core.errors import NotFound, Refused
from jobbook.core.people import PERMISSIONS, Person
from jobbook.services import secrets_of_people
from jobbook.services.opened import OpenBook, person_draft, person_id

WRONG_ALLOWED = 5
WAIT_SECONDS = 30


def need(who: Person, permission: str) -> None:
    """Refused unless this person has the permission."""
    if not who.may(permission):
        raise Refused(f"{who.name} has no permission to {PERMISSIONS[permission]}; ask a person who has it.")


def all_people(book: OpenBook) -> tuple[Person, ...]:
    with book.store.read() as reading:
        return tuple(reading.people.all())


def add_person(
    book: OpenBook, who: Person, name: str, permissions: frozenset[str], pin: str, badge: str = ""
) -> Person:
    """Add a person with a PIN, and a badge if there is one."""
    need(who, "people")
    if not name.strip():
        raise Refused("The person was not added: a name is needed, since it prints on papers.")
    pin_hash = secrets_of_people.hash_pin(pin)
    with book.store.write(who.id) as tx:
        person = Person(person_id(name, tuple(p.id for p in tx.people.all())), name.strip(), permissions)
        tx.keep(person_draft(person))
        tx.set_credential(person.id, pin_hash=pin_hash)
    if badge:
        set_badge(book, who, person.id, badge)
    return get_person(book, person.id)


def get_person(book: OpenBook, person: str) -> Person:
    with book.store.read() as reading:
        return reading.people.get(person)


def change_person(book: OpenBook, who: Person, person: Person) -> Person:
    """Keep a person's name, permissions and whether they still work here."""
    need(who, "people")
    with book.store.write(who.id) as tx:
        others = [p for p in tx.people.all() if p.id != person.id]
        if not person.may("people") and not any(p.may("people") for p in others):
            raise Refused("Nothing was changed: nobody would be left who may keep people and permissions.")
        tx.keep(person_draft(person))
    return person


def set_pin(book: OpenBook, who: Person, person: str, pin: str) -> None:
    """Set a PIN: one's own, or another's with the permission to keep people."""
    if who.id != person:
        need(who, "people")
    pin_hash = secrets_of_people.hash_pin(pin)
    with book.store.write(who.id) as tx:
        tx.set_credential(person, pin_hash=pin_hash)


def set_badge(book: OpenBook, who: Person, person: str, code: str) -> None:
    """Give a person a badge. Refused when it is somebody else's."""
    need(who, "people")
    badge_hash = secrets_of_people.hash_badge(book.store.book_id, code)
    with book.store.write(who.id) as tx:
        if tx.credentials.by_badge(badge_hash) not in (None, person):
            raise Refused("Nothing was changed: this badge belongs to another person.")
        tx.set_credential(person, badge_hash=badge_hash)


def by_pin(book: OpenBook, person: str, pin: str) -> Person:
    """The person, shown by their PIN. Five wrong ones in a row make everybody wait half a minute."""
    wrong, last = book.wrong_pins.get(person, (0, 0.0))
    now = book.clock().timestamp()
    if wrong >= WRONG_ALLOWED and now - last < WAIT_SECONDS:
        raise Refused(f"Five wrong PINs in a row: wait {WAIT_SECONDS} seconds, then try again, or use the badge.")
    with book.store.read() as reading:
        found = reading.people.get(person)
        pin_hash = reading.credentials.pin_hash(person)
    if not found.active or pin_hash is None or not secrets_of_people.pin_fits(pin_hash, pin):
        book.wrong_pins[person] = (wrong + 1, now)
        raise Refused(f"That is not the PIN of {found.name}; nothing was signed.")
    book.wrong_pins.pop(person, None)
    return found


def by_badge(book: OpenBook, code: str) -> Person:
    """The person whose badge this is."""
    badge_hash = secrets_of_people.hash_badge(book.store.book_id, code)
    with book.store.read() as reading:
        person = reading.credentials.by_badge(badge_hash)
        if person is None or not reading.people.get(person).active:
            raise NotFound("This badge belongs to nobody who works here; nothing was signed.")
        return reading.people.get(person)
