"""Which tools on the shelf can do a stage, in words; and what to do where none can."""

from collections.abc import Iterable
from datetime import date

from jobbook.core.figures.stages import Stage
from jobbook.core.fitness import ANGLE_TOOLS, WRENCHES, uses_of
from jobbook.core.tools import Tool
from jobbook.core.work.model import Act
from jobbook.services.sheet.bay import Bay, stage_of

NONE = "no tool on the shelf fits"


def shelf_words(tools: Iterable[Tool], stages: Iterable[Stage], today: date) -> tuple[str, ...]:
    """One line a stage: the tools that fit it, or that none does."""
    shelf = tuple(tools)
    return tuple(_line(shelf, stage, today) for stage in stages)


def _line(tools: tuple[Tool, ...], stage: Stage, today: date) -> str:
    kinds = ANGLE_TOOLS if stage.kind == "angle" else WRENCHES
    fit = [use for use in uses_of(tools, stage, kinds, today) if not use.unfit]
    told = [f"{use.number} ({use.range_text})" if use.range_text else use.number for use in fit]
    return f"{stage.text()}: {' or '.join(told)}" if told else f"{stage.text()}: {NONE}"


def lacking_words(stage: Stage) -> str:
    """What to do where no tool on the shelf can do a stage."""
    what = stage.quantity.text()
    return (
        f"No tool on the shelf fits {what}, so this cannot be signed yet. Add one under The shop, Tools; a borrowed "
        "one as “outside”, with its certificate. Without that a permitted person can allow it, and the record says so."
    )


def on_the_shelf(bay: Bay, act: Act) -> str:
    """The tools that can do the stage that an act is about, for its card; nothing where it has none, or none fits."""
    stage = stage_of(bay.state, act.on, act.stage) if act.do == "tighten" else None
    if stage is None:
        return ""
    line = _line(bay.tools, stage, bay.today)
    return "" if line.endswith(NONE) else f"On the shelf for {line}"
