"""What was declined at a vehicle's visits: at the desk, in the work, among the tests. Declined is not missing."""

from collections.abc import Iterable, Mapping
from typing import Any

from jobbook.core.desk.declined import consequence_of, words_of
from jobbook.core.record.journal import Entry
from jobbook.core.vehicle.history import DeclinedThen
from jobbook.db.store import Book

DECLINED = "declined/1"
DONE = {
    "align": "wheel alignment",
    "calibrate": "calibration of {what}",
    "measure": "measuring {what}",
    "drive": "the test drive",
    "declined": "repair of what was found",
}


def declined_work(reading: Book, vehicle: int) -> tuple[DeclinedThen, ...]:
    """Everything that was declined on a vehicle, the newest first."""
    found = [
        *_at_the_desk(reading.history.entries(vehicle, DECLINED)),
        *(_in_the_work(reading, row) for row in reading.history.declined_acts(vehicle)),
        *(DeclinedThen(row["job"], row["at"], row["name"], row["reason"]) for row in _tests(reading, vehicle)),
    ]
    return tuple(sorted(found, key=lambda one: (one.job, one.at), reverse=True))


def _tests(reading: Book, vehicle: int) -> list[dict[str, Any]]:
    return reading.history.declined_tests(vehicle)


def _at_the_desk(entries: Iterable[Entry]) -> Iterable[DeclinedThen]:
    listed = list(entries)
    corrected = {entry.replaces for entry in listed}
    for entry in listed:
        if entry.number not in corrected:
            facts = entry.payload
            subject = facts["subject"]
            told = (words_of(subject, facts.get("what", "")), consequence_of(subject, facts.get("consequence", "")))
            yield DeclinedThen(entry.job or 0, entry.done_at, *told)


def _in_the_work(reading: Book, row: Mapping[str, Any]) -> DeclinedThen:
    act = row["plain"]
    what = _finding(reading, act) if act["do"] == "declined" else ""
    words = DONE.get(act["do"], act["do"].replace("_", " ")).format(what=act.get("what", "").replace("_", " "))
    return DeclinedThen(row["job"], row["at"], what or words, act.get("reason", ""))


def _finding(reading: Book, act: Mapping[str, Any]) -> str:
    """The words of the finding whose repair was declined."""
    entry = reading.journal.by_act(act.get("on", ""))
    return str(entry.payload.get("act", {}).get("text", "")) if entry is not None else ""
