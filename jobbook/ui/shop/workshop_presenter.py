"""The workshop's facts: read, and kept when they change."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Protocol

from jobbook.core.measured.practice import RULES
from jobbook.core.people import Shop
from jobbook.services.house.shop import change_shop, shop
from jobbook.ui.setting import Setting

TEXTS = (
    "name",
    "phone",
    "address",
    "distance_unit",
    "currency",
    "paper",
    "warranty_text",
    "warranty_months",
    "warranty_distance",
    "height_unit",
)
PRACTICE = "practice "
NUMBERS = ("retorque_km", "retorque_days", "comeback_months", "comeback_km")


class WorkshopView(Protocol):
    """What the page can show."""

    def show_shop(self, facts: Shop, folder: str) -> None: ...

    def refuse_field(self, name: str, sentence: str) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_kept(self) -> None: ...


class WorkshopPresenter:
    """Turns the form's answers into the workshop's facts."""

    def __init__(self, setting: Setting, view: WorkshopView) -> None:
        self._setting, self._view = setting, view

    def open(self) -> None:
        self._view.show_shop(shop(self._setting.book), str(self._setting.book.folder))

    def keep(self, answers: Mapping[str, str]) -> None:
        said = {name: text.strip() for name, text in answers.items()}
        said["currency"] = said["currency"].upper()
        wrong = next((name for name in NUMBERS if not (said[name].isascii() and said[name].isdigit())), "")
        if wrong:
            self._view.refuse_field(wrong, f"“{said[wrong]}” is not a whole number; nothing was changed.")
            return
        book = self._setting.book
        told = {name: said[name] for name in TEXTS} | {name: int(said[name]) for name in NUMBERS}
        practice = {rule.key: said[PRACTICE + rule.key] for rule in RULES}
        facts = replace(shop(book), **told, practice=practice)  # type: ignore[arg-type]
        self._setting.keep(
            lambda who: change_shop(book, who, facts), self._kept, lambda error: self._view.refuse(str(error))
        )

    def _kept(self, _facts: Shop) -> None:
        self.open()
        self._view.show_kept()
