"""Lists taken in and written: the file, what its columns hold, what is wrong, and what was kept. No Qt in here."""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Protocol

from jobbook.core.errors import BookError
from jobbook.core.lists.columns import CUSTOMERS, KINDS
from jobbook.core.lists.mapping import NOT_TAKEN, Mapped
from jobbook.core.people import Person
from jobbook.services.lists import importing, planning
from jobbook.services.lists.exporting import export
from jobbook.services.lists.leaving_out import write_left_out
from jobbook.services.lists.planning import Plan
from jobbook.services.lists.reading import Listed
from jobbook.services.lists.wording import counts_words, exported_words
from jobbook.ui.setting import Progress, Setting

SHOWN_ROWS = 3  # first rows of a list, to see what its columns hold


@dataclass(frozen=True)
class HeldColumn:
    """One column of a list: its heading, the fact that it holds ("" none), and what stands in its first rows."""

    place: int
    heading: str
    holds: str
    first: str


class ListsView(Protocol):
    """What the page can show."""

    def show_nothing(self) -> None: ...

    def show_list(self, how: str, columns: tuple[HeldColumn, ...]) -> None: ...

    def show_plan(self, planned: Plan, summary: str) -> None: ...

    def show_no_plan(self, sentence: str) -> None: ...

    def show_done(self, sentence: str) -> None: ...

    def refuse(self, sentence: str) -> None: ...


class ListsPresenter:
    """Holds the list that is being looked at. An answer for a list or a mapping of before is not shown."""

    def __init__(self, setting: Setting, view: ListsView) -> None:
        self._setting, self._view = setting, view
        self.kind = CUSTOMERS
        self._file: Path | None = None
        self._listed: Listed | None = None
        self._mapped: Mapped = ()
        self._planned: Plan | None = None
        self._asked = 0

    def choose_kind(self, kind: str) -> None:
        """Another kind of list: the file that is open is looked at again as such."""
        self.kind = kind
        if self._file is not None:
            self.open_file(self._file)

    def open_file(self, file: Path) -> None:
        """Read a file and say what would become of its rows. Nothing is kept."""
        self._file, book, kind = file, self._setting.book, self.kind
        asked = self._ask()
        self._setting.lanes.slow(
            f"Reading {file.name}",
            lambda running: planning.headings_of(book, kind, file),
            lambda read: self._read(asked, *read),
            lambda error: self._refuse(asked, error),
        )

    def _ask(self) -> int:
        self._planned = None
        self._asked += 1
        return self._asked

    def _read(self, asked: int, listed: Listed, mapped: Mapped) -> None:
        if asked == self._asked:
            self._listed, self._mapped = listed, mapped
            self._show_list()
            self._plan()

    def _show_list(self) -> None:
        assert self._listed is not None
        columns = tuple(
            HeldColumn(place, heading or f"column {place + 1}", self._mapped[place], self._first(place))
            for place, heading in enumerate(self._listed.headings)
        )
        self._view.show_list(f"{self._listed.name}: {self._listed.how}, {len(self._listed.rows)} rows", columns)

    def _first(self, place: int) -> str:
        assert self._listed is not None
        cells = (row[place] for _, row in self._listed.rows[:SHOWN_ROWS] if place < len(row))
        return " · ".join(cell for cell in cells if cell.strip())

    def hold(self, place: int, name: str) -> None:
        """Say what a column holds. What can stand in one column alone is taken from the column that held it."""
        column = next((one for one in KINDS[self.kind] if one.name == name), None)
        alone = column is not None and not column.between
        others = (NOT_TAKEN if alone and held == name else held for held in self._mapped)
        self._mapped = tuple(name if at == place else held for at, held in enumerate(others))
        self._show_list()
        self._plan()

    def _plan(self) -> None:
        asked, book, kind, listed, mapped = self._ask(), self._setting.book, self.kind, self._listed, self._mapped
        assert listed is not None
        self._setting.lanes.slow(
            f"Looking at {listed.name}",
            lambda running: planning.plan(book, kind, listed, mapped, running),
            lambda planned: self._looked_at(asked, planned),
            lambda error: self._no_plan(asked, error),
        )

    def _looked_at(self, asked: int, planned: Plan) -> None:
        if asked == self._asked:
            self._planned = planned
            self._view.show_plan(planned, counts_words(replace(planned, findings=())))

    def _no_plan(self, asked: int, error: BookError) -> None:
        if asked == self._asked:
            self._view.show_no_plan(str(error))

    def _refuse(self, asked: int, error: BookError) -> None:
        if asked == self._asked:
            self._view.show_nothing()
            self._view.refuse(str(error))

    def take_in(self, good_rows: bool = False) -> None:
        """Keep what was looked at. The writes are short, and signatures go between them."""
        planned, book = self._planned, self._setting.book
        if planned is None:
            return

        def begin(who: Person) -> None:
            asked = self._ask()
            self._setting.lanes.slow(
                f"Taking in {planned.listed.name}",
                lambda running: importing.keep(book, who, planned, good_rows=good_rows, running=running),
                lambda _: self._taken(planned, good_rows),
                lambda error: self._refuse(asked, error),
            )

        self._setting.begin(begin, lambda error: self._view.refuse(str(error)))

    def _taken(self, planned: Plan, good_rows: bool) -> None:
        kept = planned if good_rows else replace(planned, findings=())
        self._file = self._listed = None
        self._ask()
        self._view.show_nothing()
        self._view.show_done(f"{planned.listed.name} is taken in: {counts_words(kept)}.")

    def write_left_out(self, file: Path) -> None:
        """Write the rows that something is wrong with to a file, to be mended there and taken in anew."""
        planned = self._planned
        if planned is None:
            return
        self._setting.lanes.slow(
            f"Writing {file.name}",
            lambda running: write_left_out(planned, file),
            lambda rows: self._view.show_done(f"{file}: {rows} rows, each with what is wrong with it."),
            lambda error: self._view.refuse(str(error)),
        )

    def write(self, file: Path) -> None:
        """Write the list of that kind to a file."""
        book, kind = self._setting.book, self.kind
        self._setting.slow(
            f"Writing {file.name}",
            lambda who, running: export(book, who, kind, file, running),
            lambda written: self._view.show_done(exported_words(written)),
            lambda error: self._view.refuse(str(error)),
        )


def go_on_with_imports(setting: Setting) -> None:
    """Go on with every import that broke off, without anybody's asking: it was asked for when it began."""
    for begun in importing.unfinished(setting.book):
        _go_on(setting, begun)


def _go_on(setting: Setting, begun: importing.Import) -> None:
    def work(running: Progress) -> importing.Done:
        return importing.go_on(setting.book, begun, running=running)

    setting.lanes.slow(f"Going on with {begun.file}", work, lambda _: None, lambda _: None)
