"""Where vehicles and customers stand: plates and owners with dates, the people at a customer, and what was merged.

A plate or an owner holds from the day that the entry names, or else from the day on which it was entered. A plate that
another vehicle bears leaves that vehicle on the same day. A correction says that it never was otherwise: the row is
put right in its place, and what it took from another vehicle goes back.
"""

from collections.abc import Mapping
from typing import Any

from jobbook.core.record.journal import Entry
from jobbook.db import search
from jobbook.db.rows import Rows
from jobbook.db.standings.standing_names import kept_of, opened, place, speaks

SEALED = ("name", "address", "phone", "email")
WORDS_OF = ("name", "phone", "elsewhere")
FORMER, MERGED, ELSEWHERE = "former plate", "merged", "number elsewhere"
# Every column that names a vehicle or a customer; all of them follow when two are found to be one.
NAMED: dict[str, tuple[tuple[str, str], ...]] = {
    "vehicle": (("job", "vehicle"), ("odometer", "vehicle"), ("plate", "vehicle"), ("owner", "vehicle")),
    "customer": (("job", "customer"), ("vehicle", "customer"), ("owner", "customer"), ("contact", "customer")),
}


def vehicle(rows: Rows, entry: Entry) -> None:
    facts, number = entry.payload, entry.payload["vehicle"]
    if kept_of(rows, "vehicle", number) != number or not speaks(rows, entry, "vehicle", "id = :id", id=number):
        return
    plain = {name: facts.get(name, "") for name in ("vin", "plate", "make", "model")}
    owner = kept_of(rows, "customer", facts.get("customer") or 0) or None
    place(rows, "vehicle", ("id",), id=number, **plain, customer=owner, entry=entry.number)
    _plate(rows, entry, number, plain["plate"])
    _owner(rows, entry, number, owner)
    find_again(rows, number)
    search.forget(rows, "vehicle", number, ELSEWHERE)
    search.put(rows, "vehicle", number, search.number_words(str(facts.get("elsewhere", ""))), ELSEWHERE)


def _plate(rows: Rows, entry: Entry, vehicle: int, plate: str) -> None:
    folded = search.joined(plate)
    row = rows.first("SELECT folded, since, entry FROM plate WHERE vehicle = :v AND until = ''", v=vehicle)
    if row is not None and row["folded"] == folded:
        rows.run("UPDATE plate SET plate = :plate WHERE entry = :entry", plate=plate, entry=row["entry"])
        return
    since = _day(entry, "plate_since")
    if row is not None and entry.replaces is not None:
        _give_back(rows, vehicle, row["entry"])
        if _never_was(rows, "plate", "folded = :value", vehicle, entry, row["entry"], folded):
            return
        since = row["since"]
    _ends(rows, "plate", "vehicle = :v", entry, since, v=vehicle)
    if folded:
        _take_from_another(rows, entry, vehicle, folded, since)
        told = {"vehicle": vehicle, "plate": plate, "folded": folded, "since": since, "until": ""}
        place(rows, "plate", ("entry",), **told, entry=entry.number)


def _day(entry: Entry, key: str) -> str:
    """The day from which it holds: the one that the entry names, or that on which it was done."""
    return str(entry.payload.get(key) or entry.done_at[:10])


def _ends(rows: Rows, table: str, where: str, entry: Entry, until: str, /, **values: Any) -> None:
    rows.run(
        f"UPDATE {table} SET until = :until, ended = :ended WHERE {where} AND until = ''",
        until=until, ended=entry.number, **values,
    )  # fmt: skip


def _take_from_another(rows: Rows, entry: Entry, vehicle: int, folded: str, since: str) -> None:
    where = "folded = :folded AND vehicle <> :v"
    sql = f"SELECT vehicle FROM plate WHERE {where} AND until = '' ORDER BY vehicle"
    others = [row["vehicle"] for row in rows.all(sql, folded=folded, v=vehicle)]
    _ends(rows, "plate", where, entry, since, folded=folded, v=vehicle)
    for other in others:
        bears(rows, other, "")


