"""A wrench with an adapter, or on a nut that turns hard: what it is set to, what the fastener gets, what is kept."""

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.figures.stages import Stage
from jobbook.core.figures.tools import with_drag
from jobbook.core.figures.torque import adapter_setting, adapter_torque
from jobbook.core.fitness import SHOWS_VALUE, tool_use
from jobbook.core.quantities import Quantity, read_quantity
from jobbook.core.quantities.quantity import NARROW
from jobbook.core.tools import Tool
from jobbook.core.work.model import Act
from jobbook.services.sheet.sheets import Ask, WithAdapter

LEVER, EXTENSION, ANGLE, DRAG, SETTING = "lever", "extension", "angle", "drag", "setting"
KINDS: Mapping[str, str] = {LEVER: "length", EXTENSION: "length", ANGLE: "angle", DRAG: "torque", SETTING: "torque"}
UNITS: Mapping[str, str] = {LEVER: "mm", EXTENSION: "mm", ANGLE: "deg", DRAG: "N*m", SETTING: "N*m"}

# Where the document gives no tolerance, what is set may differ from what is computed by the reading of a scale. A habit
# of the house; no standard gives it, and the tool's own deviation (ISO 6789) comes on top.
SET_APART = Fraction(2, 100)

FINE_BELOW = 10  # a smaller setting is shown to a hundredth, a larger one to a tenth: scales are no finer

MEASURES = (
    Ask(LEVER, "Lever L", "quantity", unit="mm", required=False),
    Ask(EXTENSION, "Extension E", "quantity", unit="mm", required=False),
    Ask(ANGLE, "Angle", "quantity", unit="°", value="0", required=False),
    Ask(DRAG, "Drag of the nut, if added", "quantity", unit="N·m", required=False),
)
SET_TO = Ask(SETTING, "Set on the wrench, or shown", "quantity", unit="N·m")


@dataclass(frozen=True)
class Adapter:
    """What was measured. Without a lever there is no adapter, only the drag of the nut."""

    lever: Quantity | None = None
    extension: Quantity | None = None
    angle: Quantity | None = None
    drag: Quantity | None = None

    def setting(self, torque: Quantity) -> Quantity:
        """What to set so that the fastener gets this torque; in the unit of the torque."""
        wanted = with_drag(torque, self.drag).given_in(torque.unit) if self.drag else torque
        if self.lever is None or self.extension is None or self.angle is None:
            return wanted
        return adapter_setting(wanted, self.lever, self.extension, self.angle)

    def torque(self, setting: Quantity) -> Quantity:
        """What the fastener gets from this setting, without the drag of the nut; in the unit of the setting."""
        got = setting
        if self.lever is not None and self.extension is not None and self.angle is not None:
            got = adapter_torque(setting, self.lever, self.extension, self.angle)
        return got if self.drag is None else replace(got, amount=got.in_unit(got.unit) - self.drag.in_unit(got.unit))

    @property
    def words(self) -> str:
        said = []
        if self.lever is not None and self.extension is not None and self.angle is not None:
            said.append(
                f"with adapter L{NARROW}{self.lever.text()}, E{NARROW}{self.extension.text()}, {self.angle.text()}"
            )
        if self.drag is not None:
            said.append(f"drag {self.drag.text()} added")
        return ", ".join(said)


def read_part(name: str, answer: str) -> Quantity:
    """One measure as it was typed; a bare number stands in the unit beside its field."""
    return read_quantity(answer, KINDS[name], default_unit=UNITS[name])


def keep_part(act: Act, name: str, answer: str) -> Act:
    """The act with this measure in place of what was said of it before."""
    others = tuple(pair for pair in act.readings if pair[0] != name)
    return replace(act, readings=(*others, (name, read_part(name, answer).text())))


def has_adapter(act: Act) -> bool:
    return any(name == SETTING for name, _ in act.readings)


