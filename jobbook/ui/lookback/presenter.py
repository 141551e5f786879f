"""Looking back on parts: which kinds there are, which is shown, and which one it is compared with. No Qt in here."""

from pathlib import Path
from typing import Protocol

from jobbook.core.errors import BookError
from jobbook.core.vehicle.part_lives import Counted
from jobbook.services.vehicle.part_life import Life, kinds, life, name_of, write_csv
from jobbook.ui.setting import Setting

DAYS, KM = "days", "km"


class LookBackView(Protocol):
    """What the page can show."""

    def show_kinds(self, rows: tuple[Counted, ...], chosen: Counted | None) -> None: ...

    def show_life(self, title: str, beside: str, life: Life) -> None: ...

    def show_held(self, held: Counted | None) -> None: ...

    def say(self, sentence: str) -> None: ...

    def refuse(self, sentence: str) -> None: ...


class LookBackPresenter:
    """Holds what is counted by what, the kind in sight, the kind held beside it, and the measure."""

    def __init__(self, setting: Setting, view: LookBackView) -> None:
        self._setting, self._view = setting, view
        self._by, self._measure = "kind", DAYS
        self._rows: tuple[Counted, ...] = ()
        self.chosen: Counted | None = None
        self.held: Counted | None = None
        self._life: Life | None = None
        self._asked = 0

    def open(self) -> None:
        """Read the kinds; what was in sight stays in sight where it is still there."""
        book, by = self._setting.book, self._by
        self._asked += 1
        asked = self._asked
        self._setting.lanes.slow(
            "Counting parts", lambda _: kinds(book, by), lambda rows: self._counted(asked, rows), self._refused
        )

    def _counted(self, asked: int, rows: tuple[Counted, ...]) -> None:
        if asked != self._asked:
            return
        self._rows = rows
        self.held = _again(self.held, rows)
        self.chosen = _again(self.chosen, rows) or (rows[0] if rows else None)
        self._view.show_held(self.held)
        self._view.show_kinds(rows, self.chosen)
        self._show()

    def count_by(self, by: str) -> None:
        if by != self._by:
            self._by, self.chosen, self.held = by, None, None
            self.open()

    def measure(self, measure: str) -> None:
        if measure != self._measure:
            self._measure = measure
            self._show()

    def choose(self, one: Counted) -> None:
        if one != self.chosen:
            self.chosen = one
            self._show()

    def hold(self) -> None:
        """Hold the kind in sight, so that each one chosen next is compared with it; or let it go."""
        self.held = None if self.held is not None else self.chosen
        self._view.show_held(self.held)
        self._show()

    def _show(self) -> None:
        """Reckon the life of what is in sight; an answer that comes after another question is dropped."""
        first, second = self.held or self.chosen, self.chosen
        if first is None:
            return
        other = second if second != first else None
        book, measure = self._setting.book, self._measure
        self._asked += 1
        asked = self._asked
        self._setting.lanes.slow(
            "Reckoning part life",
            lambda _: life(book, first, other, measure),
            lambda found: self._reckoned(asked, first, other, found),
            self._refused,
        )

    def _reckoned(self, asked: int, first: Counted, other: Counted | None, found: Life) -> None:
        if asked == self._asked:
            self._life = found
            beside = f"beside {name_of(other)}" if other is not None else ""
            self._view.show_life(name_of(first), beside, found)

    def export(self, file: str) -> None:
        """Write the parts behind the plot as CSV."""
        shown = self._life
        if not file or shown is None:
            return
        path = Path(file)
        self._setting.lanes.slow(
            "Writing the list", lambda _: write_csv(path, shown.parts), self._written, self._refused
        )

    def _written(self, count: int) -> None:
        self._view.say(f"{count} parts are in the file; it names no vehicle and no customer.")

    def _refused(self, error: BookError) -> None:
        self._view.refuse(str(error))


def _again(one: Counted | None, rows: tuple[Counted, ...]) -> Counted | None:
    """The same kind in what was read now."""
    return next((row for row in rows if one is not None and row.kind == one.kind), None)
