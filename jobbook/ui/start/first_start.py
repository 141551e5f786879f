"""The first start: the workshop, the first person with a PIN, and where the new book and its key lie."""

from functools import partial
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from jobbook.core.errors import BookError
from jobbook.core.people import Person, Shop
from jobbook.services.opened import OpenBook, start_book
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.ui import look
from jobbook.ui.controls import button, column, frame, label, row, scrolling
from jobbook.ui.forms import Form, Section
from jobbook.ui.setting import Lanes
from jobbook.ui.start.restore_page import RestorePage

UNITS = (Option("km", "km"), Option("mi", "mi"))
PAPERS = (Option("A4", "A4"), Option("Letter", "US Letter"))


class FirstStart(QStackedWidget):
    """Creates the book, or restores one. `created` carries the open book, and the first person of a new one."""

    created = Signal(object, object)

    def __init__(self, place: str, lanes: Lanes, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._place, self._lanes = place, lanes
        self._made: tuple[OpenBook, Person] | None = None
        self.setWindowTitle(self.tr("Job book: a new book"))
        look.as_role(self, "ground")
        self.form = Form(self._asks(), columns=2)
        self.said = label("", "error", wrap=True)
        self.create_book = button(self.tr("Create the book"), "main")
        self.where = label("", "", wrap=True)
        self.why = label(self._why(), "cry", wrap=True)
        self.begin = button(self.tr("Open the book"), "main")
        self.restore = button(self.tr("Restore a backup instead"), "quiet")
        self.restoring = RestorePage(place, lanes)
        self.addWidget(self._asking())
        self.addWidget(self._made_page())
        self.addWidget(self.restoring)
        self.form.handed_in.connect(self._create)
        self.create_book.clicked.connect(self.form.hand_in)
        self.form.changed.connect(lambda _: self.said.clear())
        self.begin.clicked.connect(self._open)
        self.restore.clicked.connect(self._restore)
        self.restoring.left.connect(lambda: self.setCurrentIndex(0))
        self.restoring.restored.connect(lambda book: self.created.emit(book, None))
        self.form.focus_first()

    def _asks(self) -> tuple[Ask | Section, ...]:
        return (
            Section(self.tr("The workshop, as it prints on its papers")),
            Ask("name", self.tr("Name of the workshop")),
            Ask("phone", self.tr("Telephone"), required=False),
            Ask("address", self.tr("Address"), "long text", required=False),
            Ask("distance_unit", self.tr("Odometers count"), "choice", UNITS, value="km"),
            Ask("currency", self.tr("Currency"), "number", value="EUR"),
            Ask("paper", self.tr("Paper"), "choice", PAPERS, value="A4"),
            Section(self.tr("The first person, who may do everything and adds the others")),
            Ask("first", self.tr("Name")),
            Section(self.tr("A PIN of at least four digits signs what this person does")),
            Ask("pin", self.tr("PIN"), "secret"),
            Ask("again", self.tr("The same PIN again"), "secret"),
        )

    def _why(self) -> str:
        return self.tr(
            "Keep a copy of the key away from this machine. Every paper that leaves the shop is sealed with it; "
            "without it the book can issue no papers under this name any more."
        )

    def _asking(self) -> QWidget:
        sheet = frame("sheet")
        sheet.setFixedWidth(look.READABLE_WIDTH)
        words = self.tr("There is no book at {0} yet. It takes a minute to begin one.").format(self._place)
        sheet.setLayout(
            column(
                label(self.tr("A new job book"), "title"),
                label(words, "soft", wrap=True),
                self.form,
                self.said,
                row(self.restore, 1, self.create_book),
                margin=look.UNIT * 3,
                gap=look.UNIT * 2,
            )
        )
        return self._centred(sheet)

    def _made_page(self) -> QWidget:
        sheet = frame("sheet")
        sheet.setFixedWidth(look.READABLE_WIDTH)
        title = label(self.tr("The book is there"), "title")
        content = (title, self.where, self.why, row(1, self.begin))
        sheet.setLayout(column(*content, margin=look.UNIT * 3, gap=look.UNIT * 2))
        return self._centred(sheet)

    def _centred(self, sheet: QWidget) -> QWidget:
        inside = QWidget()
        inside.setLayout(row(1, column(1, sheet, 2), 1, margin=look.UNIT * 2))
        return scrolling(inside)

    def _create(self, answers: dict[str, str]) -> None:
        if answers["pin"] != answers["again"]:
            self.form.refuse("again", self.tr("The two PINs differ; nothing was created."))
            return
        shop = Shop(
            name=answers["name"].strip(),
            address=answers["address"].strip(),
            phone=answers["phone"].strip(),
            distance_unit=answers["distance_unit"],
            currency=answers["currency"].strip().upper(),
            paper=answers["paper"],
        )
        self.create_book.setEnabled(False)
        begin = partial(start_book, self._place, shop, answers["first"], answers["pin"])
        self._lanes.keep(begin, self._show_made, self._refuse)

    def _restore(self) -> None:
        self.setCurrentWidget(self.restoring)
        self.restoring.arrive()

    def _refuse(self, error: BookError) -> None:
        self.create_book.setEnabled(True)
        self.said.setText(str(error))

    def _show_made(self, made: tuple[OpenBook, Person]) -> None:
        self._made = made
        folder = made[0].folder
        words = self.tr("The book lies in {0}, its key in {1}. Back up the whole folder.")
        self.where.setText(words.format(folder, Path(folder) / "keys"))
        self.setCurrentIndex(1)
        self.begin.setFocus()

    def _open(self) -> None:
        if self._made is not None:
            self.created.emit(*self._made)
