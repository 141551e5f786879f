"""The columns of the shop's lists."""

from collections.abc import Callable
from datetime import date

from jobbook.core.people import PERMISSIONS, Person
from jobbook.services.house.shop import tool_state
from jobbook.ui.tables import Column

Tr = Callable[[str], str]


def people_columns(tr: Tr) -> tuple[Column, ...]:
    return (
        Column(tr("Name"), lambda person: person.name, width=22, strong=True),
        Column(tr("May"), permission_words),
        Column(tr("Signs by"), signs_by, width=14, role="soft"),
    )


def permission_words(person: Person) -> str:
    """A person's permissions in their order; somebody who has left says only that."""
    if not person.active:
        return "has left"
    held = [word for word in PERMISSIONS if word in person.permissions]
    if person.learning:
        held.append("learning")
    return "everything" if len(held) == len(PERMISSIONS) else ", ".join(held) or "nothing yet"


def signs_by(person: Person) -> str:
    ways = (["PIN"] if person.has_pin else []) + (["badge"] if person.has_badge else [])
    return " or ".join(ways) or "cannot sign"


def tool_columns(tr: Tr, today: Callable[[], date]) -> tuple[Column, ...]:
    return (
        Column(tr("Number"), lambda tool: tool.number, width=9, strong=True),
        Column(tr("Kind"), lambda tool: tool.kind, width=16),
        Column(tr("Range"), lambda tool: tool.range_text, width=14),
        Column(tr("State"), lambda tool: tool_state(tool, today())[1], mark=lambda tool: tool_state(tool, today())[0]),
    )


def specification_columns(tr: Tr) -> tuple[Column, ...]:
    return (
        Column(tr("Figure"), lambda figure: figure.title),
        Column(tr("As typed"), lambda figure: f"{figure.text} {figure.tolerance}".strip(), width=18, strong=True),
        Column(tr("Document"), lambda figure: f"{figure.document}, {figure.edition}", width=24, role="soft"),
    )
