"""Draws any tab: its blocks of lines, and in place the form of what is being done."""

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import QCoreApplication, QEvent, Qt, Signal
from PySide6.QtWidgets import QBoxLayout, QGridLayout, QPushButton, QVBoxLayout, QWidget

from jobbook.services.sheet.sheets import Fact
from jobbook.ui import controls, look
from jobbook.ui.jobs.deed_form import DeedForm
from jobbook.ui.jobs.rows import SMALL_MARK, Following, Scrolled, clear, label, level_with_text, rich_label
from jobbook.ui.jobs.signing import Signers
from jobbook.ui.jobs.tabs.records import Block, Deed, Line, TabSheet
from jobbook.ui.language import said
from jobbook.ui.moments import beside
from jobbook.ui.paint import DrawingWidget, MarkLabel

DeedKey = tuple[str, str]  # what it is called, and to what it is done
NOTHING: DeedKey = ("", "")
CELL_WIDTH = look.UNIT * 9
WIDE_CELL = look.UNIT * 20  # for words
DRAWN_FACTOR = 1.5  # a drawing's letters are then as large as the words beside it


class TabPage(QWidget):
    """Shows a tab's sheet. `done` carries a deed and its answers; a deed that asks nothing is done at once.

    What was typed and given up, by Escape or by going to another job, stands there again when the same is asked of the
    same job; `about` is the number of it. What was kept is forgotten."""

    done = Signal(object, dict)

    def __init__(self, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._today = today
        self._signers = Signers()
        self._form: DeedForm | None = None
        self._frame: QWidget = controls.frame("card")
        self._waiting: tuple[TabSheet, Signers] | None = None
        self._buttons: dict[DeedKey, QPushButton] = {}
        self._block_of: dict[DeedKey, str] = {}
        self._goes_on = False  # something was kept: the focus goes on to what comes next
        self._asked = NOTHING  # the deed whose form is open: the focus goes back there
        self.about = 0
        self._handed_in = False
        self._given_up: dict[tuple[int, str, str], dict[str, str]] = {}
        self._notice = controls.Said("needs")
        self._refusal = controls.Said("caution")
        self._column = QVBoxLayout()
        self._column.setContentsMargins(look.UNIT * 2, look.UNIT, look.UNIT * 2, look.UNIT * 2)
        self._column.setSpacing(0)
        inside = Scrolled()
        inside.setLayout(self._column)
        inside.resized.connect(self._bring_form)
        self._area = Following(inside)
        self.setLayout(controls.column(self._notice, self._refusal, self._area, gap=0))

    def show_tab(self, sheet: TabSheet, signers: Signers) -> None:
        """Show the sheet. While something is being typed it waits until that is kept or given up."""
        if self._form is not None:
            self._waiting = (sheet, signers)
            return
        at = self._area.verticalScrollBar().value()
        self._signers = signers
        self._notice.setText(said(sheet.notice))
        focused = next((key for key, button in self._buttons.items() if button.hasFocus()), None)
        beside = self._block_of.get(focused or NOTHING, "")
        self._buttons, self._block_of = {}, {}
        clear(self._column)
        for block in sheet.blocks:
            made = self._block(block)
            self._column.addWidget(made)
            made.show()  # a layout shows it only later, and what is not shown has no place yet
        self._column.addStretch(1)
        self._column.activate()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest.value)  # where things stand is known now
        self._area.verticalScrollBar().setValue(at)
        if focused is not None:
            self._focus_again(focused, beside, sheet.blocks)
        self._goes_on = False

    def _focus_again(self, focused: DeedKey, beside: str, blocks: tuple[Block, ...]) -> None:
        """Back where the focus was; after something was kept, on the act of the same block that comes next; and where
        that button is gone, on another one of the block."""
        deeds = [deed for block in blocks if block.title == beside for deed in _deeds(block)]
        first = [(deed.key, deed.of) for deed in deeds if deed.main]
        there = [*first, focused] if self._goes_on else [focused, *first]
        found = (
            self._buttons[key]
            for key in (*there, *((deed.key, deed.of) for deed in deeds), *self._buttons)
            if key in self._buttons
        )
        button = next(found, None)
        if button is not None:
            button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _block(self, block: Block) -> QWidget:
        place = QVBoxLayout()
        place.setContentsMargins(0, look.UNIT, 0, look.UNIT)
        place.setSpacing(look.UNIT // 4)
        place.addLayout(self._heading(block))
        self._block_of |= {(deed.key, deed.of): block.title for deed in _deeds(block)}
        place.addWidget(controls.rule())
        if block.facts:
            place.addLayout(_facts(block.facts))
        if block.drawing is not None:
            place.addWidget(DrawingWidget(block.drawing, DRAWN_FACTOR))
        at_width = self._at_width(block)
        for line in block.lines:
            self._add_line(line, place, _width(block), at_width)
        if not block.lines and not block.facts and block.nothing:
            place.addWidget(label(said(block.nothing), "soft", wrap=True))
        if block.deeds:
            deeds = controls.row(*(self._button(deed, place) for deed in block.deeds), 1)
            deeds.setContentsMargins(0, look.UNIT // 2, 0, 0)
            place.addLayout(deeds)
        return controls.holding(place)

    def _heading(self, block: Block) -> QBoxLayout:
        line = controls.row(label(said(block.title), "heading"), 1)
        for words in block.headings:
            line.addWidget(_cell(said(words), "heading", _width(block)))
        return line

    def _at_width(self, block: Block) -> int:
        """The room that the times at the end of the lines need, so that what stands before them is flush."""
        shown = (label(beside(line.at, self._today()), "soft") for line in block.lines if line.at)
        return max((at.sizeHint().width() for at in shown), default=0)

    def _add_line(self, line: Line, place: QVBoxLayout, cell_width: int, at_width: int) -> None:
        row = controls.row()
        holder = controls.holding(row)
        row.setContentsMargins(0, look.UNIT // 4, 0, look.UNIT // 4)
        if line.mark:
            mark = MarkLabel(line.mark, "oxide" if line.loud else "soft", size=SMALL_MARK)
            row.addLayout(level_with_text(mark))
        words = controls.column(label(said(line.words), "loud" if line.loud else "", wrap=True), gap=0)
        if line.beside:
            words.addWidget(label(said(line.beside), "soft", wrap=True))
        row.addLayout(words, 1)
        for deed in line.deeds:
            row.addWidget(self._button(deed, place, line.words, holder), 0, Qt.AlignmentFlag.AlignTop)
        for cell in line.cells:
            row.addWidget(_cell(cell, "", cell_width), 0, Qt.AlignmentFlag.AlignTop)
        if at_width:
            at = label(beside(line.at, self._today()) if line.at else "", "soft")
            at.setMinimumWidth(at_width)
            at.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
            row.addWidget(at, 0, Qt.AlignmentFlag.AlignTop)
        place.addWidget(holder)

    def _button(self, deed: Deed, place: QVBoxLayout, of: str = "", below: QWidget | None = None) -> QPushButton:
        made = controls.button(said(deed.label), "main" if deed.main else "line" if of else "plain")
        made.setAccessibleName(f"{said(deed.label)} {of}".strip())
        self._buttons.setdefault((deed.key, deed.of), made)
        made.clicked.connect(lambda _=False: self._do(deed, place, of, below))
        return made

    def _do(self, deed: Deed, place: QVBoxLayout, of: str, below: QWidget | None) -> None:
        """Do it at once where it asks nothing; else ask in place, under its line or at the end of its block."""
        self._refusal.hide()
        if not deed.asks and not deed.signs:
            self.done.emit(deed, {})
            return
        self.close_form()
        self._asked = (deed.key, deed.of)
        signs = self._signers.asks(self.tr("Signed by"), self.tr("PIN or badge")) if deed.signs else ()
        words = deed.keep or (self.tr("Sign") if deed.signs else self.tr("Keep"))
        self._form = DeedForm((*deed.asks, *signs), words, deed.explain, caution=deed.caution)
        self._form.handed_in.connect(lambda given: self._hand_in(deed, given))
        self._form.cancelled.connect(self.close_form)
        self._form.take_up(self._given_up.get((self.about, *self._asked), {}))
        if deed.live is not None:
            self._form.say_live(deed.live)
        if deed.offers is not None:
            self._form.offer_known(deed.offers)
        frame = controls.frame("card")
        title = " · ".join(filter(None, (of, said(deed.label).rstrip("…"))))
        frame.setLayout(controls.column(label(title, "strong", wrap=True), self._form, margin=look.UNIT * 2))
        holder = controls.holding(controls.column(frame, margin=(0, look.UNIT // 2, 0, look.UNIT // 2)))
        place.insertWidget(place.indexOf(below) + 1 if below is not None else place.count(), holder)
        self._frame = holder
        holder.show()
        self._form.begin()
        self._bring_form()

    def _hand_in(self, deed: Deed, given: dict[str, str]) -> None:
        self._handed_in = True
        self.done.emit(deed, given)

    def _bring_form(self) -> None:
        if self._form is not None:
            self._column.activate()
            self._area.bring(self._frame)

    def is_asking(self) -> bool:
        return self._form is not None

    def kept(self) -> None:
        """Something was kept: close the form; where it was this one's answers, forget what was typed into it."""
        handed_in = self._handed_in
        self.close_form()
        if handed_in:
            self._goes_on = True
            self._given_up.pop((self.about, *self._asked), None)

    def close_form(self) -> None:
        """Give up what is being asked; what came in meanwhile is shown now."""
        if self._form is None:
            return
        self._given_up[(self.about, *self._asked)] = self._form.typed()
        self._form, self._handed_in = None, False
        self._frame.hide()
        self._frame.deleteLater()
        if self._asked in self._buttons and self.isVisible():
            self._buttons[self._asked].setFocus(Qt.FocusReason.OtherFocusReason)
        if self._waiting is not None:
            waiting, self._waiting = self._waiting, None
            self.show_tab(*waiting)

    def scanned(self, code: str) -> bool:
        """Take a badge as the signature that is asked for; false where none is."""
        return self._form is not None and self._form.scanned(code)

    def refuse(self, sentence: str) -> None:
        """Say why it was not kept, where it was asked."""
        self._handed_in = False
        if self._form is not None:
            self._form.refuse(sentence)
            return
        self._refusal.setText(sentence)


def _deeds(block: Block) -> tuple[Deed, ...]:
    """All that can be done in a block, what belongs to none of its lines first."""
    return (*block.deeds, *(deed for line in block.lines for deed in line.deeds))


def _width(block: Block) -> int:
    return WIDE_CELL if block.wide else CELL_WIDTH


def _cell(words: str, role: str, width: int) -> QWidget:
    made = label(words, role, wrap=width == WIDE_CELL)
    made.setFixedWidth(width)
    made.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
    return made


def _facts(facts: tuple[Fact, ...]) -> QGridLayout:
    grid = QGridLayout()
    grid.setHorizontalSpacing(look.UNIT * 2)
    grid.setVerticalSpacing(look.UNIT // 4)
    grid.setColumnStretch(1, 1)
    for row, fact in enumerate(facts):
        grid.addWidget(label(said(fact.label), "soft"), row, 0, Qt.AlignmentFlag.AlignTop)
        parts = [(fact.value, "ink", fact.strong), (f" {fact.beside}", "soft", False)]
        grid.addWidget(rich_label(parts), row, 1)
    return grid
