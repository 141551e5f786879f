"""Parts known by number: the list as typed for, and the card of each. No Qt in here."""

from collections.abc import Mapping
from typing import Protocol

from jobbook.core.errors import BookError
from jobbook.core.vehicle.parts import KnownPart
from jobbook.services.house.known_parts import keep_part, known_part, known_parts
from jobbook.ui.setting import Setting

MOST = 200  # rows in sight; typing finds the others
FACTS = ("number", "title", "supplier", "kind", "warranty_months", "note")


class PartsView(Protocol):
    """What the page can show."""

    def show_parts(self, parts: tuple[KnownPart, ...], more: bool) -> None: ...

    def show_part(self, part: KnownPart) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_kept(self, part: KnownPart) -> None: ...


class PartsPresenter:
    """Keeps the card of a part."""

    def __init__(self, setting: Setting, view: PartsView) -> None:
        self._setting, self._view = setting, view
        self._text, self._id = "", 0

    def open(self) -> None:
        page = known_parts(self._setting.book, text=self._text, limit=MOST)
        self._view.show_parts(tuple(page.rows), page.next is not None)

    def find(self, text: str) -> None:
        self._text = text
        self.open()

    def show_one(self, number: int) -> None:
        """The card of that part, whatever the list shows."""
        try:
            self.choose(known_part(self._setting.book, number))
        except BookError as error:
            self._view.refuse(str(error))

    def choose(self, part: KnownPart) -> None:
        self._id = part.id
        self._view.show_part(part)

    def begin(self) -> None:
        self._id = 0

    def keep(self, answers: Mapping[str, str]) -> None:
        told = KnownPart(self._id, **{name: answers[name] for name in FACTS})
        book = self._setting.book
        self._setting.keep(
            lambda who: keep_part(book, who, told), self._kept, lambda error: self._view.refuse(str(error))
        )

    def _kept(self, part: KnownPart) -> None:
        self._id = part.id
        self.open()
        self._view.show_kept(part)
