"""Figures that the shop read from makers' documents, by variant."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from jobbook.core.errors import BookError
from jobbook.core.measured.alignment_limits import KEYS as GEOMETRY
from jobbook.core.people import Person
from jobbook.core.vehicle.specifications import Specification
from jobbook.core.vehicle.variants import Variant
from jobbook.core.work.model import CORNERS
from jobbook.services.house.people import all_people
from jobbook.services.house.shop import keep_specification, specifications
from jobbook.services.job.methods import fasteners_of_the_methods, shipped_methods
from jobbook.services.measured.torque_at_work import Doubtful, notes_on_torque
from jobbook.services.vehicle.figure_story import FigureStory, figure_story
from jobbook.services.vehicle.variants import keep_variant, known_variant, second_look, variant_names
from jobbook.ui.jobs.signing import Signers, signer_of, signers
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
ALIGNED = tuple(FigureWanted(key, "angle", title) for key, title in GEOMETRY.items())


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

    def show_variant(self, known: Variant) -> None:
        """Show what is known of the variant."""

    def show_story(self, story: FigureStory | None, signers: Signers) -> None:
        """Show what there is to say of the figure, and who may look at it too."""

    def refuse_look(self, sentence: str) -> None: ...

    def refuse_about(self, sentence: str) -> None: ...

    def show_kept(self, figure: Specification) -> None: ...

    def show_notes(self, lines: tuple[str, ...]) -> None:
        """Say what can be said of a torque while it is typed."""

    def ask_to_confirm(self, sentence: str) -> None:
        """Say what looks wrong, and offer to keep it all the same."""


class SpecificationsPresenter:
    """Holds the variant that is looked at. The program asks where a figure stands; it never supplies one."""

    def __init__(self, setting: Setting, view: SpecificationsView, wanted: tuple[FigureWanted, ...]) -> None:
        self._setting, self._view = setting, view
        self._wanted = {one.key: one for one in (*wanted, *HEIGHTS, *ALIGNED)}
        self._variant = ""
        self._chosen: Specification | None = None

    @property
    def wanted(self) -> tuple[FigureWanted, ...]:
        return tuple(self._wanted.values())

    def open(self) -> None:
        known = variant_names(self._setting.book)
        if not self._variant and known:
            self._variant = known[0]
        self._view.show_variants(known, self._variant)
        self._show()

    def choose_variant(self, variant: str) -> None:
        self._variant = variant.strip()
        self._show()

    def _show(self) -> None:
        book = self._setting.book
        figures = specifications(book, self._variant) if self._variant else ()
        self._view.show_variant(known_variant(book, self._variant))
        self._view.show_figures(figures)
        if not figures:
            self._view.show_story(None, Signers())

    def choose(self, figure: Specification) -> None:
        self._view.show_figure(figure)
        self._tell(figure)

    def _tell(self, figure: Specification) -> None:
        book = self._setting.book
        self._view.show_story(figure_story(book, figure), signers(all_people(book), self._setting.duty.person))
        self._chosen = figure

    def second_look(self, given: Mapping[str, str]) -> None:
        """Keep what another person read, signed by them."""
        book, figure = self._setting.book, self._chosen
        if figure is None:
            return

        def work() -> Specification:
            looked_by = signer_of(book, given)
            assert looked_by is not None
            return second_look(book, looked_by, figure, given["doubt"])

        self._setting.lanes.keep(work, self._kept, lambda error: self._view.refuse_look(str(error)))

    def keep_variant(self, given: Mapping[str, str]) -> None:
        """Keep what is known of the variant that is looked at."""
        said = {name: text.strip() for name, text in given.items()}
        make, model, begins, ends = (said[name] for name in ("make", "model", "built_from", "built_to"))
        facts, codes = Variant(self._variant, make, model, begins, ends, note=said["note"]), said["codes"]
        book = self._setting.book
        self._setting.keep(
            lambda who: keep_variant(book, who, facts, codes),
            lambda _: self.open(),
            lambda error: self._view.refuse_about(str(error)),
        )

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
        book, variant, asked = self._setting.book, self._variant, self._figure(answers["key"])
        said = {name: text.strip() for name, text in answers.items()}

        def work(who: Person) -> Specification:
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
                valid_from=said["valid_from"],
                fastener=said["fastener"],
                confirmed=confirmed,
            )

        self._setting.keep(work, self._kept, self._refused)

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
        self._tell(figure)
