"""What was done by one person and is written down by another, or later: four facts stay apart.

Done by, done at, entered by and entered at. What comes from a paper or from memory says so for good."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from types import MappingProxyType

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.db.store import Book
from jobbook.services.sheet.sheets import Ask, Choice, Option, options_of
from jobbook.services.typed_times import read_moment

NOBODY_KNOWN = "unknown"  # stands where a person's short word does; no person has it
NOTED = {"paper": "from paper", "memory": "from memory"}
NAMES = ("done_by", "done_at", "noted")
NOT_LATE: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True)
class Late:
    """Who did it and when, where that is not the person who enters it now, and what it was taken from."""

    done_by: str = ""
    done_at: str = ""
    noted: str = ""


def late_asks(people: Iterable[Person]) -> tuple[Ask, ...]:
    """What is asked, folded away, of something that was done by somebody else or before. People who have left are
    among them."""
    named = (Option(one.id, one.name if one.active else f"{one.name} (has left)") for one in people)
    noted = options_of(NOTED)
    return (
        Ask("noted", "Written down", "list", noted, required=False, folded=True),
        Ask("done_by", "Done by", "list", (*named, Option(NOBODY_KNOWN, "not known")), required=False, folded=True),
        Ask("done_at", "Done at, like 17:40", "time", required=False, folded=True),
    )


def late_of(reading: Book, answers: Mapping[str, str], now: datetime) -> Late:
    """The late facts that were answered. Refused: a time to come, nobody of the shop, something done by another person
    or before that does not say whether it comes from paper or from memory."""
    told = {name: answers.get(name, "").strip() for name in NAMES}
    if told["done_by"] and told["done_by"] not in (NOBODY_KNOWN, *(one.id for one in reading.people.all())):
        raise Refused(f"Nothing was kept: nobody of this shop is called “{told['done_by']}”. Choose who did it.")
    if told["noted"] not in ("", *NOTED):
        raise Refused("Nothing was kept: say whether it is taken from paper or from memory.")
    if (told["done_by"] or told["done_at"]) and not told["noted"]:
        raise Refused("Nothing was kept: what was done before is written down from paper or from memory; say which.")
    moment = read_moment(told["done_at"], now).isoformat() if told["done_at"] else ""
    return Late(told["done_by"], moment, told["noted"])


def late_act(reading: Book, choice: Choice, answers: Mapping[str, str], now: datetime) -> Late:
    """The late facts of an act of the work; none where there are no answers. Refused: nobody named, a second check,
    which is made and never copied, and a wait, which only the clock begins."""
    if not answers:
        return Late()
    if choice.second_person or choice.act.do == "second_check":
        raise Refused("Nothing was kept: a second check is signed by whoever makes it. If it was not made, it is open.")
    if choice.key == "wait-begun":
        raise Refused("Nothing was kept: a wait begins with the clock. Keep that the wait is over, from the paper.")
    late = late_of(reading, answers, now)
    if late.done_by in ("", NOBODY_KNOWN) or not late.noted:
        raise Refused("Nothing was kept: say who did it, and whether it is taken from paper or from memory.")
    return late


def with_late(draft: Draft, late: Late) -> Draft:
    """The draft with its late facts; as it was where there are none."""
    if not late.noted:
        return draft
    payload = {**draft.payload, "noted": late.noted}
    return replace(draft, payload=payload, done_by=late.done_by or draft.done_by, done_at=late.done_at or draft.done_at)


def parted(answers: Mapping[str, str]) -> tuple[dict[str, str], dict[str, str]]:
    """The answers of the act itself, and the late facts among them."""
    late = {name: text for name, text in answers.items() if name in NAMES}
    return {name: text for name, text in answers.items() if name not in late}, late


def written_down_asks(people: Iterable[Option]) -> tuple[Ask, ...]:
    """What is asked of an act of the work that somebody wrote on paper, or tells from memory."""
    noted = options_of(NOTED)
    return (
        Ask("noted", "It is taken", "choice", noted, value="paper"),
        Ask("done_by", "Done by", "list", tuple(people)),
        Ask("done_at", "Done at, like 9:15; empty where it is not known", "time", required=False),
    )


def noted_words(noted: str, entered_by: str, entered_at: str) -> str:
    """“from paper, entered by Jonas Wexley”; empty for what was written as it was done."""
    return f"{NOTED[noted]}, entered {entered_at} by {entered_by}" if noted in NOTED else ""
