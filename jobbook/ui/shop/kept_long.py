"""Kept long: customers' data that has been kept longer than the country profile says, each to be decided about."""

from PySide6.QtWidgets import QWidget

from jobbook.core.desk.retention import KeptLong
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.ui import look
from jobbook.ui.controls import Said, button, column, frame, label, row, scrolling
from jobbook.ui.forms import Form
from jobbook.ui.lists import Empty
from jobbook.ui.moments import day, understood
from jobbook.ui.places import KEPT_LONG
from jobbook.ui.setting import Setting
from jobbook.ui.shop.kept_long_presenter import ERASE, KEEP_ON, KeptLongPresenter
from jobbook.ui.shop.part import Part
from jobbook.ui.tables import Column, RecordModel, RecordTable, all_of


class KeptLongPage(Part):
    """The list on the left; on the right the customer in sight, and what is decided."""

    key = KEPT_LONG

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = KeptLongPresenter(setting, self)
        self._rows: tuple[KeptLong, ...] = ()
        self._ahead = understood(setting.book.clock)
        self._shown: KeptLong | None = None
        self.rule = label("", "soft", wrap=True)
        model = RecordModel(self._columns(), lambda *_: all_of(self._rows), self)
        self.table = RecordTable(self.tr("Kept long"), model)
        self.empty = Empty()
        self.name = label("", "title", wrap=True)
        self.facts = label("", "", wrap=True)
        self.form = Form(self._asks())
        self.said = Said("error")
        self.keep = button(self.tr("Keep what is decided"), "main", "Ctrl+Return")
        self._lay_out()
        self._connect()

    def _columns(self) -> tuple[Column, ...]:
        return (
            Column(self.tr("Customer"), lambda one: one.name, strong=True),
            Column(self.tr("Last seen"), lambda one: day(one.last), width=14),
            Column(self.tr("Jobs"), lambda one: self.tr("call") if one.call else str(one.jobs), width=6, right=True),
        )

    def _asks(self) -> tuple[Ask, ...]:
        outcomes = (
            Option(ERASE, self.tr("forget them: erase what is sealed")),
            Option(KEEP_ON, self.tr("keep it on, with the reason")),
        )
        return (
            Ask("outcome", self.tr("Decided"), "list", outcomes),
            Ask("until", self.tr("Look at it again on (day)"), "time", required=False, hint=self._ahead),
            Ask("reason", self.tr("Why"), "long text", required=False),
        )

    def _lay_out(self) -> None:
        left, inside = frame("sheet"), QWidget()
        told = column(self.rule, margin=look.UNIT)
        left.setLayout(column(told, self.table, self.empty, margin=(look.UNIT, 1, look.UNIT, 1), gap=0))
        caution = label(
            self.tr(
                "What is erased cannot be brought back. Look first whether a claim, a dispute, a recall or a warranty "
                "still runs, and what the law of your place wants kept. Torques, parts and the vehicle stay."
            ),
            "caution",
            wrap=True,
        )
        shown = (self.name, self.facts, caution, self.form, self.said, row(1, self.keep), 1)
        inside.setLayout(column(*shown, margin=look.UNIT * 2))
        self.card = frame("sheet")
        self.card.setLayout(column(scrolling(inside), margin=1))
        self.card.setFixedWidth(look.LEFT_PAGE_WIDTH)
        self.setLayout(row(left, self.card, gap=look.UNIT * 2))

    def _connect(self) -> None:
        self.table.selectionModel().currentRowChanged.connect(lambda *_: self._choose())
        self.table.opened.connect(lambda _: self.form.focus_first())
        self.keep.clicked.connect(self.form.hand_in)
        self.form.handed_in.connect(self._decide)
        self.form.changed.connect(lambda _: self._asked())

    def _choose(self) -> None:
        one = self.table.chosen()
        if one is None or one == self._shown:
            return
        self._shown = one
        self.name.setText(one.name)
        self.facts.setText(self._facts(one))
        self.form.clear()
        self._asked()

    def _facts(self, one: KeptLong) -> str:
        jobs = self.tr("1 job") if one.jobs == 1 else self.tr("{0} jobs").format(one.jobs)
        if one.call:
            jobs = self.tr("a call that came to nothing")
        told = [self.tr("Last seen {0}, {1}.").format(day(one.last), jobs)]
        told += [self.tr("Waits: {0}.").format(one.holds)] if one.holds else []
        told += [self.tr("Kept on before: {0}").format(one.looked_at)] if one.looked_at else []
        return "\n".join(told)

    def _asked(self) -> None:
        """A day is asked for only where it is kept on."""
        self.refuse("")
        self.form.fields["until"].setVisible(self.form.answers()["outcome"] == KEEP_ON)

    def _decide(self, answers: dict[str, str]) -> None:
        if self._shown is not None:
            self.presenter.decide(self._shown, answers)

    def open(self) -> None:
        self.refuse("")
        self.presenter.open()
        self.table.choose_first()
        self.table.setFocus()

    def refresh(self) -> None:
        self.presenter.open()

    def show_rule(self, sentence: str) -> None:
        self.rule.setText(sentence)
        self.rule.setVisible(bool(sentence))
        nothing = self.tr("Nothing has been kept longer than that. Who was not seen for so long will stand here.")
        none = self.tr(
            "The country profile of the shop names no years for which invoices are kept, so nothing is listed here. "
            "Choose a profile under Prices."
        )
        self.empty.say(nothing if sentence else none)

    def show_rows(self, rows: tuple[KeptLong, ...]) -> None:
        self._rows = rows
        self.table.reload()
        self.table.setVisible(bool(rows))
        self.card.setVisible(bool(rows))
        self.empty.setVisible(not rows)
        if rows and self.table.chosen() is None:
            self.table.choose_first()
        self._choose()

    def refuse(self, sentence: str) -> None:
        self.said.say(sentence, "error")

    def show_busy(self, busy: bool) -> None:
        self.keep.setEnabled(not busy)

    def show_done(self, sentence: str) -> None:
        self.said.say(sentence, "kept")
        self.empty.say(sentence)
        self.table.setFocus()
