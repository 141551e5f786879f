"""Says whether it is really they: by PIN or badge, away from the window's thread since that takes a moment."""

from collections.abc import Callable
from typing import Protocol

from jobbook.core.errors import NotFound
from jobbook.core.people import Person
from jobbook.services.house.people import all_people, by_badge, by_pin
from jobbook.services.house.shop import shop
from jobbook.ui.keeping import Keeping
from jobbook.ui.setting import Setting


class DutyView(Protocol):
    """What the page can show."""

    def show_people(self, shop: str, people: tuple[Person, ...]) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_busy(self, busy: bool) -> None: ...


class DutyPresenter:
    """Lists who works here, and lets in whoever shows that it is they."""

    def __init__(self, setting: Setting, view: DutyView, came: Callable[[Person], None]) -> None:
        self._setting, self._view, self._came = setting, view, came
        self._keeping = Keeping(setting, view)

    def open(self) -> None:
        book = self._setting.book
        self._view.show_people(shop(book).name, tuple(p for p in all_people(book) if p.active))

    def pin(self, person: str, pin: str) -> None:
        if not person:
            self._view.refuse("Choose your name first.")
        elif not pin:
            self._view.refuse("Type your PIN.")
        else:
            self._keeping.do(lambda: by_pin(self._setting.book, person, pin), self._came)

    def scanned(self, code: str, person: str) -> None:
        """A burst of keys: a badge, or the PIN of the chosen person from somebody with very quick fingers."""
        self._keeping.do(lambda: self._badge_or_pin(code, person), self._came)

    def _badge_or_pin(self, code: str, person: str) -> Person:
        try:
            return by_badge(self._setting.book, code)
        except NotFound:
            if not code.isdigit() or not person:
                raise
            return by_pin(self._setting.book, person, code)
