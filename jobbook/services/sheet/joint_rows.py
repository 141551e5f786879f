"""The joint sheet: one row a joint, its cells in the order in which it is tightened."""

from collections.abc import Mapping, Sequence

from jobbook.core.work.model import Joint, Line
from jobbook.core.work.state import JointNow, State, called, is_angle, stages_of
from jobbook.services.job.replay import Kept
from jobbook.services.sheet.bay import stage_of
from jobbook.services.sheet.sheets import JointRow

HAND = ("started", "part-tightened", "tightened", "checked")


def joint_rows(state: State, on: str, kept: Sequence[Kept], names: Mapping[str, str]) -> tuple[JointRow, ...]:
    """The rows for what a step acts on: a joint, or a line with its seal and the joints that hold it."""
    thing = state.things.get(on)
    if isinstance(thing, Joint):
        return (_joint_row(state, thing, kept, names),)
    if isinstance(thing, Line) and thing.seal:
        return (JointRow(called(state, on), (("New", "", f"{thing.seal}, {len(state.issued.get(on, ()))} issued"),)),)
    return ()


def _joint_row(state: State, joint: Joint, kept: Sequence[Kept], names: Mapping[str, str]) -> JointRow:
    now = state.joints[joint.name]
    cells = [("New", "", _new(state, joint)), ("By hand", "disc" if now.word in HAND else "ring", "")]
    cells += _stage_cells(state, joint, now)
    if joint.safety:
        cells.append(("Check", "double" if now.word == "checked" else "ring", _short(names, now.checked_by)))
    tool = next((k.act.tool.number for k in reversed(kept) if k.act.on == joint.name and k.act.tool), "")
    cells.append(("Tool", "", tool or "–"))
    count = f", {joint.count}" if joint.count > 1 else ""
    return JointRow(
        called(state, joint.name) + count,
        tuple(cells),
        source(state, joint.figure, names),
        now.word == "part-tightened",
    )


def _new(state: State, joint: Joint) -> str:
    if not joint.single_use:
        return "not single-use"
    what = " and ".join(joint.pieces)
    have = max(len(state.issued.get(joint.name, ())), len(state.fitted.get(joint.name, ())))
    return f"{what}: {'issued' if have else 'not issued yet'}"


def _stage_cells(state: State, joint: Joint, now: JointNow) -> list[tuple[str, str, str]]:
    stages = stages_of(state, joint.name)
    if not stages:
        words = "by feel" if not joint.figure else "figure not known"
        return [("Torque", "disc" if now.word in ("tightened", "checked") else "ring", words)]
    done = len(stages) if now.word in ("tightened", "checked") else now.stage if now.word == "part-tightened" else 0
    cells = []
    for number, text in enumerate(stages, 1):
        stage = stage_of(state, joint.name, number)
        words = stage.text() if stage else text
        cells.append(("Angle" if is_angle(text) else "Torque", "disc" if number <= done else "ring", words))
    return cells


def source(state: State, key: str, names: Mapping[str, str]) -> str:
    """Where a figure stands: document, edition and who read it."""
    figure = state.figures.get(key)
    if figure is None:
        return ""
    return f"{figure.document}, edition {figure.edition} · read by {_short(names, figure.read_by)}"


def _short(names: Mapping[str, str], person: str) -> str:
    """A person as in a table: initial and family name."""
    first, _, rest = names.get(person, person).partition(" ")
    return f"{first[:1]}. {rest}" if rest else first


short_name = _short
