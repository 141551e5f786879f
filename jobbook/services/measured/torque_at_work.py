"""A typed torque against its bolt: whether it is plausible, and what is kept of that. It warns and never refuses.

A maker's figure always wins: what is doubted is read in the document once more, and kept as it stands there.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.figures.bolts import GRADES
from jobbook.core.figures.plausible import Plausible, plausible_torque
from jobbook.core.figures.stages import Stage, parse_stages, stages_text
from jobbook.core.figures.threads import Thread, read_thread
from jobbook.core.quantities import Quantity
from jobbook.core.work.model import Joint
from jobbook.services.measured.adapters import rounded
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.shelf import shelf_words

DOUBTFUL = ("high", "impossible")
LOOKED = "Looked at as "
AS_IT_STANDS = "kept as it stands in the document"
WHY: Mapping[str, str] = {"impossible": "impossible: the bolt would break first"}


class Doubtful(Refused):
    """Something looks wrong and nothing was kept yet: it is kept as soon as somebody says that it stands so."""


@dataclass(frozen=True)
class Look:
    """What is said of a torque against its bolt; nothing where nothing can be said."""

    sentence: str = ""
    doubtful: bool = False


def look_at_torque(text: str, tolerance: str, fastener: str) -> Look:
    """Whether the last torque of these stages suits thread and grade, like M12x1.5 10.9. Where an angle follows, a low
    one is as it should be. Refused: stages or a fastener that cannot be read."""
    known, stages = read_fastener(fastener), parse_stages(text, tolerance)
    torques = [stage for stage in stages if stage.kind == "torque"]
    if known is None or not torques:
        return Look()
    last = torques[-1].quantity
    try:
        found = plausible_torque(last, *known)
    except Refused:
        return Look()  # a size without bearing data: nothing is known of it
    turned_on = stages[-1].kind == "angle"
    return _said(last, " ".join(fastener.split()), found, turned_on)


def _said(torque: Quantity, fastener: str, found: Plausible, turned_on: bool) -> Look:
    ends = [rounded(Quantity("torque", Fraction(end), "N*m"), "N*m", 1).text() for end in (found.low_nm, found.high_nm)]
    verdict = "low, as it is where an angle follows" if found.verdict == "low" and turned_on else found.verdict
    also = f" ({rounded(torque, 'N*m', 1).text()})" if torque.unit != "N*m" else ""
    hint = f" {found.hint}: look at the unit." if found.hint else ""
    told = f"{torque.text()}{also} is {WHY.get(verdict, verdict)}"
    sentence = f"{told} for {fastener}, usual is {ends[0]} to {ends[1]}.{hint}"
    return Look(sentence, found.verdict in DOUBTFUL or (found.verdict == "low" and not turned_on))


def read_fastener(text: str) -> tuple[Thread, str] | None:
    """Thread and grade as they stand on the bolt; None where nothing was typed."""
    words = text.split()
    if not words:
        return None
    if len(words) != 2 or words[1].replace(",", ".") not in GRADES:
        raise Refused(f"“{text.strip()[:40]}” is not thread and grade; write it like M12x1.5 10.9 or leave it empty.")
    return read_thread(words[0]), words[1].replace(",", ".")


def look_before_keeping(text: str, tolerance: str, fastener: str, confirmed: bool) -> str:
    """What is kept of the look. Doubtful: where it looks wrong and nobody has said yet that it stands so."""
    look = look_at_torque(text, tolerance, fastener)
    if look.doubtful and not confirmed:
        raise Doubtful(f"{look.sentence} Read the document once more; nothing was kept yet.")
    if not look.sentence:
        return ""
    note = look.sentence.rstrip(".")
    return f"{LOOKED}{' '.join(fastener.split())}: {note}" + (f"; {AS_IT_STANDS}." if look.doubtful else ".")


def without_look(conditions: str) -> str:
    """The conditions as somebody typed them."""
    return conditions.partition(LOOKED)[0].strip().rstrip(";").strip()


def fastener_in(conditions: str) -> str:
    """Thread and grade that a kept figure was looked at with."""
    found = re.search(rf"{LOOKED}([^:]+):", conditions)
    return found[1] if found else ""


def with_look(conditions: str, look: str) -> str:
    return "; ".join(filter(None, (without_look(conditions), look)))


def fasteners(joints: Iterable[object]) -> dict[str, str]:
    """Thread and grade by the key of the figure, for joints that declare both."""
    declared = [one for one in joints if isinstance(one, Joint) and one.thread and one.grade and one.figure]
    return {joint.figure: f"{joint.thread} {joint.grade}" for joint in declared}


def notes_on_torque(book: OpenBook, text: str, tolerance: str, fastener: str) -> tuple[str, ...]:
    """What can be said while a torque is typed: how its stages are read, which tools can do each, whether it suits its
    bolt. Nothing while it cannot be read."""
    try:
        stages = parse_stages(text, tolerance)
        look = look_at_torque(text, tolerance, fastener)
    except Refused:
        return ()
    with book.store.read() as reading:
        shelf = shelf_words(reading.tools.all(), map(_bare, stages), book.today())
    said = (f"Read as {stages_text(stages)}.", f"On the shelf for {'; for '.join(shelf)}.", look.sentence)
    return tuple(filter(None, said))


def _bare(stage: Stage) -> Stage:
    return Stage(stage.kind, stage.quantity)
