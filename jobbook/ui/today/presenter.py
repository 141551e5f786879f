"""Today: what is due, where each line leads, and what came of it."""

from collections.abc import Callable, Mapping
from datetime import datetime
from typing import Protocol

from jobbook.core.desk.today import Due, Loose
from jobbook.core.errors import BookError
from jobbook.services.office.today import Today, today
from jobbook.services.office.today_card import card
from jobbook.services.opened import OpenBook
from jobbook.ui.backing_up import BackingUp
from jobbook.ui.keeping import Keeping
from jobbook.ui.places import BACKUP, KEPT_LONG, SHOP, TAKE_IN, TODAY, Place, a_call, a_job, a_tool, it_is_here
from jobbook.ui.setting import Setting
from jobbook.ui.today.asks import NOW
from jobbook.ui.today.known import Facts, Known, known_of
from jobbook.ui.today.lines import Line, line_of

TABS = {
    **dict.fromkeys(("authority", "permission"), "permission"),
    **dict.fromkeys(("visit", "reminder", "held"), "checks"),
    "wait": "work",
    "stand": "diagnosis",
}


class TodayView(Protocol):
    """What the page can show."""

    def show_lines(self, lines: tuple[Line, ...], now: datetime, cut: bool) -> None: ...

    def show_card(self, line: Line, facts: Facts, known: Known) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_kept(self, what: str) -> None: ...

    def show_busy(self, busy: bool) -> None: ...


class TodayPresenter:
    """Reads what is due at once; what is loose in each vehicle follows, since all its acts are gone through for it."""

    def __init__(self, setting: Setting, view: TodayView, go: Callable[[Place], None]) -> None:
        self._setting, self._view, self._go = setting, view, go
        self._known: dict[int, tuple[int, Loose]] = {}  # by job: the last entry that it was reckoned at
        self._keeping = Keeping(setting, view)
        self._counting = False
        self._now: Today | None = None  # as it was read last
        self._backing_up = BackingUp(setting, view, lambda written: self._kept(written.file.name), self.open)

    def open(self) -> None:
        self._now = now = today(self._setting.book)
        self._show(now)
        self._count(now)

    def _show(self, now: Today) -> None:
        known = {job: loose for job, (last, loose) in self._known.items() if now.last.get(job) == last}
        lines = tuple(line_of(due, known.get(due.job) if due.kind == "job" else None) for due in now.lines)
        self._view.show_lines(lines, now.now, now.cut)

    def _count(self, now: Today) -> None:
        wanted = {job: last for job, last in now.last.items() if self._known.get(job, (0,))[0] != last}
        if not wanted or self._counting:
            return
        self._counting = True
        book = self._setting.book

        def counted(found: Mapping[int, Loose]) -> None:
            self._counting = False
            self._known |= {job: (wanted[job], loose) for job, loose in found.items()}
            if self._now is not None:  # what is due may be more, or less, than when the counting began
                self._show(self._now)
                self._count(self._now)

        self._setting.lanes.slow("Looking at loose ends", lambda _: _loose(book, tuple(wanted)), counted, self._gone)

    def _gone(self, error: BookError) -> None:
        self._counting = False
        self._view.refuse(str(error))

    def choose(self, line: Line) -> None:
        book = self._setting.book
        known = known_of(book, line.due)
        self._view.show_card(line, card(book, line.due) + known.facts + _loose_fact(line), known)

    def go_to(self, line: Line) -> None:
        self._go(place_of(line.due))

    def it_is_here(self, line: Line) -> None:
        self._go(it_is_here(line.due.number))

    def somebody_calls(self) -> None:
        self._go(a_call())

    def take_in(self) -> None:
        self._go(TAKE_IN)

    def keep(self, due: Due, answers: Mapping[str, str]) -> None:
        book = self._setting.book
        if due.kind == "backup" and answers["outcome"] == NOW:
            self._backing_up.begin(answers["place"])
            return
        from jobbook.ui.today.outcomes import keep  # brings along all of the work, which no start waits for

        self._keeping.keep(lambda who: keep(book, who, due, answers), lambda _: self._kept(due.what))

    def _kept(self, what: str) -> None:
        self.open()
        self._view.show_kept(what)


def _loose(book: OpenBook, jobs: tuple[int, ...]) -> Mapping[int, Loose]:
    from jobbook.services.office.loose import loose_ends  # as `keep` above

    return loose_ends(book, jobs)


def place_of(due: Due) -> Place:
    """Where a line leads."""
    if due.kind == "call":
        return a_call(due.number)
    if due.kind == "tool":
        return a_tool(due.key)
    if due.kind.startswith("clock"):
        return Place(TODAY)
    if due.kind == "kept long":
        return Place(SHOP, name=KEPT_LONG)
    return a_job(due.job, TABS.get(due.kind, "")) if due.job else Place(SHOP, name=BACKUP)


def _loose_fact(line: Line) -> Facts:
    first = line.loose.first if line.loose is not None and line.due.kind == "job" else ""
    return (("Loose", first),) if first else ()
