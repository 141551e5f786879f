"""Where two numbers stand that were brought together and are taken apart again.

The entry names what goes back, since where things stand does not know under which number it was written. What has
moved on meanwhile, to a third vehicle or customer, stays where it is.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from jobbook.core.record.journal import Entry
from jobbook.db import search
from jobbook.db.rows import Rows
from jobbook.db.standings.standing_names import kept_of, place
from jobbook.db.standings.standing_vehicles import ELSEWHERE, MERGED, bears, find_again, found_by

# What goes back by number, and the column that names it.
BACK: dict[str, tuple[tuple[str, str], ...]] = {
    "vehicle": (("job", "number"), ("odometer", "entry"), ("plate", "entry"), ("owner", "entry")),
    "customer": (("job", "number"), ("owner", "entry")),
}


def merge_undone(rows: Rows, entry: Entry) -> None:
    """Two numbers are two again: each has what was written under it, and what was written since stays."""
    facts = entry.payload
    what, gone, kept = str(facts["what"]), int(facts["gone"]), int(facts["kept"])
    if what not in BACK or gone == kept or kept_of(rows, what, gone) != kept:
        return
    _stands_again(rows, what, gone, facts["facts"])
    for table, key in BACK[what]:
        _goes_back(rows, table, what, key, facts["rows"].get(table, ()), gone, kept)
    rows.run("DELETE FROM merged WHERE what = :what AND id = :gone", what=what, gone=gone)
    for number in facts["rows"].get("merged", ()):
        rows.run("UPDATE merged SET kept = :gone WHERE what = :what AND id = :id", gone=gone, what=what, id=number)
    (_vehicles if what == "vehicle" else _customers)(rows, facts, gone, kept)


def _stands_again(rows: Rows, what: str, gone: int, told: Mapping[str, Any]) -> None:
    more = {"plate": "", "customer": None} if what == "vehicle" else {}
    columns = {name: value for name, value in told.items() if name != "elsewhere"}
    place(rows, what, ("id",), id=gone, **columns, **more)


def _goes_back(rows: Rows, table: str, column: str, key: str, numbers: Sequence[int], gone: int, kept: int) -> None:
    for number in numbers:
        rows.run(
            f"UPDATE {table} SET {column} = :gone WHERE {key} = :number AND {column} = :kept",
            gone=gone, kept=kept, number=number,
        )  # fmt: skip


def _vehicles(rows: Rows, facts: Mapping[str, Any], gone: int, kept: int) -> None:
    free = "NOT EXISTS (SELECT 1 FROM plate other WHERE other.folded = plate.folded AND other.until = '')"
    for table, where in (("plate", free), ("owner", "1 = 1")):
        rows.run(
            f"UPDATE {table} SET until = '', ended = NULL WHERE vehicle = :gone AND ended = :of AND {where}",
            gone=gone, of=facts["of"],
        )  # fmt: skip
    _unfind(rows, kept, [facts["facts"], *facts["within"]], [row["plate"] for row in _plates(rows, gone)])
    for number in (gone, kept):
        held = rows.value("SELECT customer FROM owner WHERE vehicle = :v AND until = ''", v=number)
        rows.run("UPDATE vehicle SET customer = :held WHERE id = :id", held=held, id=number)
        bears(rows, number, next((row["plate"] for row in _plates(rows, number) if not row["until"]), ""))
    search.put(rows, "vehicle", gone, search.number_words(facts["facts"].get("elsewhere", "")), ELSEWHERE)
    for one in facts["within"]:
        search.put(rows, "vehicle", gone, _words(one), MERGED)


def _plates(rows: Rows, vehicle: int) -> list[Any]:
    return list(rows.all("SELECT plate, until FROM plate WHERE vehicle = :v ORDER BY entry", v=vehicle))


def _words(told: Mapping[str, Any], plate: str = "") -> set[str]:
    known = search.vehicle_words(told["vin"], plate, told["make"], told["model"])
    return known | search.number_words(told.get("elsewhere", ""))


def _unfind(rows: Rows, kept: int, told: Sequence[Mapping[str, Any]], plates: Sequence[str]) -> None:
    """The one that stays is found no longer by what the other brought."""
    brought = [_words(one) for one in told] + [search.number_words(plate) for plate in plates]
    for token in sorted({word[: search.LONGEST] for words in brought for word in words}):
        rows.run(
            "DELETE FROM found WHERE kind = 'vehicle' AND token = :token AND subject = :kept AND source = :merged",
            token=token, kept=kept, merged=MERGED,
        )  # fmt: skip
    find_again(rows, kept)


def _customers(rows: Rows, facts: Mapping[str, Any], gone: int, kept: int) -> None:
    theirs = "SELECT vehicle FROM owner WHERE customer = :gone AND until = ''"
    rows.run(f"UPDATE vehicle SET customer = :gone WHERE customer = :kept AND id IN ({theirs})", gone=gone, kept=kept)
    for one in facts["contacts"]:
        rows.run("DELETE FROM contact WHERE customer = :kept AND entry = :entry", kept=kept, entry=one["entry"])
    for seal in facts["seals"]:
        search.forget(rows, "customer", kept, seal)
    found_by(rows, gone, facts["facts"])
    for count, one in enumerate(facts["contacts"], 1):
        place(rows, "contact", ("customer", "number"), customer=gone, number=count, **one)
        found_by(rows, gone, one)
