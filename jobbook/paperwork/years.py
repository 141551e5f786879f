"""What a vehicle's earlier visits show, drawn: its heights, and what it lost standing."""

from dataclasses import dataclass

from reportlab.platypus import Flowable

from jobbook.core.drawing import Drawing
from jobbook.paperwork.blocks import section, spaced
from jobbook.paperwork.paint import Painted
from jobbook.paperwork.typed import para


@dataclass(frozen=True)
class Years:
    """One drawing with its title and what is said under it: where limits come from, what was left out."""

    title: str
    drawing: Drawing
    note: str = ""


def years_block(years: tuple[Years, ...], width: float) -> list[Flowable]:
    """Each drawing under its heading. Nothing where the vehicle was here once."""
    return [flowable for one in years for flowable in _one(one, width)]


def _one(one: Years, width: float) -> list[Flowable]:
    said: list[Flowable] = [para(one.note, "note")] if one.note else []
    return section(one.title, width, [spaced(3), Painted(one.drawing), *said])
