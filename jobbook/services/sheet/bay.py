"""What stands around the work while an act is offered: the tools of the crib, the pieces issued, the day."""

from dataclasses import dataclass, field
from datetime import date

from jobbook.core.errors import Refused
from jobbook.core.figures.stages import Stage, parse_stages
from jobbook.core.fitness import uses_of
from jobbook.core.people import Shop
from jobbook.core.tools import Tool
from jobbook.core.vehicle.parts import Piece
from jobbook.core.work.model import Act, ToolUse
from jobbook.core.work.state import State, stages_of


@dataclass(frozen=True)
class Bay:
    """What the choices of a step are made from. `taking`: the acts by which the job takes figures of its variant over,
    the next time that one is used; they are in the state already."""

    state: State
    tools: tuple[Tool, ...]
    pieces: tuple[Piece, ...]
    today: date
    taking: tuple[Act, ...] = ()
    shop: Shop = field(default_factory=lambda: Shop(""))


def stage_of(state: State, joint: str, number: int) -> Stage | None:
    """The stage of a joint's figure by its number from 1, or None where it is tightened by feel."""
    stages = stages_of(state, joint)
    if not stages:
        return None
    return parse_stages(stages[max(number, 1) - 1])[0]


def tools_for(bay: Bay, stage: Stage | None, kinds: tuple[str, ...]) -> tuple[ToolUse, ...]:
    """Tools of these kinds, the fit ones first; scrapped ones are left out."""
    return uses_of(bay.tools, stage, kinds, bay.today)


def get_tool(bay: Bay, number: str) -> Tool:
    for tool in bay.tools:
        if tool.number == number:
            return tool
    raise Refused(f"There is no tool “{number}” in the tool crib; nothing was kept.")
