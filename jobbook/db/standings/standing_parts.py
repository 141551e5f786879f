"""Where fitted parts and odometer readings stand, so that a whole book can be asked how long its parts live.

A part is off once another one of the same function is fitted at its place of the same vehicle, or once an entry says
so. Which vehicle it is on follows from the job.
"""

from typing import Any

from jobbook.core.record.journal import Entry
from jobbook.db.rows import Rows
from jobbook.db.standings.standing_jobs import issued as piece_issued
from jobbook.db.standings.standing_jobs import piece_state as state_of_piece
from jobbook.db.standings.standing_names import kept_of, place

SAID = ("title", "number", "supplier", "serial", "batch", "condition")
ODOMETER_SAYS = ("unit", "what", "reset", "old_end", "old_unit", "new_start")
STILL_ON = "still on"
SAME_VEHICLE = "job IN (SELECT number FROM job WHERE vehicle = (SELECT vehicle FROM job WHERE number = :job))"


def issued(rows: Rows, entry: Entry) -> None:
    """A piece, and where it is a part, its row among the parts; a correction of the issue speaks in its place."""
    piece_issued(rows, entry)
    facts = entry.payload
    if facts.get("kind") != "part":
        return
    function, _, where = str(facts.get("serves", "")).partition("@")
    values: dict[str, Any] = {name: str(facts.get(name, "")) for name in SAID}
    values |= {"function": function, "place": where, "entry": entry.number}
    if entry.replaces is None:
        job = entry.job if entry.job is not None else facts["job"]
        empty = {"fitted_at": "", "off_at": "", "off_by": "", "reason": ""}
        place(rows, "fitted", ("piece",), piece=str(entry.number), job=job, **values, **empty, said_off=0)
        return
    changes = ", ".join(f"{name} = :{name}" for name in values)
    rows.run(f"UPDATE fitted SET {changes} WHERE entry = :replaces", **values, replaces=entry.replaces)


def piece_state(rows: Rows, entry: Entry) -> None:
    """A part that is fitted takes the place of the one before; where the fitting is taken back, so is that."""
    state_of_piece(rows, entry)
    piece = str(entry.payload["piece"])
    part = rows.first("SELECT function, place, job, fitted_at FROM fitted WHERE piece = :piece", piece=piece)
    if part is None:
        return
    fits = entry.payload["state"] == "fitted"
    if fits and not part["fitted_at"]:
        rows.run(
            "UPDATE fitted SET off_at = :at, off_job = :job, off_by = :piece WHERE piece <> :piece AND fitted_at <> '' "
            f"AND off_at = '' AND function = :function AND place = :place AND {SAME_VEHICLE}",
            at=entry.done_at, job=part["job"], piece=piece, function=part["function"], place=part["place"],
        )  # fmt: skip
        rows.run("UPDATE fitted SET fitted_at = :at WHERE piece = :piece", at=entry.done_at, piece=piece)
    elif not fits and part["fitted_at"]:
        rows.run("UPDATE fitted SET fitted_at = '' WHERE piece = :piece", piece=piece)
        rows.run("UPDATE fitted SET off_at = '', off_job = NULL, off_by = '' WHERE off_by = :piece", piece=piece)


def part_off(rows: Rows, entry: Entry) -> None:
    """Why a part came off. The last entry about a part speaks; one that says it is still on takes the others back."""
    facts = entry.payload
    piece, reason = str(facts["part"]), str(facts["reason"])
    part = rows.first("SELECT off_at, off_by, said_off FROM fitted WHERE piece = :piece", piece=piece)
    if part is None or (entry.replaces is not None and part["said_off"] != entry.replaces):
        return
    if reason == STILL_ON:
        rows.run(
            "UPDATE fitted SET reason = '', said_off = :entry WHERE piece = :piece", entry=entry.number, piece=piece
        )
        rows.run("UPDATE fitted SET off_at = '', off_job = NULL WHERE piece = :piece AND off_by = ''", piece=piece)
        return
    rows.run(
        "UPDATE fitted SET reason = :reason, said_off = :entry WHERE piece = :piece",
        reason=reason, entry=entry.number, piece=piece,
    )  # fmt: skip
    rows.run(
        "UPDATE fitted SET off_at = :at, off_job = :job WHERE piece = :piece AND off_at = ''",
        at=entry.done_at, job=facts["job"], piece=piece,
    )  # fmt: skip


def odometer(rows: Rows, entry: Entry) -> None:
    """One row for each reading that counts: a correction takes the place of what it corrects."""
    facts = entry.payload
    if entry.replaces is not None:
        if rows.value("SELECT entry FROM odometer WHERE entry = :replaces", replaces=entry.replaces) is None:
            return
        rows.run("DELETE FROM odometer WHERE entry = :replaces", replaces=entry.replaces)
    job = entry.job if entry.job is not None else facts.get("job") or None
    told: dict[str, Any] = {name: str(facts.get(name, "")) for name in ODOMETER_SAYS}
    told |= {"vehicle": kept_of(rows, "vehicle", facts["vehicle"]), "value": facts["value"], "at": entry.done_at}
    place(rows, "odometer", ("entry",), entry=entry.number, job=job, **told)
