"""What the find line finds, in groups. No Qt in here."""

from dataclasses import dataclass

from jobbook.services.jobs import jobs
from jobbook.services.opened import OpenBook
from jobbook.services.vehicles import vehicles
from jobbook.ui.places import Place, a_job, a_vehicle

MOST_OF_A_GROUP = 6


@dataclass(frozen=True)
class Found:
    """One thing found: what stands in the list, and where Enter leads."""

    words: str
    place: Place


@dataclass(frozen=True)
class Group:
    title: str
    found: tuple[Found, ...]


def find(book: OpenBook, text: str) -> tuple[Group, ...]:
    """The jobs and vehicles that fit what was typed so far, a few of each; groups without any are left out."""
    if not any(letter.isalnum() for letter in text):
        return ()
    job_rows = jobs(book, text=text.strip(), limit=MOST_OF_A_GROUP).rows
    vehicle_rows = vehicles(book, text=text.strip(), limit=MOST_OF_A_GROUP).rows
    groups = (
        Group(
            "Jobs", tuple(Found(_line(str(r.number), r.vehicle, r.plate, r.stage), a_job(r.number)) for r in job_rows)
        ),
        Group("Vehicles", tuple(Found(_line(v.title, v.plate, v.vin), a_vehicle(v.id)) for v in vehicle_rows)),
    )
    return tuple(group for group in groups if group.found)


def _line(*parts: str) -> str:
    return " · ".join(part for part in parts if part)
