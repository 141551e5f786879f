"""One picture of the job, large: what it is, its marks, and what can be drawn beside it."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QPixmap
from PySide6.QtWidgets import QButtonGroup, QPushButton, QWidget

from jobbook.core.record.files import KeptFile, Mark
from jobbook.ui import controls, look
from jobbook.ui.jobs.pictures.marking import MarkedPicture
from jobbook.ui.jobs.rows import label
from jobbook.ui.language import said
from jobbook.ui.moments import day_and_hour

SHAPES = {"ring": ("Ring", "R"), "arrow": ("Arrow", "A"), "cover": ("Cover", "C")}


class Viewer(QWidget):
    """`marked` carries the picture's entry and all its marks; `closed` goes back to the shelf."""

    marked = Signal(int, object)  # entry, tuple[Mark, ...]
    closed = Signal()
    turned = Signal(int)  # to the next picture, or back to the one before

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._file: KeptFile | None = None
        self.picture = MarkedPicture()
        self._title = controls.Elided("", "strong")
        self._soft = label("", "soft")
        self.back = controls.button(self.tr("Back to the shelf"), "quiet")
        self.undo = controls.button(self.tr("Take the last mark away"), "quiet", "Backspace")
        self.before = controls.button(self.tr("Before"), "quiet", "PgUp")
        self.next = controls.button(self.tr("Next"), "quiet", "PgDown")
        self._shapes = QButtonGroup(self)
        tools = [self._tool(shape, said(words), key) for shape, (words, key) in SHAPES.items()]
        self._explain = label(
            self.tr("Drag on the picture, or walk with the arrow keys, with Shift in small steps, and press Space at "
                    "both ends. The original stays as it is; a plate or a face that you cover is covered in every copy "
                    "that leaves."), "small", wrap=True
        )  # fmt: skip
        head = controls.row(self._title, self._soft, self.before, self.next, self.back)
        head.setStretchFactor(self._title, 1)
        self.setLayout(
            controls.column(head, controls.row(*tools, self.undo, 1), self.picture, self._explain, gap=look.UNIT)
        )
        self.picture.drawn.connect(self._drawn)
        self.undo.clicked.connect(self._take_last)
        self.back.clicked.connect(self.closed)
        self.before.clicked.connect(lambda: self.turned.emit(-1))
        self.next.clicked.connect(lambda: self.turned.emit(1))

    def _tool(self, shape: str, words: str, key: str) -> QPushButton:
        made = controls.button(words, "tab")
        made.setCheckable(True)
        made.setChecked(shape == self.picture.shape)
        made.setToolTip(f"{words}  {key}")
        self._shapes.addButton(made)
        made.clicked.connect(lambda _=False: self._use(shape))
        made.setProperty("shape", shape)
        return made

    def _use(self, shape: str) -> None:
        self.picture.shape = shape
        for tool in self._shapes.buttons():
            tool.setChecked(tool.property("shape") == shape)
        self.picture.setFocus(Qt.FocusReason.OtherFocusReason)

    def show_picture(self, file: KeptFile, jpeg: bytes) -> None:
        picture = QPixmap()
        picture.loadFromData(jpeg)
        self._title.show_text(file.called)
        self._show(file, picture)
        self.picture.setFocus(Qt.FocusReason.OtherFocusReason)

    def show_marks(self, file: KeptFile) -> None:
        """The same picture with its marks as they are kept now."""
        if self._file is not None and file.entry == self._file.entry:
            self._show(file, self.picture.pixmap())

    def _show(self, file: KeptFile, picture: QPixmap) -> None:
        self._file = file
        taken = f"taken {day_and_hour(file.taken_at)}" if file.taken_at else "no camera time"
        self._soft.setText(f"{taken} · {file.width} × {file.height}")
        self.picture.show_picture(picture, file.called, file.marks)
        self.undo.setEnabled(bool(file.marks))

    def _drawn(self, mark: Mark) -> None:
        if self._file is not None:
            self.marked.emit(self._file.entry, (*self._file.marks, mark))

    def _take_last(self) -> None:
        if self._file is not None and self._file.marks:
            self.marked.emit(self._file.entry, self._file.marks[:-1])
        self.picture.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        shape = next((shape for shape, (_, key) in SHAPES.items() if event.text().upper() == key), "")
        if shape:
            self._use(shape)
        elif event.key() == Qt.Key.Key_Escape:
            self.closed.emit()
        else:
            super().keyPressEvent(event)
