"""The find line: one field over jobs and vehicles, with what it finds grouped below as one types."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QPoint, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QListWidget, QListWidgetItem, QWidget

from jobbook.services.opened import OpenBook
from jobbook.ui import look
from jobbook.ui.found import Group, find
from jobbook.ui.places import Place

TYPING_PAUSE_MS = 120
PLACE_ROLE = Qt.ItemDataRole.UserRole


class FindLine(QLineEdit):
    """The field on top. `chosen` carries the place of what was chosen."""

    chosen = Signal(object)

    def __init__(self, book: OpenBook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self.setPlaceholderText(self.tr("Find a job or a vehicle by number, plate, VIN or customer …  Ctrl+F"))
        self.setAccessibleName(self.tr("Find"))
        self.results = QListWidget()
        self.results.setAccessibleName(self.tr("What was found"))
        self.results.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        look.as_role(self.results, "found")
        self.results.hide()
        self.results.itemClicked.connect(self._take)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(TYPING_PAUSE_MS)
        self._pause.timeout.connect(self.search)
        self.textEdited.connect(lambda _: self._pause.start())

    def search(self) -> None:
        """Show what fits the text as it stands."""
        self._pause.stop()
        self.results.clear()
        if not self.text().strip():
            self.results.hide()
            return
        self._fill(find(self._book, self.text()))
        self._place_results()

    def _fill(self, groups: Sequence[Group]) -> None:
        for group in groups:
            self._add(group.title, None)
            for found in group.found:
                self._add(found.words, found.place)
        if not groups:
            self._add(self.tr("Nothing fits."), None)
        self._move(1)

    def _add(self, words: str, place: Place | None) -> None:
        item = QListWidgetItem(words)
        item.setData(PLACE_ROLE, place)
        if place is None:
            item.setFlags(Qt.ItemFlag.NoItemFlags)
            item.setFont(look.font(look.SMALL, semibold=True))
            item.setForeground(look.colour("soft"))
        self.results.addItem(item)

    def _place_results(self) -> None:
        """Lay the list over the page, right below the field, as tall as what is in it."""
        above = self.window()
        if self.results.parentWidget() is not above:
            self.results.setParent(above)
        height = sum(self.results.sizeHintForRow(i) for i in range(self.results.count())) + look.UNIT
        corner = self.mapTo(above, QPoint(0, self.height()))
        self.results.setGeometry(corner.x(), corner.y(), self.width(), min(height, above.height() - corner.y()))
        self.results.show()
        self.results.raise_()

    def _move(self, step: int) -> None:
        """To the next thing that can be opened, past the headings."""
        count = self.results.count()
        at = self.results.currentRow()
        for _ in range(count):
            at = (at + step) % count
            if self.results.item(at).data(PLACE_ROLE) is not None:
                self.results.setCurrentRow(at)
                return

    def _take(self, item: QListWidgetItem | None) -> None:
        place = item.data(PLACE_ROLE) if item is not None else None
        if place is not None:
            self.leave()
            self.chosen.emit(place)

    def leave(self) -> None:
        """Put the field back as it was before anybody searched."""
        self._pause.stop()
        self.clear()
        self.results.hide()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        match event.key():
            case Qt.Key.Key_Down | Qt.Key.Key_Up if self.results.isVisible():
                self._move(1 if event.key() == Qt.Key.Key_Down else -1)
            case Qt.Key.Key_Return | Qt.Key.Key_Enter:
                if self._pause.isActive() or not self.results.isVisible():
                    self.search()
                self._take(self.results.currentItem())
            case Qt.Key.Key_Escape:
                self.leave()
            case _:
                super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.FocusOut:
            self.results.hide()
        offered = event.type() == QEvent.Type.ShortcutOverride
        if offered and isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Escape:
            event.accept()  # it leaves this field, and means nothing to the page below
            return True
        return super().event(event)
