"""The columns of the list of kinds of parts."""

from collections.abc import Callable

from jobbook.core.vehicle.part_lives import Counted, kind_title
from jobbook.core.written import thousands
from jobbook.services.vehicle.part_life import short_name
from jobbook.ui.tables import Column


def columns(tr: Callable[[str], str], held: Callable[[Counted], bool]) -> tuple[Column, ...]:
    """`held` tells the kind that others are compared with; it has a full disc."""
    return (
        Column(tr("Part"), words, mark=lambda one: "disc" if held(one) else "ring"),
        Column(tr("fitted"), lambda one: thousands(one.fitted), width=7, right=True, strong=True),
        Column(tr("failed"), lambda one: thousands(one.failed), width=6, right=True),
        Column(tr("still on"), lambda one: thousands(one.still_on), width=7, right=True),
    )


def words(one: Counted) -> str:
    """What tells the kind from the others first, then what it is."""
    title = kind_title(one.title, one.kind.axle)
    own = short_name(one.kind)
    return f"{own} · {title}" if own else title
