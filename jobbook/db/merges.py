"""Two numbers that were brought together: how it came, and what each of them brought, read from the entries."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from jobbook.core.errors import Refused
from jobbook.core.record.journal import Entry
from jobbook.db.book import Book
from jobbook.db.journal import COLUMNS, entry_of
from jobbook.db.standings.standing_names import kept_of

MERGED, APART = "merged/1", "merge-undone/1"
PLAIN = {
    "vehicle": ("vin", "make", "model", "elsewhere"),
    "customer": ("name", "address", "phone", "email", "elsewhere"),
}
# What goes back, the key by which an entry names it, and the entry that says whose it was.
ROWS = {
    "vehicle": (("job", "number"), ("odometer", "entry"), ("plate", "entry"), ("owner", "entry")),
    "customer": (("job", "number"), ("owner", "entry")),
}


def traces(book: Book, what: str, number: int) -> tuple[Entry, ...]:
    """The entries by which numbers were brought together with this one, and by which they were taken apart."""
    sql = (
        f"SELECT {COLUMNS} FROM journal WHERE number IN (SELECT entry FROM merged WHERE what = :what AND kept = :kept)"
    )
    now = [entry_of(row) for row in book.rows.all(sql, what=what, kept=number)]
    apart = [one for one in book.journal.entries(kind=APART) if one.payload["what"] == what]
    then = [one for one in apart if number in (one.payload["gone"], one.payload["kept"])]
    return tuple(sorted((*now, *then), key=lambda one: one.number))


def merge_of(book: Book, what: str, gone: int) -> Entry:
    """The entry by which a number was brought under another. Refused where it was not, or that one went on itself."""
    entry = book.rows.value("SELECT entry FROM merged WHERE what = :what AND id = :id", what=what, id=gone)
    if entry is None:
        raise Refused(f"Nothing was changed: {what} {gone} stands by itself.")
    merge, now = book.journal.get(entry), kept_of(book.rows, what, gone)
    first = int(merge.payload["kept"])
    if first != now:
        raise Refused(
            f"Nothing was changed: {what} {gone} was brought together with {what} {first} first, and that one with "
            f"{what} {now}. Take {what} {first} apart from it first."
        )
    return merge


def what_it_brought(book: Book, merge: Entry) -> dict[str, Any]:
    """The payload of an entry that takes a merge back: all that was written under the number that went."""
    what, gone, kept = (merge.payload[name] for name in ("what", "gone", "kept"))
    within = _led_to(book, what, gone, kept, merge.number)
    own = spoken(book, what, gone, merge.number)
    told = [spoken(book, what, one, merge.number) for one in within]
    rows = {table: _theirs(book, what, table, key, (gone, *within), merge) for table, key in ROWS[what]}
    if what == "vehicle":
        rows["odometer"] += _read_since(book, kept, rows["job"], rows["odometer"])
    more = _vehicle(told) if what == "vehicle" else _customer(book, (gone, *within), merge.number)
    return {
        "what": what, "gone": gone, "kept": kept, "of": merge.number,
        "facts": _plain(what, own) | {"entry": own.number}, "rows": rows | {"merged": within}, **more,
    }  # fmt: skip


def _read_since(book: Book, kept: int, jobs: Sequence[int], known: Sequence[int]) -> list[int]:
    """The readings that were taken since on jobs that go back: the vehicle of the job was read."""
    sql = "SELECT entry, job FROM odometer WHERE vehicle = :kept ORDER BY entry"
    rows = book.rows.all(sql, kept=kept)
    return [row["entry"] for row in rows if row["job"] in jobs and row["entry"] not in known]


def _plain(what: str, entry: Entry) -> dict[str, Any]:
    return {name: entry.payload.get(name, "") for name in PLAIN[what]}


def _vehicle(within: Sequence[Entry]) -> dict[str, Any]:
    return {"within": [_plain("vehicle", one) for one in within]}


def _customer(book: Book, numbers: Sequence[int], before: int) -> dict[str, Any]:
    contacts = [dict(one) for number in numbers for one in _contacts(book, number, before)]
    named = [entry.payload for number in numbers for entry in said(book, "customer", number, before)]
    seals = [str(facts.get(name, "")) for facts in (*named, *contacts) for name in ("name", "phone", "elsewhere")]
    return {"contacts": contacts, "seals": [seal for seal in dict.fromkeys(seals) if seal]}


def _contacts(book: Book, number: int, before: int) -> Iterator[Mapping[str, Any]]:
    named = [one for one in said(book, "customer", number, before) if "contacts" in one.payload]
    for one in named[-1].payload["contacts"] if named else ():
        told = {name: one.get(name, "") for name in ("name", "phone", "role")}
        yield told | {"may_authorise": int(bool(one.get("may_authorise"))), "entry": named[-1].number}


def said(book: Book, what: str, number: int, before: int) -> list[Entry]:
    """The entries that said the facts of a number before another entry, in their order."""
    whose = f"CAST(body -> 'payload' ->> '{what}' AS {'INTEGER' if book.rows.on_sqlite else 'BIGINT'})"
    sql = f"""SELECT {COLUMNS} FROM journal WHERE kind = '{what}/1' AND {whose} = :id AND number < :before
        ORDER BY number"""
    return [entry_of(row) for row in book.rows.all(sql, id=number, before=before)]


def spoken(book: Book, what: str, number: int, before: int) -> Entry:
    """The entry that spoke of a number before another entry: a correction speaks only for the one that spoke."""
    there: Entry | None = None
    for one in said(book, what, number, before):
        if one.replaces is None or there is None or one.replaces == there.number:
            there = one
    if there is None:
        raise Refused(f"Nothing was changed: nothing was written under {what} {number} before.")
    return there


def _led_to(book: Book, what: str, gone: int, kept: int, before: int) -> list[int]:
    """The numbers that led to the one that went, before it went."""
    sql = "SELECT id, entry FROM merged WHERE what = :what AND kept = :kept AND entry < :before ORDER BY entry DESC"
    found: list[int] = []
    for row in book.rows.all(sql, what=what, kept=kept, before=before):
        if book.journal.get(row["entry"]).payload["kept"] in (gone, *found):
            found.append(row["id"])
    return found


def _theirs(book: Book, what: str, table: str, key: str, numbers: Sequence[int], merge: Entry) -> list[int]:
    sql = f"SELECT {key} AS id, entry FROM {table} WHERE {what} = :kept ORDER BY entry"
    rows = book.rows.all(sql, kept=merge.payload["kept"])
    return [row["id"] for row in rows if _whose(book, row["entry"], merge.number, what) in numbers]


def _whose(book: Book, number: int, before: int, what: str) -> int | None:
    """Whose a row was before that entry; what was corrected since is read in the words before."""
    entry = book.journal.get(number)
    while entry.number > before and entry.replaces is not None:
        entry = book.journal.get(entry.replaces)
    return entry.payload.get(what) if entry.number < before else None
