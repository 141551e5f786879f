"""What was found and answered, what was allowed against what it came to, and each attempt to reach the customer."""

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.platypus import Flowable

from jobbook.paperwork.blocks import facts, mark_cell, ruled, section


@dataclass(frozen=True)
class FoundRow:
    """One finding: the mark of its answer, what was found and where, how much it matters, what became of it."""

    mark: str
    what: str
    weight: str = ""
    became: str = ""
    by: str = ""


@dataclass(frozen=True)
class Attempt:
    """One attempt to reach the customer, by whom, and what came of it."""

    at: str
    how: str
    outcome: str
    said: str = ""
    by: str = ""


def found_table(found: Sequence[FoundRow], width: float) -> list[Flowable]:
    """What was found beside the concerns or under them; nothing where nothing was."""
    if not found:
        return []
    rows = [(mark_cell(one.mark), one.what, one.weight, one.became, one.by) for one in found]
    return ruled("What was found", ("", "What", "It is", "What became of it", "By"), (3, 27, 17, 35, 18), rows, width)


def price_block(price: Sequence[tuple[str, str]], width: float) -> list[Flowable]:
    """How the price stood against what was allowed; nothing where nothing was reckoned or allowed."""
    return section("Price and permission", width, facts([one for one in price if one[1]])) if price else []


def attempts_table(attempts: Sequence[Attempt], width: float) -> list[Flowable]:
    """Each attempt to reach the customer; nothing where nobody had to be reached."""
    if not attempts:
        return []
    rows = [(one.at, one.how, one.outcome, one.said or "nothing", one.by) for one in attempts]
    heads = ("When", "How", "What came of it", "What was said", "By")
    return ruled("Reaching the customer", heads, (15, 19, 14, 35, 17), rows, width)
