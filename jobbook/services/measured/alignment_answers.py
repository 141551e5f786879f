"""The answers of a reading of the wheel geometry, as they become part of its act."""

from collections.abc import Mapping
from dataclasses import replace

from jobbook.core.errors import Refused
from jobbook.core.measured.alignment import ACROSS, read_geometry, settled_angle
from jobbook.core.work.model import CORNERS, Act

BY, PAPER, ON = "done by", "their paper", "their day and odometer"
SHEET = "sheet"  # the number of the entry that brought the file
OUTSIDE: Mapping[str, str] = {"outside_by": BY, "outside_paper": PAPER, "outside_on": ON}


def is_about_geometry(act: Act) -> bool:
    return act.do == "align" or (act.do, act.what) == ("measure", "geometry")


def with_angle(act: Act, name: str, typed: str) -> Act:
    """The act with a figure of its geometry, in place of what was said of it before."""
    others = tuple(pair for pair in act.readings if pair[0] != name)
    return replace(act, readings=(*others, (name, settled_angle(name, typed))))


def looked_at(act: Act) -> Act:
    """The act once all of its answers are in place. Refused: nothing read and nothing said, mm without a diameter,
    another shop's work without its name. Work of another shop is answered “sublet”, never as ours."""
    told = dict(act.readings)
    read = read_geometry(told)
    if act.answer not in ("done", "sublet"):
        return act
    if not read and not act.text and not told.get(SHEET) and act.answer == "done":
        raise Refused(
            "The geometry was not kept: enter the angles, or say in the note where the sheet lies. What was not "
            "measured is answered as not done, with its reason."
        )
    outside = [told[label] for label in OUTSIDE.values() if told.get(label)]
    if outside and not told.get(BY):
        raise Refused("The geometry was not kept: say which workshop did it, beside its invoice or day.")
    return replace(act, answer="sublet", reason=act.reason or ", ".join(outside)) if outside else act


def typed_answer(act: Act, name: str) -> str:
    """What was answered to a question, to be asked again: “FL −0°45′; FR −0°40′” for an angle of several wheels."""
    told = dict(act.readings)
    wheels = [(wheel, told[f"{name} {wheel}"]) for wheel in CORNERS if f"{name} {wheel}" in told]
    if wheels and name == "toe" and told.get(ACROSS):
        wheels.append(("diameter", told[ACROSS]))
    if wheels:
        return "; ".join(f"{wheel} {typed}" for wheel, typed in wheels)
    label = OUTSIDE.get(name, name)
    return told[label] if label in told else str(getattr(act, name, "") or "")
