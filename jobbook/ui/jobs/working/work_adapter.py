"""Tightening with an adapter: the measures, the wrench drawn as measured, and what to set large beside it."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout

from jobbook.services.measured.adapters import MEASURES, worked_out
from jobbook.services.sheet.sheets import Ask, Choice
from jobbook.ui import controls, look
from jobbook.ui.choosing import ChoiceField
from jobbook.ui.forms import Form
from jobbook.ui.jobs.deed_form import DeedForm
from jobbook.ui.jobs.rows import label
from jobbook.ui.paint import DrawingWidget

MEASURED = tuple(ask.name for ask in MEASURES)
DRAWN_LARGER = 1.15


class AdapterForm(DeedForm):
    """Asks for the measures first and answers while they are typed; then for the tool, the setting and who signs."""

    def __init__(self, choice: Choice, signs: Sequence[Ask], keep: str) -> None:
        assert choice.adapter is not None
        rest = tuple(ask for ask in choice.asks if ask.name not in MEASURED)
        super().__init__((*rest, *signs), keep, columns=2)
        self._asked = choice.adapter
        self.measures = Form(tuple(ask for ask in choice.asks if ask.name in MEASURED), columns=2)
        self.measures.goes_on_in = self.form
        self.setting = label("", "result")
        self.beside = label("", "soft", wrap=True)
        self.drawing = DrawingWidget(factor=DRAWN_LARGER)
        self._lay_out_measures()
        self.measures.changed.connect(lambda _: self.work_out())
        self.work_out()

    def _lay_out_measures(self) -> None:
        explain = self.tr(
            "L: drive centre to the middle of the grip, where the hand pulls square to the handle. E: drive centre to "
            "fastener. Angle 0: the adapter goes on straight. A drag is added only where the document wants it."
        )
        line = controls.row(gap=look.UNIT * 2)
        line.addWidget(self.measures, 1)
        line.addWidget(self.drawing, 0, Qt.AlignmentFlag.AlignTop)
        answer = controls.row(gap=look.UNIT)
        answer.addWidget(self.setting)
        answer.addWidget(self.beside, 1, Qt.AlignmentFlag.AlignBottom)
        page = self.layout()
        assert isinstance(page, QVBoxLayout)
        page.insertLayout(0, controls.column(line, label(explain, "small", wrap=True), answer, gap=look.UNIT // 2))

    def work_out(self) -> None:
        """Show what the measures that stand there ask for."""
        from jobbook.ui.figures.pictures import adapter_picture  # reads figures, which no start waits for

        found = worked_out(self._asked, self.measures.answers())
        self.setting.setText(self.tr("set {torque}").format(torque=found.setting) if found.setting else "")
        self.setting.setVisible(bool(found.setting))
        measure = self.tr("What to set stands here as soon as L and E are measured.")
        self.beside.setText(found.sentence or measure)
        self.drawing.show_drawing(adapter_picture(found.measures))
        tool = self.form.fields["tool"]
        assert isinstance(tool, ChoiceField)
        tool.show_unfit(found.unfit)

    def hand_over(self, given: dict[str, str]) -> None:
        self.handed_in.emit({**self.measures.answers(), **given})

    def begin(self) -> None:
        self.measures.focus_first()
