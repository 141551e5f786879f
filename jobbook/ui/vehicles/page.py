"""The list of vehicles."""

from PySide6.QtWidgets import QWidget

from jobbook.ui import look
from jobbook.ui.controls import column
from jobbook.ui.lists import ListWords, RecordList
from jobbook.ui.places import CUSTOMERS, TAKE_IN, VEHICLES, Place
from jobbook.ui.rooms import Page
from jobbook.ui.setting import Setting
from jobbook.ui.vehicles.columns import columns
from jobbook.ui.vehicles.presenter import VehiclesPresenter


class VehiclesPage(Page):
    """Every vehicle that was ever here."""

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = VehiclesPresenter(setting, self.go.emit)
        self.list = RecordList(self._words(), columns(self.tr), self.presenter.fetch)
        self.setLayout(column(self.list, margin=look.MARGIN))
        self.list.asked.connect(self._narrow)
        self.list.opened.connect(self.presenter.open)
        self.list.act_clicked.connect(lambda: self.go.emit(TAKE_IN))
        self.list.other_clicked.connect(lambda: self.go.emit(Place(VEHICLES, CUSTOMERS)))

    def _words(self) -> ListWords:
        return ListWords(
            title=self.tr("Vehicles"),
            find=self.tr("VIN, plate or vehicle"),
            nothing=self.tr(
                "Here will stand every vehicle that was in the shop, with its odometer and its visits. "
                "A vehicle comes into the book when it is taken in."
            ),
            not_found=self.tr("No vehicle fits. Take away a word; a VIN is found by its last six, too."),
            act=self.tr("Take in a vehicle"),
            other=self.tr("Customers"),
            other_key="Ctrl+O",
        )

    def _narrow(self, text: str, _filter: str) -> None:
        self.presenter.narrow(text)
        self.list.reload()

    def arrive(self, place: Place) -> None:
        self.list.reload()
        self.list.find_field.setFocus()

    def refresh(self, kinds: set[str]) -> None:
        self.list.refresh()
