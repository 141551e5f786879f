"""Where jobs, their concerns, pieces and reminders stand."""

from jobbook.core.record.journal import Entry
from jobbook.db import search
from jobbook.db.rows import Rows
from jobbook.db.standings.standing_names import kept_of, opened, place, speaks

IN_WORK = "CASE WHEN EXISTS (SELECT 1 FROM begun WHERE begun.job = job.number) THEN 'in work' ELSE 'arrived' END"


def job_opened(rows: Rows, entry: Entry) -> None:
    """A job is opened once; a correction changes what was said of it, never its stage."""
    facts, number = entry.payload, entry.payload["job"]
    values = {
        "vehicle": kept_of(rows, "vehicle", facts["vehicle"]),
        "customer": kept_of(rows, "customer", facts.get("customer") or 0) or None,
        "promised": facts.get("promised", ""),
        "entry": entry.number,
    }
    if entry.replaces is None:
        place(rows, "job", ("number",), number=number, stage="arrived", opened_at=entry.done_at, **values)
    elif speaks(rows, entry, "job", "number = :number", number=number):
        changes = ", ".join(f"{name} = :{name}" for name in values)
        rows.run(f"UPDATE job SET {changes} WHERE number = :number", number=number, **values)
    search.put(rows, "job", number, {str(number)})


def concern(rows: Rows, entry: Entry) -> None:
    """A concern; a later entry of the same number speaks, and keeps the customer's words where it brings none."""
    facts = entry.payload
    key = {"job": facts["job"], "number": facts["number"]}
    if not speaks(rows, entry, "concern", "job = :job AND number = :number", **key):
        return
    there = rows.value("SELECT words FROM concern WHERE job = :job AND number = :number", **key)
    said = facts.get("words", there or "")
    plain = {name: facts.get(name, "") for name in ("cause", "confidence", "correction")}
    place(rows, "concern", ("job", "number"), **key, words=said, **plain, entry=entry.number)
    if there and there != said:
        search.forget(rows, "job", facts["job"], there)
    if said and said != there:
        search.put(rows, "job", facts["job"], search.spellings(opened(rows, said)), said)


def begun(rows: Rows, entry: Entry) -> None:
    place(rows, "begun", ("act",), act=entry.act, job=entry.payload["job"], entry=entry.number)
    rows.run(
        "UPDATE job SET stage = 'in work' WHERE number = :job AND stage = 'arrived'",
        job=entry.payload["job"],
    )


def undone(rows: Rows, entry: Entry) -> None:
    """What was undone before it was signed; a method that was begun by it is begun no longer."""
    job = entry.payload["job"]
    rows.run("DELETE FROM begun WHERE act = :act AND job = :job", act=entry.payload["act"], job=job)
    rows.run(f"UPDATE job SET stage = {IN_WORK} WHERE number = :job AND stage <> 'released'", job=job)


def released(rows: Rows, entry: Entry) -> None:
    """The vehicle goes back to its customer; a correction of the release speaks in its place."""
    job = entry.payload["job"]
    tail = "" if entry.replaces is None else " AND released = :replaces"
    values = {} if entry.replaces is None else {"replaces": entry.replaces}
    rows.run(
        f"UPDATE job SET stage = 'released', released = :entry WHERE number = :job{tail}",
        entry=entry.number, job=job, **values,
    )  # fmt: skip


def reopened(rows: Rows, entry: Entry) -> None:
    job = entry.job if entry.job is not None else entry.payload["job"]
    rows.run(f"UPDATE job SET stage = {IN_WORK}, released = NULL WHERE number = :job", job=job)


def issued(rows: Rows, entry: Entry) -> None:
    """A piece is known by the number of the entry that issued it, also after a correction."""
    piece = entry.number
    if entry.replaces is None:
        state = entry.payload.get("state", "issued")
        job = entry.job if entry.job is not None else entry.payload["job"]
        place(rows, "piece", ("id",), id=str(piece), job=job, state=state, entry=piece)
    else:
        piece = int(rows.value("SELECT id FROM piece WHERE entry = :replaces", replaces=entry.replaces) or 0)
        rows.run("UPDATE piece SET entry = :entry WHERE entry = :replaces", entry=entry.number, replaces=entry.replaces)
        search.forget(rows, "piece", piece)
    numbers = (str(entry.payload.get(name, "")) for name in ("number", "serial", "batch"))
    search.put(rows, "piece", piece, search.number_words(*numbers) if piece else set())


def piece_state(rows: Rows, entry: Entry) -> None:
    facts = entry.payload
    rows.run("UPDATE piece SET state = :state WHERE id = :id", state=facts["state"], id=str(facts["piece"]))


def reminder(rows: Rows, entry: Entry) -> None:
    """A reminder is known by the number of the entry that made it, also after a correction."""
    values = {"job": entry.payload.get("job") or None, "due_on": entry.payload.get("due_on", ""), "entry": entry.number}
    if entry.replaces is None:
        place(rows, "reminder", ("id",), id=entry.number, **values, outcome="")
        return
    rows.run(
        "UPDATE reminder SET job = :job, due_on = :due_on, entry = :entry WHERE entry = :replaces",
        **values, replaces=entry.replaces,
    )  # fmt: skip


def reminder_closed(rows: Rows, entry: Entry) -> None:
    facts = entry.payload
    rows.run("UPDATE reminder SET outcome = :outcome WHERE id = :id", outcome=facts["outcome"], id=facts["reminder"])
