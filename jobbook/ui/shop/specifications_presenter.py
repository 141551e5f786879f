"""Figures that the shop read from makers' documents, by variant."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from jobbook.core.errors import BookError
from jobbook.core.people import Person
from jobbook.core.specifications import Specification
from jobbook.core.work.model import CORNERS
from jobbook.services.methods import shipped_methods
from jobbook.services.people import all_people
from jobbook.services.shop import keep_specification, specifications, variants
from jobbook.services.torque_at_work import Doubtful, fasteners_of_the_methods, notes_on_torque
from jobbook.ui.setting import Setting


@dataclass(frozen=True)
class FigureWanted:
    """One figure that a method asks for, or a height that the staffs show. `fastener`: thread and grade of its joint,
    where the method declares them."""

    key: str
    kind: str
    title: str
    fastener: str = ""


HEIGHTS = tuple(FigureWanted(f"height {corner}", "length", f"Ride height {corner}") for corner in CORNERS)


def figures_of_the_methods() -> tuple[FigureWanted, ...]:
    """Every figure that a shipped method asks for, once."""
    bolts = fasteners_of_the_methods()
    figures = {
        figure[0]: FigureWanted(*figure, bolts.get(figure[0], ""))
        for card in shipped_methods()
        for figure in card.figures
    }
    return tuple(figures.values())


class SpecificationsView(Protocol):
    """What the page can show."""

    def show_variants(self, variants: tuple[str, ...], chosen: str) -> None: ...

    def show_figures(self, figures: tuple[Specification, ...]) -> None: ...

    def show_figure(self, figure: Specification) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def refuse_variant(self, sentence: str) -> None: ...

    def show_kept(self, figure: Specification) -> None: ...

    def show_notes(self, lines: tuple[str, ...]) -> None:
        """Say what can be said of a torque while it is typed."""

    def ask_to_confirm(self, sentence: str) -> None:
        """Say what looks wrong, and offer to keep it all the same."""


class SpecificationsPresenter:
    """Holds the variant that is looked at. The program asks where a figure stands; it never supplies one."""

    def __init__(self, setting: Setting, view: SpecificationsView, wanted: tuple[FigureWanted, ...]) -> None:
        self._setting, self._view = setting, view
        self._wanted = {one.key: one for one in (*wanted, *HEIGHTS)}
        self._variant = ""

    @property
    def wanted(self) -> tuple[FigureWanted, ...]:
        return tuple(self._wanted.values())

    def people(self) -> tuple[Person, ...]:
        return tuple(person for person in all_people(self._setting.book) if person.active)

    def open(self) -> None:
        known = variants(self._setting.book)
        if not self._variant and known:
            self._variant = known[0]
        self._view.show_variants(known, self._variant)
        self._show()

    def choose_variant(self, variant: str) -> None:
        self._variant = variant.strip()
        self._show()

    def _show(self) -> None:
        figures = specifications(self._setting.book, self._variant) if self._variant else ()
        self._view.show_figures(figures)

    def choose(self, figure: Specification) -> None:
        self._view.show_figure(figure)

    def look(self, answers: Mapping[str, str]) -> None:
        """Say what can be said of a torque as it stands in the fields now."""
        told: tuple[str, ...] = ()
        if answers["key"] and self._figure(answers["key"]).kind == "torque":
            told = notes_on_torque(self._setting.book, *(answers[name] for name in ("text", "tolerance", "fastener")))
        self._view.show_notes(told)

    def fastener_of(self, key: str) -> str:
        """Thread and grade that the methods declare for a figure."""
        return self._wanted[key].fastener if key in self._wanted else ""

    def keep(self, answers: Mapping[str, str], confirmed: bool = False) -> None:
        """Keep the figure; `confirmed`: what looked wrong was read in the document once more."""
        if not self._variant:
            self._view.refuse_variant("Name the variant first: a figure is valid for one variant only.")
            return
        try:
            who = self._setting.who()
        except BookError as error:
            self._view.refuse(str(error))
            return
        book, variant, asked = self._setting.book, self._variant, self._figure(answers["key"])
        said = {name: text.strip() for name, text in answers.items()}

        def work() -> Specification:
            return keep_specification(
                book,
                who,
                variant=variant,
                key=asked.key,
                kind=asked.kind,
                title=asked.title,
                text=said["text"],
                tolerance=said["tolerance"],
                conditions=said["conditions"],
                document=said["document"],
                edition=said["edition"],
                second_look_by=said["second_look_by"],
                fastener=said["fastener"],
                confirmed=confirmed,
            )

        self._setting.lanes.keep(work, self._kept, self._refused)

    def _refused(self, error: BookError) -> None:
        (self._view.ask_to_confirm if isinstance(error, Doubtful) else self._view.refuse)(str(error))

    def _figure(self, key: str) -> FigureWanted:
        """The figure of that key; one that no shipped method asks for any more is kept as it was."""
        if key in self._wanted:
            return self._wanted[key]
        old = next(s for s in specifications(self._setting.book, self._variant) if s.key == key)
        return FigureWanted(old.key, old.kind, old.title)

    def _kept(self, figure: Specification) -> None:
        self.open()
        self._view.show_kept(figure)
