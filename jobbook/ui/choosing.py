"""Labelled fields for what is chosen: a list that opens, answers side by side, tools, ticks."""

from collections.abc import Iterable, Mapping

from PySide6.QtWidgets import QButtonGroup, QCheckBox, QGridLayout, QHBoxLayout, QLabel, QRadioButton, QWidget

from jobbook.services.sheet.questions import Ask
from jobbook.ui import look
from jobbook.ui.controls import ListBox, label
from jobbook.ui.fields import Field

SHORT_LETTERS = 40  # ticks with so few letters between them stand in a row


class ListField(Field):
    """One of many answers, in a list that opens."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent)
        self.box = ListBox()
        self.offer((option.value, option.label) for option in ask.options)
        self.box.activated.connect(lambda _: self._picked())
        self._hold(self.box, filling=True)

    def offer(self, answers: Iterable[tuple[str, str]]) -> None:
        """Offer these answers, each with its words, in place of those before; the first answer stands there again."""
        self.box.clear()
        for value, words in (*((("", ""),) if not self.ask.value else ()), *answers):
            self.box.addItem(words, value)
        self.set_text(self.ask.value)

    def text(self) -> str:
        return str(self.box.currentData() or "")

    def set_text(self, text: str) -> None:
        if text and self.box.findData(text) < 0:
            self.box.addItem(text, text)  # an answer of before that is no longer offered stays what it is
        self.box.setCurrentIndex(self.box.findData(text))


class ChoiceField(Field):
    """One of a few answers side by side, or one below the other where an answer needs a reason beside it."""

    def __init__(self, ask: Ask, parent: QWidget | None = None, upright: bool = False) -> None:
        super().__init__(ask, parent)
        self._group = QButtonGroup(self)
        self._buttons: dict[str, QRadioButton] = {}
        self._unfit: dict[str, QLabel] = {}
        grid = QGridLayout()
        grid.setHorizontalSpacing(look.UNIT)
        grid.setVerticalSpacing(0)
        for place, option in enumerate(ask.options):
            made = QRadioButton(option.label)
            self._group.addButton(made)
            self._buttons[option.value] = made
            grid.addWidget(made, place if upright else 0, 0 if upright else place)
            if upright:
                self._unfit[option.value] = label("", "error", wrap=True)
                grid.addWidget(self._unfit[option.value], place, 1)
            self._say_unfit(option.value, option.unfit)
        grid.setColumnStretch(1 if upright else len(ask.options), 1)
        self._column.addLayout(grid)
        self.set_text(ask.value)
        self._group.buttonClicked.connect(lambda _: self.changed.emit())
        self._finish(self._first())

    def _say_unfit(self, value: str, sentence: str) -> None:
        """Let an answer be taken, or say beside it why not."""
        made = self._buttons[value]
        made.setEnabled(not sentence)
        made.setAccessibleName(f"{self.ask.label}: {made.text()}" + (f". {sentence}" if sentence else ""))
        if value in self._unfit:
            self._unfit[value].setText(sentence)

    def show_unfit(self, unfit: Mapping[str, str]) -> None:
        """Say anew which answers must not be taken and why; one that was chosen and is among them is no longer."""
        chosen = self.text()
        for value in self._buttons:
            self._say_unfit(value, unfit.get(value, ""))
        self.set_text(chosen)

    def _first(self) -> QWidget:
        fit = [made for made in self._buttons.values() if made.isEnabled()]
        if fit:
            return next((made for made in fit if made.isChecked()), fit[0])
        nothing = label(self.tr("There is none that may be taken."), "error")
        self._column.addWidget(nothing)
        return nothing

    def text(self) -> str:
        return next((value for value, made in self._buttons.items() if made.isChecked()), "")

    def set_text(self, text: str) -> None:
        self._group.setExclusive(False)  # an exclusive group cannot be brought back to no answer
        for value, made in self._buttons.items():
            made.setChecked(value == text and made.isEnabled())
        self._group.setExclusive(True)


class ToolField(ChoiceField):
    """The tools of the crib; one that is unfit cannot be taken and says why."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent, upright=True)


class PiecesField(Field):
    """Which of the issued pieces: a tick for each. The answer names those that are ticked, parted by commas."""

    def __init__(self, ask: Ask, parent: QWidget | None = None) -> None:
        super().__init__(ask, parent)
        self._ticks: dict[str, QCheckBox] = {}
        line = QHBoxLayout()
        short = sum(len(option.label + option.unfit) for option in ask.options) <= SHORT_LETTERS
        for option in ask.options:
            tick = QCheckBox(option.label + (f" · {option.unfit}" if option.unfit else ""))
            tick.setEnabled(not option.unfit)
            tick.setAccessibleName(f"{ask.label}: {tick.text()}")
            tick.clicked.connect(lambda _: self.changed.emit())
            self._ticks[option.value] = tick
            (line if short else self._column).addWidget(tick)
        line.addStretch(1)
        self._column.addLayout(line)
        self.set_text(ask.value)
        none = label(self.tr("Nothing has been issued for this yet."), "soft")
        if not self._ticks:
            self._column.addWidget(none)
        self._finish(next(iter(self._ticks.values()), none))

    def text(self) -> str:
        return ",".join(value for value, tick in self._ticks.items() if tick.isChecked())

    def set_text(self, text: str) -> None:
        wanted = {part.strip() for part in text.split(",")}
        for value, tick in self._ticks.items():
            tick.setChecked(value in wanted and tick.isEnabled())
