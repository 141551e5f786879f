"""What prices and permissions go by: read, shown with its sources, and kept when it changes."""

from collections.abc import Mapping
from typing import Protocol

from jobbook.core.people import Shop
from jobbook.services.house.prices import change_prices, told_words
from jobbook.services.house.profiles import profile_of, profiles
from jobbook.services.house.shop import shop
from jobbook.ui.setting import Setting

FIELDS = ("profile", "tax_rate", "labour_rate")
ProfileLine = tuple[str, str, str]


class PricesView(Protocol):
    """What the page can show."""

    def show_shop(self, facts: Shop) -> None: ...

    def show_profile(self, said: tuple[ProfileLine, ...]) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_kept(self) -> None: ...


class PricesPresenter:
    """Turns the form's answers into what the shop reckons with."""

    def __init__(self, setting: Setting, view: PricesView) -> None:
        self._setting, self._view = setting, view

    def open(self) -> None:
        facts = shop(self._setting.book)
        self._view.show_shop(facts)
        self._view.show_profile(told_words(profile_of(facts)))

    def choose(self, key: str) -> None:
        """Show what a profile says before it is kept."""
        if key in profiles():
            self._view.show_profile(told_words(profiles()[key]))

    def keep(self, given: Mapping[str, str]) -> None:
        barred = [key for key in given["no_release_without"].split(",") if key]
        book, (profile, tax, labour) = self._setting.book, (given[name] for name in FIELDS)
        self._setting.keep(
            lambda who: change_prices(book, who, profile, tax, labour, barred),
            self._kept,
            lambda error: self._view.refuse(str(error)),
        )

    def _kept(self, _facts: Shop) -> None:
        self.open()
        self._view.show_kept()
