"""What is known of a variant: make, model, span of build and equipment codes, in a line that opens to be changed."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from jobbook.core.vehicle.variants import Variant, span_words
from jobbook.services.sheet.sheets import Ask
from jobbook.ui import controls, look
from jobbook.ui.jobs.deed_form import DeedForm
from jobbook.ui.jobs.rows import label


class AboutVariant(QWidget):
    """The line, and its form in place. `handed_in` carries the answers."""

    handed_in = Signal(dict)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._known = Variant("")
        self._said = label("", "soft", wrap=True)
        self.change = controls.button(self.tr("About the variant…"), "line")
        self.form: DeedForm | None = None
        self._frame = controls.frame("card")
        self._frame.hide()
        line = controls.row(self._said, self.change)
        line.setStretch(0, 1)
        self.setLayout(controls.column(line, self._frame, gap=look.UNIT // 2))
        self.change.clicked.connect(self._open)

    def show_variant(self, known: Variant) -> None:
        """Show it. What is being typed is given up only for another variant, or once it is kept."""
        if known != self._known:
            self.close_form()
        self._known = known
        named = " ".join(filter(None, (known.make, known.model)))
        codes = self.tr("codes {0}").format(" ".join(known.codes)) if known.codes else ""
        told = " · ".join(filter(None, (named, span_words(known), codes, known.note)))
        nothing = self.tr(
            "Make, build and equipment codes are not told, so it is never offered for a vehicle by itself."
        )
        self._said.setText((told or nothing) if known.name else "")
        self.change.setVisible(bool(known.name))

    def _open(self) -> None:
        if self.form is not None:
            return
        known = self._known
        asks = (
            Ask("make", self.tr("Make"), value=known.make, required=False),
            Ask("model", self.tr("Model"), value=known.model, required=False),
            Ask(
                "built_from",
                self.tr("Built from, like 2019 or 2019-05"),
                "time",
                value=known.built_from,
                required=False,
            ),
            Ask("built_to", self.tr("Built to"), "time", value=known.built_to, required=False),
            Ask("codes", self.tr("Equipment codes that it has"), value=" ".join(known.codes), required=False),
            Ask("note", self.tr("Note"), value=known.note, required=False),
        )
        self.form = DeedForm(asks, self.tr("Keep"))
        self.form.handed_in.connect(self.handed_in)
        self.form.cancelled.connect(self.close_form)
        self._frame.setLayout(controls.column(self.form, margin=look.UNIT * 2))
        self._frame.show()
        self.form.form.focus_first()

    def close_form(self) -> None:
        """Give up what is being asked."""
        if self.form is None:
            return
        self.form = None
        old, self._frame = self._frame, controls.frame("card")
        self._frame.hide()
        layout = self.layout()
        assert layout is not None
        layout.replaceWidget(old, self._frame)
        old.hide()
        old.deleteLater()

    def refuse(self, sentence: str) -> None:
        if self.form is not None:
            self.form.refuse(sentence)
