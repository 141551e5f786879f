"""The list of customers."""

from typing import Any

from PySide6.QtWidgets import QWidget

from jobbook.core.record.pages import Page as Rows
from jobbook.core.vehicle.vehicles import Customer
from jobbook.core.written import unless_erased
from jobbook.services.vehicle.customers import customer_page
from jobbook.ui import look
from jobbook.ui.controls import column
from jobbook.ui.lists import ListWords, RecordList
from jobbook.ui.places import VEHICLES, Place, a_customer
from jobbook.ui.rooms import Page
from jobbook.ui.setting import Setting
from jobbook.ui.tables import Column


class CustomersPage(Page):
    """Everybody who ever brought or owned a vehicle."""

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book, self._text = setting.book, ""
        self.list = RecordList(self._words(), self._columns(), self._fetch)
        self.setLayout(column(self.list, margin=look.MARGIN))
        self.list.asked.connect(self._narrow)
        self.list.opened.connect(lambda one: self.go.emit(a_customer(one.id)))
        self.list.act_clicked.connect(lambda: self.go.emit(Place(VEHICLES)))

    def _words(self) -> ListWords:
        return ListWords(
            title=self.tr("Customers"),
            find=self.tr("Name or telephone"),
            nothing=self.tr(
                "Here will stand every customer with their vehicles and visits. "
                "A customer comes into the book when a vehicle is taken in."
            ),
            not_found=self.tr("No customer fits. Take away a letter; a telephone is found without its spaces, too."),
            act=self.tr("Vehicles"),
        )

    def _columns(self) -> tuple[Column, ...]:
        return (
            Column(self.tr("Name"), lambda one: unless_erased(one.name), width=30, strong=True),
            Column(self.tr("Telephone"), lambda one: unless_erased(one.phone), width=20),
            Column(self.tr("Address"), lambda one: unless_erased(one.address)),
            Column(self.tr("Number"), lambda one: str(one.id), width=8, right=True, role="soft"),
        )

    def _fetch(self, after: Any, limit: int) -> Rows[Customer]:
        return customer_page(self._book, after, self._text, limit)

    def _narrow(self, text: str, _filter: str) -> None:
        self._text = text.strip()
        self.list.reload()

    def arrive(self, place: Place) -> None:
        self.list.reload()
        self.list.find_field.setFocus()

    def refresh(self, kinds: set[str]) -> None:
        self.list.refresh()
