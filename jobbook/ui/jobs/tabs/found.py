"""Findings on the Diagnosis tab: what else was found, how much it matters, whether it needs permission."""

from dataclasses import replace

from jobbook.core.measured.diagnosis import SEVERITIES, Finding
from jobbook.core.work.model import CORNERS
from jobbook.core.written import unless_erased
from jobbook.services.measured.diagnosing import Diagnosis
from jobbook.services.measured.findings import correct_finding, keep_finding
from jobbook.services.office.phrases import phrases_for, slip_hint
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Option, options_of
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing

NOTHING = "No finding yet. What is found beside the concern stands here, and asks for permission before it is done."
YES_NO = (Option("yes", "yes"), Option("no", "no"))
NO_CONCERN = Option("0", "none of them")
LETTERS = 40


def block(there: Diagnosis) -> Block:
    lines = tuple(_line(there, one) for one in there.findings)
    deeds = () if there.job.released_at else (Deed("finding", "Add a finding…", _asks(there)),)
    return Block("Findings", lines, nothing=NOTHING, deeds=deeds)


def _line(there: Diagnosis, one: Finding) -> Line:
    concern = f"belongs to concern {one.concern}" if one.concern else ""
    needs = "needs permission" if one.needs_permission else "needs no permission"
    who = there.names.get(one.by, one.by)
    said = " · ".join(filter(None, (one.corner, one.severity, concern, needs, who)))
    again = Deed("finding", "Correct…", (*_with(there, one), Ask("reason", "Why it is corrected")), of=str(one.entry))
    deeds = () if there.job.released_at else (again,)
    return Line(one.words, said, "half", one.at, loud=one.severity == SEVERITIES[0], deeds=deeds)


def _asks(there: Diagnosis) -> tuple[Ask, ...]:
    concerns = tuple(Option(str(c.number), f"{c.number}: {_short(c.words)}") for c in there.job.concerns)
    return (
        Ask(
            "words",
            "What was found, and where",
            "long text",
            phrases=phrases_for(there.phrases, "finding"),
            hint=slip_hint(there.phrases),
        ),
        Ask("severity", "It is", "list", options_of(SEVERITIES)),
        Ask("corner", "Corner", "choice", options_of(CORNERS), required=False),
        Ask("concern", "Belongs to the concern", "list", (NO_CONCERN, *concerns), value="0"),
        Ask("needs", "Needs permission before anything is done", "choice", YES_NO, value="yes"),
    )


def _short(words: str | None) -> str:
    said = unless_erased(words)
    return said if len(said) <= LETTERS else f"{said[: LETTERS - 1]}…"


def _with(there: Diagnosis, one: Finding) -> tuple[Ask, ...]:
    """The questions again, with what was answered."""
    told = {"words": one.words, "severity": one.severity, "corner": one.corner, "concern": str(one.concern)}
    told["needs"] = "yes" if one.needs_permission else "no"
    return tuple(replace(ask, value=told[ask.name]) for ask in _asks(there))


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    finding = Finding(
        given["words"],
        given["severity"],
        int(given["concern"] or 0),
        given["needs"] == "yes",
        given["corner"],
    )
    if not deed.of:
        return keep_finding(book, by.who, job, finding).words
    return correct_finding(book, by.who, job, int(deed.of), finding, given["reason"]).words