def adapter_of(told: Mapping[str, str]) -> Adapter:
    """What the answers or readings say. Refused: half an adapter, or nothing at all, or less than no drag."""
    parts = {
        name: read_part(name, told[name]) for name in (LEVER, EXTENSION, ANGLE, DRAG) if told.get(name, "").strip()
    }
    if (LEVER in parts) != (EXTENSION in parts):
        raise Refused("Nothing was kept: an adapter needs both its lever L and its extension E; measure the other one.")
    if LEVER not in parts and DRAG not in parts:
        raise Refused("Nothing was kept: measure lever L and extension E, or the drag of the nut.")
    if DRAG in parts and parts[DRAG].amount < 0:
        raise Refused("Nothing was kept: the drag of a nut is not below nought; measure it again.")
    if LEVER not in parts:
        return Adapter(drag=parts[DRAG])
    angle = parts.get(ANGLE) or read_part(ANGLE, "0")
    return Adapter(parts[LEVER], parts[EXTENSION], angle, parts.get(DRAG))


def got(act: Act) -> Quantity:
    """The torque that the fastener got by the measures and the setting that the act keeps."""
    told = dict(act.readings)
    return adapter_of(told).torque(read_part(SETTING, told[SETTING]))


def with_adapter(act: Act, stage: Stage, tools: Sequence[Tool], today: date) -> Act:
    """The act with what it says of setting and torque; its tool is judged by the setting, not by the torque.

    Refused: half an adapter, one that reaches back to the grip, a drag that eats up the setting."""
    told = dict(act.readings)
    setting, adapter = read_part(SETTING, told[SETTING]), adapter_of(told)
    torque = adapter.torque(setting)
    if torque.amount <= 0:
        raise Refused(
            f"Nothing was kept: of {setting.text()} nothing reaches the fastener; look at the measures again."
        )
    tool = next((one for one in tools if act.tool is not None and one.number == act.tool.number), None)
    if tool is not None:
        act = replace(act, tool=tool_use(tool, Stage("torque", setting), today))
    words = f"{setting.text()} {adapter.words}, equals {rounded(torque, stage.quantity.unit).text()}"
    if act.do == "second_check":
        return replace(act, how=f"clicked at {words}, did not move")
    shown = tool is not None and tool.kind in SHOWS_VALUE
    return replace(act, reached=f"{'showed' if shown else 'clicked at'} {words}")


def rounded(quantity: Quantity, unit: str, places: int = 2) -> Quantity:
    """A quantity as it is written beside others: in that unit, to so many places."""
    return Quantity(quantity.kind, round(quantity.in_unit(unit), places), unit)


def accepted(stage: Stage) -> tuple[Fraction, Fraction]:
    """What the fastener may get, in the unit of the stage: its tolerance, or without one the reading of a scale."""
    if stage.tolerance is not None:
        return stage.limits()
    middle = Fraction(stage.quantity.amount)
    return middle * (1 - SET_APART), middle * (1 + SET_APART)


@dataclass(frozen=True)
class Worked:
    """What is said while the measures are typed: the setting large, or why there is none; the tools that do not reach
    it by number; the measures with their units, for the drawing."""

    setting: str = ""
    sentence: str = ""
    unfit: Mapping[str, str] = field(default_factory=dict)
    measures: Mapping[str, str] = field(default_factory=dict)


def worked_out(asked: WithAdapter, answers: Mapping[str, str]) -> Worked:
    """What the measures that stand there now ask for."""
    measures = _readable(answers)
    try:
        setting = adapter_of(answers).setting(asked.torque)
    except Refused as refused:
        typed = any(answers.get(name, "").strip() for name in (LEVER, EXTENSION, DRAG))
        sentence = str(refused).removeprefix("Nothing was kept: ") if typed else ""
        return Worked("", sentence[:1].upper() + sentence[1:], _unfit(asked, None), measures)
    shown = rounded(setting, asked.torque.unit, 1 if setting.amount >= FINE_BELOW else 2)
    fit = _unfit(asked, Stage("torque", shown))
    return Worked(shown.text(), f"for {asked.torque.text()} at the fastener", fit, measures)


def _unfit(asked: WithAdapter, stage: Stage | None) -> dict[str, str]:
    if asked.allowed:
        return {}
    return {tool.number: tool_use(tool, stage, asked.today).unfit for tool in asked.tools}


def _readable(answers: Mapping[str, str]) -> dict[str, str]:
    found = {}
    for name in (LEVER, EXTENSION, ANGLE):
        with suppress(Refused):
            found[name] = read_part(name, answers.get(name, "")).text()
    return found
