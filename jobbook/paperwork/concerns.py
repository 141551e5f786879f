"""What was said, found and done."""

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.platypus import Flowable

from jobbook.paperwork.blocks import NONE_RECORDED, fact, section, spaced
from jobbook.paperwork.typed import para

LABEL = 62.0


@dataclass(frozen=True)
class Concern:
    """One concern in the customer's words, its cause with the proof, its correction with what showed it right.

    `confidence` is proved, probable or not found; empty where nobody said.
    """

    said: str = ""
    cause: str = ""
    correction: str = ""
    confidence: str = ""


def concerns_block(concerns: Sequence[Concern], width: float) -> list[Flowable]:
    """Every concern with its cause and correction; numbered where there are several."""
    said: list[Flowable] = []
    for number, concern in enumerate(concerns, start=1):
        label = f"Concern {number}" if len(concerns) > 1 else "Concern"
        quoted = f"“{concern.said}”" if concern.said.strip() else ""
        proof = f" ({concern.confidence})" if concern.confidence.strip() else ""
        said.append(fact(label, quoted, bold=True, width=LABEL))
        said.append(fact("Cause", concern.cause + proof, bold=True, width=LABEL))
        said.append(fact("Correction", concern.correction, bold=True, width=LABEL))
        said += [spaced(4)] if number < len(concerns) else []
    return section("What was said, found and done", width, said or [para(NONE_RECORDED)])
