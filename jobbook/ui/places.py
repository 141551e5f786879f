"""Where one can be in the window: a room of the index, and what is open in it. No Qt in here."""

from dataclasses import dataclass

JOBS, VEHICLES, SHOP = "jobs", "vehicles", "shop"
LIST, NEW, ONE = "list", "new", "one"


@dataclass(frozen=True)
class Place:
    """A room and what stands open in it: its list, the form for a new one, or the one of that number."""

    room: str
    what: str = LIST
    number: int = 0


def a_job(number: int) -> Place:
    return Place(JOBS, ONE, number)


def a_vehicle(number: int) -> Place:
    return Place(VEHICLES, ONE, number)


TAKE_IN = Place(JOBS, NEW)