def bears(rows: Rows, number: int, plate: str) -> None:
    rows.run("UPDATE vehicle SET plate = :plate WHERE id = :id", plate=plate, id=number)
    find_again(rows, number)


def _give_back(rows: Rows, vehicle: int, wrong: int) -> None:
    """What a wrong plate took from other vehicles goes back to them."""
    sql = "SELECT vehicle, plate FROM plate WHERE ended = :wrong AND vehicle <> :v ORDER BY vehicle"
    others = [(row["vehicle"], row["plate"]) for row in rows.all(sql, wrong=wrong, v=vehicle)]
    rows.run("UPDATE plate SET until = '', ended = NULL WHERE ended = :wrong AND vehicle <> :v", wrong=wrong, v=vehicle)
    for other, plate in others:
        bears(rows, other, plate)


def _never_was(
    rows: Rows, table: str, same: str, vehicle: int, entry: Entry, wrong: int, value: str | int | None
) -> bool:
    """Take a row back as if it had never been said. True where the one that it ended is right and holds on."""
    key: dict[str, Any] = {"v": vehicle, "wrong": wrong}
    rows.run(f"DELETE FROM {table} WHERE entry = :wrong", wrong=wrong)
    where = "vehicle = :v AND ended = :wrong"
    found = rows.value(f"SELECT entry FROM {table} WHERE {where} AND {same}", **key, value=value)
    if found is not None:
        rows.run(f"UPDATE {table} SET until = '', ended = NULL WHERE entry = :found", found=found)
        return True
    rows.run(f"UPDATE {table} SET ended = :entry WHERE {where}", **key, entry=entry.number)
    return False


def _owner(rows: Rows, entry: Entry, vehicle: int, owner: int | None) -> None:
    row = rows.first("SELECT customer, since, entry FROM owner WHERE vehicle = :v AND until = ''", v=vehicle)
    if (row["customer"] if row is not None else None) == owner:
        return
    since = _day(entry, "owner_since")
    if row is not None and entry.replaces is not None:
        if _never_was(rows, "owner", "customer = :value", vehicle, entry, row["entry"], owner):
            return
        since = row["since"]
    _ends(rows, "owner", "vehicle = :v", entry, since, v=vehicle)
    if owner is not None:
        told = {"vehicle": vehicle, "customer": owner, "since": since, "until": ""}
        place(rows, "owner", ("entry",), **told, entry=entry.number)


def find_again(rows: Rows, number: int) -> None:
    """Let a vehicle be found by what it bears now, and by the plates that it bore."""
    there = rows.first("SELECT vin, plate, make, model FROM vehicle WHERE id = :id", id=number)
    for source in ("", FORMER):
        search.forget(rows, "vehicle", number, source)
    search.put(rows, "vehicle", number, search.vehicle_words(**dict(there or {})))
    for row in rows.all("SELECT plate FROM plate WHERE vehicle = :v AND until <> '' ORDER BY entry", v=number):
        search.put(rows, "vehicle", number, search.vehicle_words("", row["plate"], "", ""), FORMER)


def customer(rows: Rows, entry: Entry) -> None:
    facts, number = entry.payload, entry.payload["customer"]
    if kept_of(rows, "customer", number) != number or not speaks(rows, entry, "customer", "id = :id", id=number):
        return
    before = rows.first("SELECT name, phone FROM customer WHERE id = :id", id=number)
    for commitment in (before["name"], before["phone"]) if before is not None else ():
        search.forget(rows, "customer", number, commitment)
    sealed = {name: facts.get(name, "") for name in SEALED}
    place(rows, "customer", ("id",), id=number, **sealed, entry=entry.number)
    found_by(rows, number, sealed | {"elsewhere": facts.get("elsewhere", "")})
    if "contacts" in facts:
        _contacts(rows, entry, number, facts["contacts"])


