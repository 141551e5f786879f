"""The list of jobs."""

from PySide6.QtWidgets import QWidget

from jobbook.core.jobs import EXPECTED
from jobbook.services.opened import OpenBook
from jobbook.ui import look
from jobbook.ui.controls import column, tell_key
from jobbook.ui.jobs.columns import columns
from jobbook.ui.jobs.presenter import JobsPresenter
from jobbook.ui.lists import ListWords, RecordList
from jobbook.ui.places import Place
from jobbook.ui.rooms import Page


class JobsPage(Page):
    """Every job, the newest first."""

    def __init__(self, book: OpenBook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = JobsPresenter(book, self.go.emit)
        self.list = RecordList(self._words(), columns(self.tr), self.presenter.fetch, self._stages())
        self.setLayout(column(self.list, margin=look.MARGIN))
        self.list.asked.connect(self._narrow)
        tell_key(self.list.act, "Ctrl+N")
        tell_key(self.list.other, "Ctrl+T")
        self.list.opened.connect(self.presenter.open)
        self.list.act_clicked.connect(self.presenter.take_in)
        self.list.other_clicked.connect(self.presenter.somebody_calls)

    def _words(self) -> ListWords:
        return ListWords(
            title=self.tr("Jobs"),
            find=self.tr("Number, plate, VIN, vehicle or customer"),
            nothing=self.tr(
                "Here will stand every visit of every vehicle, the newest first. "
                "The first one begins when a vehicle is taken in."
            ),
            not_found=self.tr("No job fits. Take away a word, or choose another stage."),
            act=self.tr("Take in a vehicle"),
            other=self.tr("Somebody calls"),
        )

    def _stages(self) -> tuple[tuple[str, str], ...]:
        return (
            ("", self.tr("All")),
            (EXPECTED, self.tr("Expected")),
            ("arrived", self.tr("Arrived")),
            ("in work", self.tr("In work")),
            ("released", self.tr("Released")),
        )

    def _narrow(self, text: str, stage: str) -> None:
        self.presenter.narrow(text, stage)
        self.list.reload()

    def arrive(self, place: Place) -> None:
        self.list.reload()
        self.list.find_field.setFocus()

    def refresh(self, kinds: set[str]) -> None:
        self.list.refresh()
