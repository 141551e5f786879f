"""What the window asks of a page."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from jobbook.ui.places import LIST, TAKE_IN, Place


class Page(QWidget):
    """A page of a room. It asks to go elsewhere by `go`, and is told when it is shown and when the book changed."""

    go = Signal(object)  # Place
    back = Signal()  # to where one came from

    def arrive(self, place: Place) -> None:
        """The page is now shown for that place: read what it shows, put the focus where work begins."""

    def come_back(self) -> None:
        """The window was locked and is open again: what stood here still stands; put the focus where it was."""
        at = self.focusWidget()
        if at is not None:
            at.setFocus()

    def scanned(self, code: str) -> bool:
        """A badge was scanned: whether it is the signature that is asked for here."""
        return False

    def new_job(self) -> Place:
        """Where a vehicle is taken in from here."""
        return TAKE_IN

    def refresh(self, kinds: set[str]) -> None:
        """Entries of these kinds were written while the page was in sight."""


Makers = Mapping[str, Callable[[], Page]]


class Room(QStackedWidget):
    """One word of the index with its pages: the list, one thing of it, the form for a new one.

    A page is made when somebody first goes there, so that the window opens without those that nobody asked for."""

    go = Signal(object)  # Place
    back = Signal()  # to where one came from
    moved = Signal(object)  # Place
    made = Signal(object)  # the page that is now there

    def __init__(self, key: str, title: str, makers: Makers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.key, self.title = key, title
        self._makers = makers
        self._pages: dict[str, Page] = {}
        self.place = Place(key)

    def page(self, what: str) -> Page:
        """The page for the list, for a new one, or for one thing."""
        if what not in self._pages:
            page = self._pages[what] = self._makers[what]()
            self.addWidget(page)
            page.go.connect(self.go)
            page.back.connect(self.back)
            self.made.emit(page)
        return self._pages[what]

    def arrive(self, place: Place) -> None:
        page = self.page(place.what)
        self.place = place
        self.setCurrentWidget(page)
        page.arrive(place)
        self.moved.emit(place)

    def refresh(self, kinds: set[str]) -> None:
        page = self.currentWidget()
        if isinstance(page, Page):
            page.refresh(kinds)

    def scanned(self, code: str) -> bool:
        page = self.currentWidget()
        return isinstance(page, Page) and page.scanned(code)

    def come_back(self) -> None:
        page = self.currentWidget()
        if isinstance(page, Page):
            page.come_back()

    def new_job(self) -> Place:
        page = self.currentWidget()
        return page.new_job() if isinstance(page, Page) else TAKE_IN

    def list_place(self) -> Place:
        return Place(self.key, LIST)
