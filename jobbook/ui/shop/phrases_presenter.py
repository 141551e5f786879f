"""Phrases of the shop's own: added to a field's list, or taken out of it."""

from collections.abc import Callable, Mapping
from typing import Protocol

from jobbook.core.desk.phrases import FIELDS, Phrase
from jobbook.core.people import Person
from jobbook.services.office.phrases import add_phrase, phrases, take_away
from jobbook.ui.setting import Setting


class PhrasesView(Protocol):
    """What the page can show."""

    def show_phrases(self, there: tuple[Phrase, ...]) -> None: ...

    def show_phrase(self, one: Phrase) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_kept(self, sentence: str) -> None: ...


class PhrasesPresenter:
    """A phrase is never changed: the card of one of the shop's own takes it away, and a new one is written."""

    def __init__(self, setting: Setting, view: PhrasesView) -> None:
        self._setting, self._view = setting, view
        self._chosen: Phrase | None = None

    def open(self) -> None:
        there = phrases(self._setting.book)
        fields = list(FIELDS)
        self._view.show_phrases(tuple(sorted(there, key=lambda one: fields.index(one.field))))

    def choose(self, one: Phrase) -> None:
        self._chosen = one
        self._view.show_phrase(one)

    def begin(self) -> None:
        self._chosen = None

    def keep(self, answers: Mapping[str, str]) -> None:
        """Add what was written; of one that is chosen, this is a further phrase beside it."""
        field, text = answers["field"], answers["text"]
        self._do(lambda who: add_phrase(self._setting.book, who, field, text), "The phrase is in the list.")

    def take_away(self) -> None:
        one = self._chosen
        if one is None or not one.number:
            self._view.refuse("Nothing was changed: this phrase comes with the program; only the shop's own can go.")
            return
        self._do(lambda who: take_away(self._setting.book, who, one.number), "The phrase is out of the list.")

    def _do(self, use_case: Callable[[Person], object], said: str) -> None:
        self._setting.keep(use_case, lambda _: self._kept(said), lambda error: self._view.refuse(str(error)))

    def _kept(self, said: str) -> None:
        self._chosen = None
        self.open()
        self._view.show_kept(said)
