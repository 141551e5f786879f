"""What a vehicle's visits add up to: the parts at each place and those before them, joiners, what was declined."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from jobbook.core.vehicle.part_lives import FittedPart
from jobbook.core.work.model import CORNERS

OURS, OTHERS, UNKNOWN = "ours", "others", "not known"
WHOSE = {OURS: "put in by us", OTHERS: "found, put in by others", UNKNOWN: "found, nobody knows by whom"}


@dataclass(frozen=True)
class PlaceParts:
    """One place of one function: the part that is there now, and those before it, the newest first."""

    place: str
    title: str
    now: FittedPart | None
    before: tuple[FittedPart, ...]


@dataclass(frozen=True)
class Joiner:
    """A joiner in an air line. `gone_in` is the job in which it went with its line, 0 while it is in."""

    entry: int
    job: int
    at: str
    line: str
    corner: str
    whose: str
    note: str = ""
    gone_in: int = 0


@dataclass(frozen=True)
class DeclinedThen:
    """Work that was declined at a visit, with what was said may come of it, and why it was declined."""

    job: int
    at: str
    what: str
    consequence: str = ""


def places(parts: Iterable[FittedPart]) -> tuple[PlaceParts, ...]:
    """The places in the order of the corners, by function; the part numbers may have changed on the way."""
    chains: dict[tuple[str, str], list[FittedPart]] = {}
    for part in parts:
        chains.setdefault((part.place, part.function), []).append(part)
    order = {corner: number for number, corner in enumerate(CORNERS)}
    keys = sorted(chains, key=lambda key: (order.get(key[0], len(order)), key))
    return tuple(_place(where, chains[where, function]) for where, function in keys)


def _place(where: str, chain: Sequence[FittedPart]) -> PlaceParts:
    newest = list(reversed(chain))
    now = next((part for part in newest if not part.off_at), None)
    return PlaceParts(where, newest[0].title, now, tuple(part for part in newest if part is not now))


def joiners_words(joiners: Sequence[Joiner]) -> str:
    """How many joiners are in the lines now, by whom; joiners that went with their line do not count."""
    there = [one for one in joiners if not one.gone_in]
    if not there:
        return "No joiner in the air lines is recorded."
    count = f"{len(there)} joiner{'s' if len(there) > 1 else ''} in the air lines"
    told = [f"{sum(one.whose == whose for one in there)} {words}" for whose, words in WHOSE.items()]
    named = ", ".join(one for one in told if not one.startswith("0 "))
    return f"{count}: {named}. Look up how many the maker allows before another one goes in."
