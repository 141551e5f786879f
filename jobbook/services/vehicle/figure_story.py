"""What there is to say of one figure of a variant: since when, by whom, what was before it, and who used what."""

from dataclasses import dataclass

from jobbook.core.vehicle.specifications import OlderUse, Specification
from jobbook.services.house.people import all_people
from jobbook.services.measured.height_words import written_day
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.variants import figures_of, jobs_with_older


@dataclass(frozen=True)
class FigureStory:
    """The words of a figure's card. `doubt` is what a second person read otherwise; `older` are the jobs that were
    done with another figure; `wants_look` says that nobody else has read the document yet."""

    said: str
    doubt: str
    coming: tuple[str, ...]
    earlier: tuple[str, ...]
    older: tuple[OlderUse, ...]
    wants_look: bool


def figure_story(book: OpenBook, figure: Specification) -> FigureStory:
    """Read it."""
    names = {person.id: person.name for person in all_people(book)}
    figures = figures_of(book, figure.variant)
    coming = tuple(
        f"From {written_day(one.valid_from)}: {_figure(one)}" for one in figures.to_come if _same(one, figure)
    )
    earlier = tuple(f"{_since(one)}: {_figure(one)}" for one in figures.before(figure) if one not in figures.to_come)
    doubt, by = figure.doubt, names.get(figure.second_look_by, figure.second_look_by)
    said = f"{_since(figure)}, read by {names.get(figure.read_by, figure.read_by)}"
    looked = f"; second look by {by}" if by else "" if doubt else "; no second look yet"
    return FigureStory(f"{said}{looked}.", _doubt(figure), coming, earlier, jobs_with_older(book, figure), not by)


def _same(one: Specification, other: Specification) -> bool:
    return one.key == other.key and one.entry != other.entry


def _since(one: Specification) -> str:
    return f"In force from {written_day(one.valid_from)}" if one.valid_from else "In force from the first"


def _figure(one: Specification) -> str:
    return f"{one.text} {one.tolerance}".strip() + f" · {one.document}, {one.edition}"


def _doubt(figure: Specification) -> str:
    return f"Somebody who looked too read it otherwise: {figure.doubt}" if figure.doubt else ""


def use_words(use: OlderUse) -> str:
    """What a job was done with, in a line."""
    return f"{use.text} {use.tolerance}".strip() + f" · {use.document}, {use.edition}"
