"""The steps before and after the open one, a line each."""

from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtWidgets import QHBoxLayout, QMenu, QSizePolicy, QWidget

from jobbook.services.sheet.sheets import StepRow
from jobbook.ui import look
from jobbook.ui.jobs.rows import SMALL_MARK, RowButton, label, let_clicks_through, level_with_text, rich_label, runs
from jobbook.ui.moments import beside
from jobbook.ui.paint import MarkLabel

NUMBER_WIDTH = look.UNIT * 3


class StepLine(RowButton):
    """One step: number, mark, title, and at the right when it was done or what it needs. Pressing it opens it; its
    menu offers to correct what was done at it."""

    correct_wanted = Signal()

    def __init__(self, step: StepRow, today: date, parent: QWidget | None = None) -> None:
        super().__init__("step", parent)
        self._number = label("", "soft")
        self._number.setFixedWidth(NUMBER_WIDTH)
        self._mark = MarkLabel(step.mark, "soft", size=SMALL_MARK)
        self._title = rich_label()
        self._right = label()
        let_clicks_through(self._number, self._mark, self._title, self._right)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self._lay_out()
        self.show_step(step, today)

    def _lay_out(self) -> None:
        line = QHBoxLayout(self)
        line.setContentsMargins(0, look.UNIT // 4, look.UNIT // 4, look.UNIT // 4)
        line.setSpacing(look.UNIT)
        line.addWidget(self._number, 0, Qt.AlignmentFlag.AlignTop)
        line.addLayout(level_with_text(self._mark))
        line.addWidget(self._title, 1)
        line.addWidget(self._right, 0, Qt.AlignmentFlag.AlignTop)

    def show_step(self, step: StepRow, today: date) -> None:
        """Show this step in the line."""
        self.step = step
        self._number.setText(str(step.number))
        self._mark.show_mark(step.mark, "soft")
        note = [(" · ", "soft", False), (step.note, "soft", True)] if step.note else []
        self._title.setText(runs([(step.title, "soft", False), *note]))
        words, role = self._at_the_right(step, today)
        self._right.setText(words)
        look.as_role(self._right, role)
        self.setAccessibleName(" ".join(filter(None, (str(step.number), step.title, step.note, words))))

    def _at_the_right(self, step: StepRow, today: date) -> tuple[str, str]:
        if step.skipped:
            return self.tr("skipped"), "loose"
        if step.needs:
            return self.tr("needs {what}").format(what=step.needs), "loose"
        return beside(step.at, today), "soft"

    def menu(self) -> QMenu:
        """What else can be done with the step."""
        menu = QMenu(self)
        menu.addAction(self.tr("Open")).triggered.connect(self.click)
        if self.step.at:
            menu.addAction(self.tr("Correct…")).triggered.connect(self.correct_wanted)
        return menu

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        menu = self.menu()
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.popup(event.globalPos())

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        layout = self.layout()
        return layout.heightForWidth(width) if layout is not None else 0
