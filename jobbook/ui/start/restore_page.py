"""Restoring from the first start: the backup, what is known of the lost part, and what came of it."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QProgressBar, QStackedWidget, QWidget

from jobbook.services.sheet.sheets import Ask
from jobbook.ui import look
from jobbook.ui.controls import button, column, frame, label, row, scrolling
from jobbook.ui.forms import Form, Section
from jobbook.ui.setting import Lanes
from jobbook.ui.start.restore_presenter import RestorePresenter


class RestorePage(QStackedWidget):
    """Asks, restores, tells. `restored` carries the open book; `left` says that a new one is wanted after all."""

    restored = Signal(object)
    left = Signal()
    _how_far = Signal(int, int)

    def __init__(self, place: str, lanes: Lanes, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = RestorePresenter(place, lanes, self, self.restored.emit)
        self._place = place
        self.form = Form(self._asks())
        self.said = label("", "error", wrap=True)
        self.bar = QProgressBar()
        self.bar.setAccessibleName(self.tr("Restoring"))
        self.bar.setTextVisible(False)
        self.bar.hide()
        self.restore = button(self.tr("Restore"), "main")
        self.back = button(self.tr("Begin a new book instead"), "quiet")
        self.told = label("", "", wrap=True)
        self.begin = button(self.tr("Open the book"), "main")
        self.addWidget(self._asking())
        self.addWidget(self._telling())
        self._connect()

    def _asks(self) -> tuple[Ask | Section, ...]:
        return (
            Ask("file", self.tr("File of the backup"), "file"),
            Section(self.tr("What is known of the time after it: so that no number is given twice")),
            Ask("last_entry", self.tr("Highest entry at the foot of a paper that left"), "number", required=False),
            Ask("left", self.tr("What is left of the old book's folder"), "folder", required=False),
        )

    def _asking(self) -> QWidget:
        words = self.tr("The backup is looked at to its last byte, then laid into {0} and audited there.")
        content = (
            label(self.tr("Restore a backup"), "title"),
            label(words.format(self._place), "soft", wrap=True),
            *(self.form, self.said, self.bar, row(self.back, 1, self.restore)),
        )
        return self._centred(*content)

    def _telling(self) -> QWidget:
        title = label(self.tr("The book stands again"), "title")
        return self._centred(title, self.told, row(1, self.begin))

    def _centred(self, *content: object) -> QWidget:
        sheet = frame("sheet")
        sheet.setFixedWidth(look.READABLE_WIDTH)
        sheet.setLayout(column(*content, margin=look.UNIT * 3, gap=look.UNIT * 2))  # type: ignore[arg-type]
        inside = QWidget()
        inside.setLayout(row(1, column(1, sheet, 2), 1, margin=look.UNIT * 2))
        return scrolling(inside)

    def _connect(self) -> None:
        self.restore.clicked.connect(self.form.hand_in)
        self.form.handed_in.connect(self.presenter.restore)
        self.form.changed.connect(lambda _: self.said.clear())
        self.back.clicked.connect(self._leave)
        self.begin.clicked.connect(self.presenter.open)
        self._how_far.connect(self._show_how_far)  # queued: it comes from the thread that restores

    def _leave(self) -> None:
        """Back to a new book; or, while it runs, stop."""
        if self.bar.isVisible():
            self.presenter.stop()
        else:
            self.left.emit()

    def arrive(self) -> None:
        self.form.focus_first()

    def show_busy(self, busy: bool) -> None:
        self.bar.setVisible(busy)
        self.bar.setRange(0, 0)
        self.restore.setEnabled(not busy)
        self.back.setText(self.tr("Cancel") if busy else self.tr("Begin a new book instead"))

    def show_how_far(self, done: int, total: int) -> None:
        self._how_far.emit(done, total)

    def _show_how_far(self, done: int, total: int) -> None:
        self.bar.setRange(0, total)
        self.bar.setValue(done)

    def refuse(self, sentence: str) -> None:
        self.said.setText(sentence)

    def show_restored(self, sentences: tuple[str, ...]) -> None:
        self.told.setText("\n\n".join(sentences))
        self.setCurrentIndex(1)
        self.begin.setFocus()
