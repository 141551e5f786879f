"""Where one can be in the window: a room of the index, and what is open in it. No Qt in here."""

from dataclasses import dataclass

JOBS, VEHICLES, FIGURES, SHOP = "jobs", "vehicles", "figures", "shop"
LIST, NEW, ONE, CALL, PAPER = "list", "new", "one", "call", "paper"
CUSTOMER, CUSTOMERS = "customer", "customers"  # pages of the room of vehicles
TODAY, LOOKING_BACK = "today", "looking back"
TOOLS, PARTS, BACKUP, KEPT_LONG = "tools", "parts", "backup", "kept long"  # parts of the shop


@dataclass(frozen=True)
class Place:
    """A room and what stands open in it: its list, the form for a new one, or the one of that number.

    Figures and parts of the shop have a `name` in place of a number, and can be opened with what is `given` already; a
    job with a name is open at that tab."""

    room: str
    what: str = LIST
    number: int = 0
    name: str = ""
    given: tuple[tuple[str, str], ...] = ()


def a_job(number: int, tab: str = "") -> Place:
    """A job, with that tab of its right page open where one is named."""
    return Place(JOBS, ONE, number, tab)


def a_vehicle(number: int) -> Place:
    return Place(VEHICLES, ONE, number)


def a_customer(number: int) -> Place:
    return Place(VEHICLES, CUSTOMER, number)


def a_tool(number: str) -> Place:
    """The card of one tool, in the shop."""
    return Place(SHOP, LIST, 0, TOOLS, (("number", number),))


def a_part(number: int) -> Place:
    """The card of one part that the shop knows."""
    return Place(SHOP, LIST, 0, PARTS, (("part", str(number)),))


def a_figure(name: str, **given: str) -> Place:
    """The sheet of one figure, with these inputs typed already."""
    return Place(FIGURES, LIST, 0, name, tuple(given.items()))


def a_call(number: int = 0) -> Place:
    """The form of one call; 0: of a new one."""
    return Place(JOBS, CALL, number)


def it_is_here(call: int) -> Place:
    """Taking in the vehicle that somebody called about."""
    return Place(JOBS, NEW, call)


TAKE_IN = Place(JOBS, NEW)
FROM_PAPER = Place(JOBS, PAPER)
