"""The find line: one field over all that the book knows, with what it finds grouped below as one types."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QPoint, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QListWidget, QListWidgetItem, QWidget

from jobbook.ui import look
from jobbook.ui.found import Group, groups, groups_of_code
from jobbook.ui.places import Place
from jobbook.ui.setting import Setting

TYPING_PAUSE_MS = 120
PLACE_ROLE = Qt.ItemDataRole.UserRole
STEPS = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}


class FindLine(QLineEdit):
    """The field on top. `chosen` carries the place of what was chosen.

    The book is read away from the window's thread; what comes for a text that has changed meanwhile is not shown."""

    chosen = Signal(object)

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._setting = setting
        self._asked = 0  # which question the answer is awaited to
        self._shown = 0  # the one whose answer stands there
        self._taking = False  # Enter was pressed before the answer came
        self.setPlaceholderText(self.tr("Find a job, call, vehicle, customer, part, serial, batch or tool …  Ctrl+F"))
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
        self.textEdited.connect(self._typed)

    def _typed(self) -> None:
        self._taking = False
        self._asked += 1  # what is under way was for another text
        self._pause.start()

    def search(self) -> None:
        """Look for what fits the text as it stands, and show it when it comes."""
        self._look_for(groups)

    def search_code(self, code: str) -> None:
        """Show what a scanned code names, and open nothing: Enter does."""
        self.setText(code)
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        self._look_for(groups_of_code)

    def _look_for(self, how: Callable[..., tuple[Group, ...]]) -> None:
        self._pause.stop()
        self._asked += 1
        asked, book, text = self._asked, self._setting.book, self.text().strip()
        if not text:
            self._close()
            return
        self._setting.lanes.find(
            lambda: how(book, text),
            lambda found: self._show(asked, text, found),
            lambda error: self._show(asked, text, (), str(error)),
        )

    def _show(self, asked: int, text: str, found: Sequence[Group], trouble: str = "") -> None:
        if asked != self._asked:
            return
        self._shown = asked
        self.results.clear()
        for group in found:
            self._add(group.title, None)
            for one in group.found:
                self._add(one.words, one.place)
        if not found:
            self._add(trouble or self._nothing(text), None)
        self._move(1)
        self._place_results()
        if self._taking:
            self._take(self.results.currentItem())

    def _nothing(self, text: str) -> str:
        return self.tr(
            "Nothing begins with “{0}”: looked for in jobs, calls, vehicles, customers, parts, serials, batches and "
            "tools."
        ).format(text)

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
        self._taking = False
        place = item.data(PLACE_ROLE) if item is not None else None
        if place is not None:
            self.leave()
            self.chosen.emit(place)

    def _enter(self) -> None:
        """Open what is marked; where its answer has not come yet, as soon as it does."""
        if self._shown == self._asked and self.results.isVisible():
            self._take(self.results.currentItem())
            return
        self.search()
        self._taking = True

    def leave(self) -> None:
        """Put the field back as it was before anybody searched."""
        self.clear()
        self._close()

    def _close(self) -> None:
        self._pause.stop()
        self._asked += 1
        self._taking = False
        self.results.hide()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key in STEPS and self.results.isVisible():
            self._move(STEPS[key])
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._enter()
        elif key == Qt.Key.Key_Escape:
            self.leave()
        else:
            super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.FocusOut:
            self.results.hide()
        offered = event.type() == QEvent.Type.ShortcutOverride
        if offered and isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Escape:
            event.accept()  # it leaves this field, and means nothing to the page below
            return True
        return super().event(event)
