"""Whether a tool is fit for a stage of a joint on a day: in use, calibrated, and of a range that holds it."""

from collections.abc import Iterable
from datetime import date, timedelta

from jobbook.core.figures.stages import Stage
from jobbook.core.figures.torque import tool_range
from jobbook.core.quantities import read_quantity
from jobbook.core.tools import Tool
from jobbook.core.work.model import ToolUse
from jobbook.core.written import day

WRENCHES = ("click wrench", "electronic wrench", "beam or dial wrench")
SHOWS_VALUE = ("electronic wrench", "beam or dial wrench")
ANGLE_TOOLS = ("angle gauge",)
DUE_SOON_DAYS = 30
DEFAULT_INTERVAL = timedelta(days=365)  # ISO 6789: 12 months, unless the shop's own procedure says otherwise


def due_on(tool: Tool) -> date | None:
    """The day on which a tool's calibration ends, or None where none was ever recorded."""
    if tool.due_on:
        return date.fromisoformat(tool.due_on)
    return date.fromisoformat(tool.calibrated_on) + DEFAULT_INTERVAL if tool.calibrated_on else None


def tool_use(tool: Tool, stage: Stage | None, today: date) -> ToolUse:
    """A tool as it stands today for a stage; `unfit` says why it must not be used."""
    return ToolUse(
        tool.number, tool.kind, tool.range_text, tool.calibrated_on, tool.certificate, _unfit(tool, stage, today)
    )


def _unfit(tool: Tool, stage: Stage | None, today: date) -> str:
    if tool.status == "quarantined" or tool.status == "scrapped":
        return f"{tool.number} is {tool.status}; take another tool."
    due = due_on(tool)
    if due is None:
        return f"No calibration of {tool.number} is recorded; take another tool, or enter its certificate."
    if due < today:
        return f"The calibration of {tool.number} ended on {day(due)}; take another tool."
    return _out_of_range(tool, stage) if stage is not None else ""


def _out_of_range(tool: Tool, stage: Stage) -> str:
    if stage.kind == "angle":
        return "" if tool.kind in ANGLE_TOOLS else f"{tool.number} does not show an angle; take an angle gauge."
    if tool.kind not in WRENCHES or not tool.high:
        return f"{tool.number} is no torque wrench with a range; take another tool."
    low, high = (read_quantity(f"{end or '0'} {tool.unit}", "torque") for end in (tool.low, tool.high))
    fit = tool_range(stage.quantity, low, high)
    return "" if fit.usable else fit.reason


def uses_of(tools: Iterable[Tool], stage: Stage | None, kinds: tuple[str, ...], today: date) -> tuple[ToolUse, ...]:
    """How tools of these kinds stand for a stage, the fit ones first; scrapped ones are left out."""
    uses = [tool_use(tool, stage, today) for tool in tools if tool.kind in kinds and tool.status != "scrapped"]
    return tuple(sorted(uses, key=lambda use: (bool(use.unfit), use.number)))
