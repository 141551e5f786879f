"""What a form of Today is given beforehand, and what is said beside it of the wheels. No Qt in here."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from jobbook.core.desk.today import Due
from jobbook.services.house.backups import last_backup
from jobbook.services.house.people import all_people
from jobbook.services.opened import OpenBook

Facts = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Known:
    """`answers` stand in the form beforehand, never a value that was to be reached. `wheels` are the corners that a
    visit is asked about, all where none is named; `people` whoever may have done it; `facts` what is said beside."""

    answers: Mapping[str, str] = field(default_factory=dict)
    wheels: tuple[str, ...] = ()
    people: tuple[tuple[str, str], ...] = ()
    facts: Facts = ()


def known_of(book: OpenBook, due: Due) -> Known:
    if due.kind == "backup":
        return Known({"place": last_backup(book).place})
    if due.kind != "visit":
        return Known()
    from jobbook.services.office.retorque import wheels_to_tighten  # replays a job, which no start waits for

    wheels = wheels_to_tighten(book, due.job)
    people = tuple((one.id, one.name) for one in all_people(book) if one.active)
    facts = tuple((one.corner, _words(one.title, one.count, wanted)) for one, wanted in wheels)
    return Known({}, tuple(one.corner for one, _ in wheels), people, facts)


def _words(title: str, count: int, wanted: str) -> str:
    told = f"{title}, {count}" if count > 1 else title
    return f"{told}: {wanted}" if wanted else f"{told}: by the maker's figure"
