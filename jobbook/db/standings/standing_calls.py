"""Where calls and promises stand."""

from jobbook.core.record.journal import Entry
from jobbook.db.rows import Rows
from jobbook.db.standings.standing_names import place


def call(rows: Rows, entry: Entry) -> None:
    """A call is known by the number of the entry that took it, also after what was said anew of it."""
    expected = entry.payload.get("expected", "")
    if entry.replaces is None:
        place(rows, "call", ("id",), id=entry.number, expected=expected, outcome="", job=None, entry=entry.number)
        return
    rows.run(
        "UPDATE call SET expected = :expected, entry = :entry WHERE entry = :replaces",
        expected=expected, entry=entry.number, replaces=entry.replaces,
    )  # fmt: skip


def call_closed(rows: Rows, entry: Entry) -> None:
    facts = entry.payload
    rows.run(
        "UPDATE call SET outcome = :outcome, job = :job WHERE id = :id",
        outcome=facts["outcome"], job=facts.get("job") or None, id=facts["call"],
    )  # fmt: skip


def promise(rows: Rows, entry: Entry) -> None:
    """The vehicle was promised for another time."""
    facts = entry.payload
    rows.run("UPDATE job SET promised = :promised WHERE number = :job", promised=facts["promised"], job=facts["job"])
