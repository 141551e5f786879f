"""One thing kept at a time: a second press while the first is under way does nothing. No Qt in here."""

from collections.abc import Callable
from typing import Protocol, TypeVar

from jobbook.core.errors import BookError
from jobbook.core.people import Person
from jobbook.ui.setting import Setting

Result = TypeVar("Result")


class KeepingView(Protocol):
    """What a form shows of it."""

    def refuse(self, sentence: str) -> None: ...

    def show_busy(self, busy: bool) -> None: ...


class Keeping:
    """What a form hands in goes to the writing lane; meanwhile the form is busy, and a refusal is said on it."""

    def __init__(self, setting: Setting, view: KeepingView) -> None:
        self._setting, self._view = setting, view
        self._busy = False

    def keep(self, use_case: Callable[[Person], Result], done: Callable[[Result], None]) -> None:
        """Do a use case as the person on duty."""
        if self._begins():
            self._setting.keep(use_case, lambda result: self._done(result, done), self._refused)

    def do(self, work: Callable[[], Result], done: Callable[[Result], None]) -> None:
        """Do what nobody need be on duty for."""
        if self._begins():
            self._setting.lanes.keep(work, lambda result: self._done(result, done), self._refused)

    def _begins(self) -> bool:
        if self._busy:
            return False
        self._set(True)
        return True

    def _done(self, result: Result, done: Callable[[Result], None]) -> None:
        self._set(False)
        done(result)

    def _refused(self, error: BookError) -> None:
        self._set(False)
        self._view.refuse(str(error))

    def _set(self, busy: bool) -> None:
        self._busy = busy
        self._view.show_busy(busy)
