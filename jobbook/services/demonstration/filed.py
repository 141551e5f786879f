"""Pictures and reports of the demonstration, drawn for it: taken in, assigned, chosen for the evidence, marked."""

from jobbook.core.record.files import Mark
from jobbook.places import sample
from jobbook.services import files
from jobbook.services.demonstration.played import STEP_TIME, Played, Script


def take_in_files(played: Played) -> None:
    """Everything that the script names, by the technician."""
    for told in played.script.get("file", ()):
        _take_in(played, told)


def _take_in(played: Played, told: Script) -> None:
    book, job, who = played.book, played.job, played.person("technician")
    played.clock.on(STEP_TIME)
    path = sample() / "pictures" / told["name"]
    (kept,) = files.add_files(book, who, job, [path], told.get("what", ""), _place(played, told.get("to", ""))).kept
    if told.get("chosen"):
        files.choose(book, who, job, [kept.entry], True)
    if "mark" in told:
        files.set_marks(book, who, job, kept.entry, tuple(Mark(**one) for one in told["mark"]))


def _place(played: Played, words: str) -> str:
    """The key of the place whose words begin so; "" for the tray."""
    there = files.places(played.book, played.job) if words else ()
    return next(one.key for one in there if one.words.startswith(words)) if words else ""
