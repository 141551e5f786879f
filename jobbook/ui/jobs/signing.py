"""Signatures as the page asks for them: who signs, and the PIN or badge that shows it. No Qt in here."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from jobbook.core.errors import NotFound
from jobbook.core.people import Person
from jobbook.services.house.people import all_people, by_badge, by_pin
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Option, Unsigned

SIGNER, SECRET = "signer", "secret"
WHY = "why"  # the reason beside what an act itself asks, which may be called "reason"
SHORTEST_BADGE = 6


@dataclass(frozen=True)
class Signers:
    """Who can sign: the people as options, and the one who is on duty."""

    people: tuple[Option, ...] = ()
    on_duty: str = ""

    def asks(self, label_of_signer: str, label_of_secret: str, another: bool = False) -> tuple[Ask, ...]:
        """The two questions of a signature. For another person's signature nobody is filled in, unless only one can."""
        people = tuple(person for person in self.people if not another or person.value != self.on_duty)
        alone = people[0].value if len(people) == 1 else ""
        value = alone if another else self.on_duty
        return (
            Ask(SIGNER, label_of_signer, "choice", people, value=value),
            Ask(SECRET, label_of_secret, "secret"),
        )


def name_of(book: OpenBook, person: str) -> str:
    """The name of a person of the shop; a word that is nobody's stands as it is."""
    return next((one.name for one in all_people(book) if one.id == person), person)


def signers(people: tuple[Person, ...], on_duty: Person | None) -> Signers:
    """The active people of the shop as those who can be asked for a signature."""
    options = tuple(Option(person.id, person.name) for person in people if person.active)
    return Signers(options, on_duty.id if on_duty is not None else "")


def signer_of(book: OpenBook, given: Mapping[str, str]) -> Person | None:
    """The person whose signature was given, or None where none was asked for. Refused where it does not fit.

    A badge says by itself whose it is; a PIN is that of the person who was chosen."""
    if SECRET not in given:
        return None
    typed = given[SECRET].strip()
    if len(typed) >= SHORTEST_BADGE:
        try:
            return by_badge(book, typed)
        except NotFound:
            if not typed.isdigit():
                raise
    return by_pin(book, given[SIGNER], typed)


def answers_alone(given: Mapping[str, str]) -> dict[str, str]:
    """The answers without the signature: a PIN goes no further than the door."""
    return {name: answer for name, answer in given.items() if name not in (SIGNER, SECRET)}


def to_sign(waiting: Sequence[Unsigned], name: str) -> tuple[str, ...]:
    """The acts that one signature of this person stands under: all that may be signed as a group, else the first that
    stands alone. Where nothing of theirs waits, everything that waits, so that the refusal can say whose it is."""
    own = [act for act in waiting if act.by == name]
    together = tuple(act.act_id for act in own if act.grouped)
    return together or tuple(act.act_id for act in own[:1]) or tuple(act.act_id for act in waiting)
