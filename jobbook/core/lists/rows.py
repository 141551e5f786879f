"""Rows of a list, read into facts; what is wrong is said by row and column, and no row is left half-read."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from jobbook.core.lists.columns import CUSTOMERS, KINDS, PARTS, TOGETHER, VEHICLES
from jobbook.core.lists.mapping import Mapped

GUARDED = ("=", "+", "-", "@", "\t", "\r")  # a spreadsheet reads these as the beginning of a formula
GUARD = "'"
HERE = ("number_here", "number in this book")
KEYS = {CUSTOMERS: (HERE,), VEHICLES: (HERE, ("vin", "VIN"), ("plate", "plate")), PARTS: (("number", "part number"),)}


@dataclass(frozen=True)
class Finding:
    """What stops a row: where it stands in the file, in which column, and what to do."""

    row: int
    column: str
    words: str

    @property
    def sentence(self) -> str:
        where = f", “{self.column}”" if self.column else ""
        return f"Row {self.row}{where}: {self.words}."


@dataclass(frozen=True)
class Row:
    """One row as facts by name, those that are filled in; `number` is its place in the file, headings counted."""

    number: int
    facts: dict[str, str]


def unguarded(cell: str) -> str:
    """A cell without the sign that was put before it against formulas."""
    return cell[1:] if cell[:1] == GUARD and cell[1:2] in GUARDED else cell


def guarded(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return GUARD + cell if cell.startswith(GUARDED) else cell


def read_row(
    kind: str, headings: Sequence[str], mapped: Mapped, number: int, cells: Sequence[str]
) -> tuple[Row | None, list[Finding]]:
    """The facts of a row, or what is wrong with it."""
    facts: dict[str, str] = {}
    found = _too_wide(number, headings, cells)
    for one in KINDS[kind]:
        places = [place for place, name in enumerate(mapped) if name == one.name and place < len(cells)]
        filled = [unguarded(cells[place].strip()) for place in places if cells[place].strip()]
        heading = headings[places[0]] if places else one.title
        if not filled:
            found += [Finding(number, heading, "is needed and empty; fill it in, or take the row out")] * one.needed
            continue
        try:
            facts[one.name] = one.read(one.between.join(filled))
        except ValueError as error:
            found.append(Finding(number, heading, str(error)))
    names, words = TOGETHER.get(kind, ((), ""))
    if names and not found and not any(facts.get(name) for name in names):
        found.append(Finding(number, "", f"{words}; fill it in, or take the row out"))
    return (None, found) if found else (Row(number, facts), [])


def _too_wide(number: int, headings: Sequence[str], cells: Sequence[str]) -> list[Finding]:
    if not any(cell.strip() for cell in cells[len(headings) :]):
        return []
    return [
        Finding(number, "", f"has {len(cells)} cells for {len(headings)} headings; look for a separator within a text")
    ]


def keys_of(kind: str, facts: dict[str, str]) -> tuple[str, ...]:
    """What tells a row apart from the others of its list."""
    if kind == "customers":
        return (f"number {facts['number']}",) if "number" in facts else ()
    if kind == "parts":
        return (f"part number {same(facts['number'])}",)
    return tuple(
        f"{words} {same(facts[name])}" for name, words in (("vin", "VIN"), ("plate", "plate")) if facts.get(name)
    )


def same(text: str) -> str:
    """A number as it is compared: capitals, letters and digits alone."""
    return "".join(sign for sign in text.upper() if sign.isalnum())


def doubled(kind: str, rows: Iterable[Row]) -> list[Finding]:
    """Rows that name again what an earlier row names, with other facts: only one of them can be right."""
    first: dict[str, Row] = {}
    found = []
    for row in rows:
        for key in keys_of(kind, row.facts):
            before = first.setdefault(key, row)
            if before.facts != row.facts:
                words = f"the {key} stands in row {before.number} too, with other facts; leave the one that is right"
                found.append(Finding(row.number, "", words))
                break
    return found