def found_by(rows: Rows, number: int, sealed: Mapping[str, Any]) -> None:
    """Let a customer be found by a name, a telephone number and a number elsewhere: their own, or those of somebody
    to speak to."""
    for name in WORDS_OF:
        if sealed.get(name):
            _found_by(rows, number, name, str(sealed[name]))


def _found_by(rows: Rows, number: int, name: str, commitment: str) -> None:
    text = opened(rows, commitment)
    found = search.spellings(text) if name == "name" else search.number_words(text)
    search.put(rows, "customer", number, found, commitment)


def _contacts(rows: Rows, entry: Entry, number: int, contacts: list[dict[str, Any]]) -> None:
    """The people at a customer, all of them anew; an entry that does not speak of them leaves them as they are."""
    before = rows.all("SELECT name, phone FROM contact WHERE customer = :c ORDER BY number", c=number)
    for row in before:
        for commitment in (row["name"], row["phone"]):
            search.forget(rows, "customer", number, commitment)
    rows.run("DELETE FROM contact WHERE customer = :c", c=number)
    for count, one in enumerate(contacts, 1):
        said = {"name": one.get("name", ""), "phone": one.get("phone", ""), "role": one.get("role", "")}
        may = int(bool(one.get("may_authorise")))
        place(rows, "contact", ("customer", "number"), customer=number, number=count, **said, may_authorise=may,
              entry=entry.number)  # fmt: skip
        found_by(rows, number, said)


def merged(rows: Rows, entry: Entry) -> None:
    """Two numbers were found to be one vehicle or customer: all that one had belongs to the other."""
    what = str(entry.payload["what"])
    gone, kept = (kept_of(rows, what, int(entry.payload[name])) for name in ("gone", "kept"))
    if gone == kept or what not in NAMED:
        return
    _end_what_both_hold(rows, entry, what, gone, kept)
    for table, column in NAMED[what]:
        # People at a customer are numbered there: those who come go on after those who are there.
        more = ""
        if table == "contact":
            more = ", number = number + (SELECT COALESCE(MAX(number), 0) FROM contact WHERE customer = :kept)"
        rows.run(f"UPDATE {table} SET {column} = :kept{more} WHERE {column} = :gone", kept=kept, gone=gone)
    rows.run(
        "INSERT INTO found (kind, token, subject, source) SELECT kind, token, :kept, "
        "CASE WHEN source IN ('', :former, :elsewhere) THEN :merged ELSE source END FROM found "
        "WHERE kind = :what AND subject = :gone ON CONFLICT DO NOTHING",
        kept=kept, gone=gone, what=what, former=FORMER, merged=MERGED, elsewhere=ELSEWHERE,
    )  # fmt: skip
    search.forget(rows, what, gone)
    rows.run("UPDATE merged SET kept = :kept WHERE what = :what AND kept = :gone", kept=kept, gone=gone, what=what)
    place(rows, "merged", ("what", "id"), what=what, id=gone, kept=kept, entry=entry.number)
    rows.run(f"DELETE FROM {what} WHERE id = :gone", gone=gone)


def _end_what_both_hold(rows: Rows, entry: Entry, what: str, gone: int, kept: int) -> None:
    """A vehicle bears one plate and has one owner at a time: those of the kept one, where it has any."""
    for table, column in (("plate", "plate"), ("owner", "customer")) if what == "vehicle" else ():
        sql = f"SELECT {column} FROM {table} WHERE vehicle = :v AND until = ''"
        if rows.value(sql, v=kept) is not None:
            _ends(rows, table, "vehicle = :v", entry, entry.done_at[:10], v=gone)
        elif (held := rows.value(sql, v=gone)) is not None:
            rows.run(f"UPDATE vehicle SET {column} = :held WHERE id = :kept", held=held, kept=kept)
