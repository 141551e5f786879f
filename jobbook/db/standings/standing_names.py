"""Where the shop, its people, customers, vehicles, tools and specifications stand."""

from typing import Any

from jobbook.core.record.journal import Entry
from jobbook.db import search
from jobbook.db.rows import Rows


def speaks(rows: Rows, entry: Entry, table: str, where: str, /, **key: Any) -> bool:
    """Whether this entry is the one to speak now: always, unless it corrects one that no longer did."""
    if entry.replaces is None:
        return True
    return bool(rows.value(f"SELECT entry FROM {table} WHERE {where}", **key) == entry.replaces)


def place(rows: Rows, table: str, keys: tuple[str, ...], /, **values: Any) -> None:
    """Put one row in its place: a new one, or over the one with that key."""
    names = ", ".join(values)
    marks = ", ".join(f":{name}" for name in values)
    changes = ", ".join(f"{name} = excluded.{name}" for name in values if name not in keys)
    rows.run(
        f"INSERT INTO {table} ({names}) VALUES ({marks}) ON CONFLICT ({', '.join(keys)}) DO UPDATE SET {changes}",
        **values,
    )


def kept_of(rows: Rows, what: str, number: int) -> int:
    """The number under which a vehicle or customer stands now: its own, or that of the one it was merged with."""
    kept = rows.value("SELECT kept FROM merged WHERE what = :what AND id = :id", what=what, id=number)
    return int(kept) if kept is not None else number


def kept_as(what: str) -> str:
    """The same as SQL, of `:number`."""
    return f"COALESCE((SELECT kept FROM merged WHERE what = '{what}' AND id = :number), :number)"


def numbers_of(rows: Rows, what: str, number: int) -> list[int]:
    """A vehicle's or a customer's own number, and those that were merged into it."""
    sql = "SELECT id FROM merged WHERE what = :what AND kept = :kept ORDER BY id"
    return [number, *(row["id"] for row in rows.all(sql, what=what, kept=number))]


def shop(rows: Rows, entry: Entry) -> None:
    if speaks(rows, entry, "shop", "one = 1"):
        place(rows, "shop", ("one",), one=1, entry=entry.number)


book_opened = shop


def person(rows: Rows, entry: Entry) -> None:
    facts = entry.payload
    if speaks(rows, entry, "person", "id = :id", id=facts["person"]):
        active = int(bool(facts.get("active", True)))
        place(rows, "person", ("id",), id=facts["person"], name=facts["name"], active=active, entry=entry.number)


def credential(rows: Rows, entry: Entry) -> None:
    """A PIN or badge: its hash is sealed, and the one before it is erased."""
    facts = entry.payload
    if "commitment" not in facts:
        return
    if facts.get("retired"):
        unsay(rows, facts["retired"])
    key = {"person": facts["person"], "what": facts["what"]}
    place(rows, "credential", ("person", "what"), **key, commitment=facts["commitment"], entry=entry.number)


def opened(rows: Rows, commitment: str) -> str:
    """A sealed value, or "" where none was given or it was erased."""
    value = rows.value("SELECT value FROM sealed WHERE commitment = :commitment", commitment=commitment)
    return value or ""


def part(rows: Rows, entry: Entry) -> None:
    """A part that the shop knows, found by its number, title and supplier."""
    facts, number = entry.payload, entry.payload["part"]
    if not speaks(rows, entry, "part", "id = :id", id=number):
        return
    plain = {name: facts.get(name, "") for name in ("number", "title", "supplier")}
    place(rows, "part", ("id",), id=number, **plain, folded=search.joined(plain["number"]), entry=entry.number)
    search.forget(rows, "part", number)
    said = search.spellings(f"{plain['title']} {plain['supplier']}")
    search.put(rows, "part", number, search.number_words(plain["number"]) | said)


def tool(rows: Rows, entry: Entry) -> None:
    facts = entry.payload
    if speaks(rows, entry, "tool", "number = :number", number=facts["number"]):
        status = facts.get("status", "in use")
        place(rows, "tool", ("number",), number=facts["number"], status=status, entry=entry.number)


def specification(rows: Rows, entry: Entry) -> None:
    """A figure of a variant; the newest figure under the same key is the one in force."""
    facts = entry.payload
    key = {"variant": facts["variant"], "key": facts["key"]}
    if not speaks(rows, entry, "specification", "variant = :variant AND key = :key", **key):
        return
    number = facts.get("specification") or entry.number
    rows.run("DELETE FROM specification WHERE id = :id OR (variant = :variant AND key = :key)", id=number, **key)
    place(rows, "specification", ("id",), id=number, **key, entry=entry.number)


def erased(rows: Rows, entry: Entry) -> None:
    for commitment in entry.payload["commitments"]:
        unsay(rows, commitment)


def unsay(rows: Rows, commitment: str) -> None:
    """Erase a sealed value: the text, its salt and the words that it was found by. The commitment stays."""
    rows.run("UPDATE sealed SET salt = NULL, value = NULL WHERE commitment = :commitment", commitment=commitment)
    rows.run("DELETE FROM found WHERE source = :commitment AND source <> ''", commitment=commitment)
