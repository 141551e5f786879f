"""The shelf: small pictures of files, several of which can be chosen. They are brought one at a time, so that the
window answers between two of them."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QSize, Qt, QTimer, Signal
from PySide6.QtGui import QIcon, QKeyEvent, QMouseEvent, QPixmap
from PySide6.QtWidgets import QListView, QListWidget, QListWidgetItem, QWidget

from jobbook.core.record.files import KeptFile
from jobbook.services.files import Shown
from jobbook.ui import look
from jobbook.ui.jobs.pictures.shelf_paint import Chosen, blank, centred
from jobbook.ui.jobs.pictures.words import tip_of, word_of, words_of

ENTRY = Qt.ItemDataRole.UserRole
ARROWS = (Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Down)


class Shelf(QListWidget):
    """Files as small pictures. A click or Space chooses one more, Shift with a click or an arrow key all on the way,
    Enter looks at it, `chosen` lists them."""

    wanted = Signal(object)  # KeptFile
    choice_changed = Signal()

    def __init__(self, small: Callable[[KeptFile], bytes], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look.as_role(self, "shelf")
        self._small = small
        self._files: dict[int, KeptFile] = {}
        self._icons: dict[str, QIcon] = {}  # by digest, and by the word of a blank
        self._missing: list[QListWidgetItem] = []
        self.setAccessibleName(self.tr("Pictures and files"))
        self.setViewMode(QListView.ViewMode.IconMode)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setMovement(QListView.Movement.Static)
        self.setSelectionMode(QListView.SelectionMode.MultiSelection)
        self.setIconSize(QSize(*look.SMALL_PICTURE))
        self.setGridSize(QSize(*look.SHELF_PLACE))
        self.setWordWrap(True)
        self.setUniformItemSizes(True)
        self.setItemDelegate(Chosen(self))
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        self._bring = QTimer(self)
        self._bring.setSingleShot(True)
        self._bring.timeout.connect(self._bring_one)
        self.itemSelectionChanged.connect(self.choice_changed)
        self.itemDoubleClicked.connect(lambda item: self.wanted.emit(self._files[item.data(ENTRY)]))

    def show_files(self, shown: Sequence[Shown]) -> None:
        """Show these; what was chosen among them stays chosen."""
        chosen, at = set(self.chosen()), self.currentRow()
        self._files = {one.file.entry: one.file for one in shown}
        self._missing = []
        self.clear()
        for one in shown:
            item = QListWidgetItem(words_of(one))
            item.setData(ENTRY, one.file.entry)
            item.setToolTip(tip_of(one))
            item.setTextAlignment(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop)
            self.addItem(item)
            item.setSelected(one.file.entry in chosen)
            known = None if one.file.is_erased else self._icons.get(one.file.digest)
            item.setIcon(known or self._blank(word_of(one.file)))
            self._missing += [] if known or not one.file.is_picture or one.file.is_erased else [item]
        if self.count():
            self.setCurrentRow(min(max(at, 0), self.count() - 1), self.selectionModel().SelectionFlag.NoUpdate)
        self._missing.reverse()
        self._go_on()

    def chosen(self) -> tuple[int, ...]:
        """The entries of the chosen files, in the order of the shelf."""
        return tuple(self.item(row).data(ENTRY) for row in range(self.count()) if self.item(row).isSelected())

    def file_at_hand(self) -> KeptFile | None:
        item = self.currentItem()
        return self._files[item.data(ENTRY)] if item is not None else None

    def _blank(self, word: str) -> QIcon:
        """A sheet with that word; one is painted for all files that show it."""
        if word not in self._icons:
            self._icons[word] = QIcon(blank(look.SMALL_PICTURE, word))
        return self._icons[word]

    def is_complete(self) -> bool:
        """Whether every small picture was brought."""
        return not self._missing

    def _go_on(self) -> None:
        if self._missing and self.isVisible():
            self._bring.start(0)

    def _bring_one(self) -> None:
        item = self._missing.pop()
        file = self._files[item.data(ENTRY)]
        picture = QPixmap()
        if picture.loadFromData(self._small(file)):
            self._icons[file.digest] = QIcon(centred(picture, look.SMALL_PICTURE))
            item.setIcon(self._icons[file.digest])
        self._go_on()

    def showEvent(self, event: object) -> None:
        super().showEvent(event)  # type: ignore[arg-type]
        self._go_on()

    def hideEvent(self, event: object) -> None:
        self._bring.stop()
        super().hideEvent(event)  # type: ignore[arg-type]

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter looks at the file; letters are for the sheet and its keys, and do not search."""
        at = self.file_at_hand()
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and at is not None:
            self.wanted.emit(at)
        elif event.text().isalpha() and not event.modifiers():
            event.ignore()
        elif event.key() in ARROWS and event.modifiers() == Qt.KeyboardModifier.ShiftModifier:
            self._choose_on_the_way(event)
        else:
            super().keyPressEvent(event)

    def _choose_on_the_way(self, event: QKeyEvent) -> None:
        """Walk with everything chosen that is passed, also where a line of the shelf is passed at once."""
        begun = self.currentRow()
        super().keyPressEvent(QKeyEvent(event.type(), event.key(), Qt.KeyboardModifier.NoModifier))
        self._choose_between(begun, self.currentRow())

    def _choose_between(self, one: int, other: int) -> None:
        for row in range(min(one, other), max(one, other) + 1):
            self.item(row).setSelected(True)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at, begun = self.itemAt(event.position().toPoint()), self.currentRow()
        if at is not None and event.modifiers() == Qt.KeyboardModifier.ShiftModifier:
            self.setCurrentItem(at, self.selectionModel().SelectionFlag.NoUpdate)
            self._choose_between(begun, self.row(at))
        else:
            super().mousePressEvent(event)

    def picture_beside(self, step: int) -> KeptFile | None:
        """Go to the next picture on the shelf, or for -1 to the one before; None where there is none."""
        row = self.currentRow() + step
        while 0 <= row < self.count():
            file = self._files[self.item(row).data(ENTRY)]
            if file.is_picture and not file.is_erased:
                self.setCurrentRow(row, self.selectionModel().SelectionFlag.NoUpdate)
                return file
            row += step
        return None
