"""Cause and correction of each concern on the Diagnosis tab; what a cause line lacks is said while it is typed."""

from jobbook.core.jobs import Concern
from jobbook.core.measured.causes import advice
from jobbook.core.written import unless_erased
from jobbook.services.measured.diagnosing import Diagnosis
from jobbook.services.office import desk
from jobbook.services.office.phrases import phrases_for, slip_hint
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing

CONFIDENCE = (Option("proved", "proved"), Option("probable", "probable"), Option("not found", "not found"))
CAUSE = "Cause: part, place, kind of failure, the test that proves it"


def block(there: Diagnosis) -> Block:
    return Block("Cause and correction", tuple(_cause(there, concern) for concern in there.job.concerns))


def _cause(there: Diagnosis, concern: Concern) -> Line:
    said = [f"Cause ({concern.confidence}): {concern.cause}"] if concern.cause else ["no cause written yet"]
    said += [f"Correction: {concern.correction}"] if concern.correction else []
    said += [advice(concern.cause)] if concern.confidence != "not found" else []
    mark = "disc" if concern.cause and concern.correction else "half" if concern.cause else "ring"
    words = unless_erased(concern.words)
    deed = Deed("cause", "Write…" if not concern.cause else "Change…", _asks(there, concern), of=str(concern.number))
    return Line(f"“{words}”", "\n".join(filter(None, said)), mark, deeds=(deed,))


def _asks(there: Diagnosis, concern: Concern) -> tuple[Ask, ...]:
    slips = slip_hint(there.phrases)

    def of_cause(typed: str) -> str:
        return " ".join(filter(None, (advice(typed), slips(typed))))

    causes, corrections = (phrases_for(there.phrases, field) for field in ("cause", "correction"))
    shown = "Correction, and how it was shown right"
    return (
        Ask("cause", CAUSE, "long text", value=concern.cause, phrases=causes, hint=of_cause),
        Ask("confidence", "How sure", "choice", CONFIDENCE, value=concern.confidence),
        Ask(
            "correction", shown, "long text", value=concern.correction, required=False, phrases=corrections,
            hint=slips,
        ),
    )  # fmt: skip


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    told = {name: given[name].strip() for name in ("cause", "correction")}
    desk.concern(book, by.who, job, int(deed.of), confidence=given["confidence"], **told)
    return f"Cause and correction of concern {deed.of}"
