"""Today: what is due on the left page, overdue first; on the right what is needed for the line in sight, and what came
of it."""

from datetime import datetime

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QStackedWidget, QWidget

from jobbook.core.written import month, weekday
from jobbook.ui import look
from jobbook.ui.choosing import ListField
from jobbook.ui.controls import Said, button, column, frame, label, row, scrolling, tell_key
from jobbook.ui.forms import Form
from jobbook.ui.lists import Empty
from jobbook.ui.moments import understood
from jobbook.ui.places import Place
from jobbook.ui.rooms import Page
from jobbook.ui.setting import Setting
from jobbook.ui.tables import RecordModel, RecordTable, all_of
from jobbook.ui.today.asks import ASKED, asks, belongs
from jobbook.ui.today.columns import VEHICLE, columns
from jobbook.ui.today.known import Facts, Known
from jobbook.ui.today.lines import Line
from jobbook.ui.today.presenter import TodayPresenter


class TodayPage(Page):
    """The list leads: Enter opens the place of a line, Tab goes to what came of it."""

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = TodayPresenter(setting, self, self.go.emit)
        self._rows: tuple[Line, ...] = ()
        self._line: Line | None = None
        self._year = 0
        self._known = Known()
        self._clock = setting.book.clock
        self.table = RecordTable(
            self.tr("What is due"),
            RecordModel(columns(self.tr, lambda: self._year), lambda *_: all_of(self._rows), self),
        )
        self.empty = Empty()
        self.day, self.cut = label("", "soft"), label("", "small", wrap=True)
        self.calls = button(self.tr("Somebody calls"))
        self.take_in = button(self.tr("Take in a vehicle"), "main")
        tell_key(self.calls, "Ctrl+T")
        tell_key(self.take_in, "Ctrl+N")
        self.what = label("", "strong", wrap=True)
        self.facts = QGridLayout()
        self.forms: dict[str, Form] = {}
        self.form = QStackedWidget()
        self.said = Said("error")
        self.open_place = button(self.tr("Open it"), "plain", "Ctrl+O")
        self.here = button(self.tr("It is here: take it in"))
        self.keep = button(self.tr("Keep what came of it"), "main", "Ctrl+Return")
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        head = row(label(self.tr("Today"), "title"), self.day, 1, self.calls, self.take_in, gap=look.UNIT * 2)
        left = frame("sheet")
        left.setLayout(column(self.table, self.empty, self.cut, margin=(look.UNIT, 1, look.UNIT, 1)))
        self.card = frame("sheet")
        inside = QWidget()
        self.facts.setHorizontalSpacing(look.UNIT * 2)
        self.facts.setColumnStretch(1, 1)
        inside.setLayout(
            column(
                *(self.what, self.facts, row(self.open_place, self.here, 1), self.form, self.said),
                *(row(1, self.keep), 1),
                margin=look.UNIT * 2,
                gap=look.UNIT * 3 // 2,
            )
        )
        self.card.setLayout(column(scrolling(inside), margin=1))
        facing = row(left, self.card, gap=look.UNIT * 2)
        self.setLayout(column(head, facing, margin=look.MARGIN, gap=look.UNIT * 2))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """In a narrow window the list has the most of the room, and the vehicle stands in what is due."""
        super().resizeEvent(event)
        narrow = event.size().width() < look.NARROW_PAGE
        self.card.setFixedWidth(look.NARROW_CARD_WIDTH if narrow else look.LEFT_PAGE_WIDTH)
        self.table.setColumnHidden(VEHICLE, narrow)

    def _connect(self) -> None:
        self.table.selectionModel().currentRowChanged.connect(lambda *_: self._choose())
        self.table.opened.connect(self.presenter.go_to)
        self.open_place.clicked.connect(lambda: self._with_line(self.presenter.go_to))
        self.here.clicked.connect(lambda: self._with_line(self.presenter.it_is_here))
        self.keep.clicked.connect(self._hand_in)
        self.calls.clicked.connect(self.presenter.somebody_calls)
        self.take_in.clicked.connect(self.presenter.take_in)
        self.empty.act_clicked.connect(self.presenter.take_in)

    @property
    def lines(self) -> tuple[Line, ...]:
        """What is shown, in its order."""
        return self._rows

    def show_kind(self, kind: str) -> None:
        """Go to the first line of that kind, where there is one."""
        place = next((place for place, line in enumerate(self._rows) if line.due.kind == kind), None)
        if place is not None:
            self.table.selectRow(place)

    def _with_line(self, act: object) -> None:
        if self._line is not None and callable(act):
            act(self._line)

    def _choose(self) -> None:
        line = self.table.chosen()
        if line is not None and (line != self._line or line.loose != getattr(self._line, "loose", None)):
            self.presenter.choose(line)

    def show_card(self, line: Line, facts: Facts, known: Known) -> None:
        another = line != self._line
        self._known = known
        self._line = line
        self.what.setText(line.due.what)
        self._show_facts(facts)
        self.here.setVisible(line.due.kind == "call")
        self.open_place.setVisible(not line.due.kind.startswith("clock"))
        if another:
            self._show_form(line.due.kind)

    def _show_facts(self, facts: Facts) -> None:
        while (item := self.facts.takeAt(0)) is not None:
            if (old := item.widget()) is not None:
                old.hide()
                old.deleteLater()
        for place, (name, text) in enumerate(facts):
            told = label(text, "caution" if name == "Caution" else "", wrap=True)
            told.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            top = Qt.AlignmentFlag.AlignTop
            self.facts.addWidget(label(name, "small"), place, 0, top)
            self.facts.addWidget(told, place, 1)

    def _form_of(self, kind: str) -> Form:
        """The form of a kind of line; it is made when such a line is first looked at."""
        if kind not in self.forms:
            ahead, past = understood(self._clock), understood(self._clock, ahead=False)
            form = self.forms[kind] = Form(asks(kind, self.tr, ahead, past))
            form.handed_in.connect(self._keep)
            form.changed.connect(lambda _: self._changed(form))
            self.form.addWidget(form)
        return self.forms[kind]

    def _show_form(self, kind: str) -> None:
        asked = kind in ASKED
        self.form.setVisible(asked)
        self.keep.setVisible(asked)
        self.refuse("")
        if asked:
            self._begin_form(self._form_of(kind))

    def _begin_form(self, shown: Form) -> None:
        shown.clear()
        shown.show_answers(self._known.answers)
        if isinstance(people := shown.fields.get("by"), ListField):
            people.offer(self._known.people)
        self._changed(shown)
        self.form.setCurrentWidget(shown)
        shown.leads_to(self.keep)
        for form in self.forms.values():  # the stack is as tall as the form in sight, not as the tallest
            tall = QSizePolicy.Policy.Preferred if form is shown else QSizePolicy.Policy.Ignored
            form.setSizePolicy(QSizePolicy.Policy.Preferred, tall)

    def _changed(self, form: Form) -> None:
        """Only what belongs to the outcome is asked."""
        self.refuse("")
        outcome = form.answers().get("outcome")
        for name, field in form.fields.items():
            field.setVisible(belongs(name, outcome, self._known.wheels))

    def _hand_in(self) -> None:
        if self._line is not None and self._line.due.kind in self.forms:
            self.forms[self._line.due.kind].hand_in()

    def _keep(self, answers: dict[str, str]) -> None:
        if self._line is not None:
            self.presenter.keep(self._line.due, answers)

    def arrive(self, place: Place) -> None:
        self.presenter.open()
        if self.table.chosen() is None:
            self.table.choose_first()
        (self.table if self._rows else self.take_in).setFocus()

    def refresh(self, kinds: set[str]) -> None:
        self.presenter.open()

    def show_lines(self, lines: tuple[Line, ...], now: datetime, cut: bool) -> None:
        self._rows, self._year = lines, now.year
        self.day.setText(f"{weekday(now)}, {now.day} {month(now)} {now.year}")
        self.table.reload()
        self.table.setVisible(bool(lines))
        self.card.setVisible(bool(lines))
        self.empty.setVisible(not lines)
        self.cut.setVisible(cut)
        self.cut.setText(self.tr("There is more than is shown: the list of jobs has all of it."))
        self.empty.say(*self._nothing())
        if lines and self.table.chosen() is None:
            self.table.choose_first()
        self._choose()

    def _nothing(self) -> tuple[str, str]:
        words = self.tr(
            "Nothing is due. Here will stand, overdue first: who is expected, the vehicles in the shop with what is "
            "loose in them, promises, what customers and payers are waited for, visits, tools and the backup."
        )
        return words, self.tr("Take in a vehicle")

    def refuse(self, sentence: str) -> None:
        self.said.say(sentence, "error")

    def show_kept(self, what: str) -> None:
        """Say which line it was kept of, since another one may stand on the card by now."""
        if self._line is not None:
            self._show_form(self._line.due.kind)
        self.said.say(self.tr("Kept: {what}").format(what=what), "kept")
        self.table.setFocus()

    def show_busy(self, busy: bool) -> None:
        self.keep.setEnabled(not busy)
