"""The form with which a call is taken while somebody is on the telephone."""

from collections.abc import Mapping

from PySide6.QtWidgets import QWidget

from jobbook.ui import look
from jobbook.ui.controls import Facing, Said, button, column, frame, label, row, scrolling, tell_key
from jobbook.ui.forms import Form
from jobbook.ui.jobs.arriving.call_asks import caller_asks, change_asks, complaint_asks
from jobbook.ui.jobs.arriving.call_presenter import CallPresenter
from jobbook.ui.moments import understood
from jobbook.ui.places import TODAY, Place, it_is_here
from jobbook.ui.rooms import Page
from jobbook.ui.setting import Setting


class CallPage(Page):
    """Two facing pages: who calls and when it comes on the left, what is wrong on the right."""

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._setting = setting
        self.presenter = CallPresenter(setting, self, self.go.emit, self._kept)
        self.title = label("", "title")
        self.caller = Form(caller_asks(self.tr, understood(setting.book.clock)), columns=2)
        self.complaint = Form(complaint_asks(self.tr), columns=2)
        self.change = Form(change_asks(self.tr))
        self.known = Said("cry")
        self.advice = Said("caution")
        self.said = Said("error")
        self.leave = button(self.tr("Leave it"), "quiet", "Esc")
        self.here = button(self.tr("It is here: take it in"))
        tell_key(self.here, "Ctrl+N")
        self.keep = button(self.tr("Keep the call"), "main", "Ctrl+Return")
        self._number = 0
        self._begun = False
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        left, right = frame("sheet"), frame("sheet")
        left.setLayout(column(self.caller, self.known, 1, margin=look.UNIT * 2, gap=look.UNIT * 2))
        right.setLayout(column(self.complaint, self.change, 1, margin=look.UNIT * 2, gap=look.UNIT * 2))
        head = row(self.title, 1, self.leave, self.here, self.keep)
        content = (head, self.advice, self.said, scrolling(Facing(left, right, alike=True)))
        self.setLayout(column(*content, margin=look.MARGIN, gap=look.UNIT * 3 // 2))
        self.complaint.leads_to(self.change.fields["reason"], self.keep, self.here, self.leave)

    def _connect(self) -> None:
        self.caller.goes_on_in = self.complaint
        self.complaint.handed_in.connect(lambda _: self._hand_in())
        self.change.handed_in.connect(lambda _: self._hand_in())
        self.keep.clicked.connect(self._hand_in)
        self.here.clicked.connect(self.presenter.it_is_here)
        self.leave.clicked.connect(self.back)  # what was typed for a new call still stands when one comes back
        for form in (self.caller, self.complaint, self.change):
            form.changed.connect(self._typed)

    def answers(self) -> dict[str, str]:
        return self.caller.answers() | self.complaint.answers()

    def _typed(self, name: str) -> None:
        self._begun = True
        self.refuse("")
        if name in ("driven", "overnight"):
            self.presenter.typed(self.answers())
        elif name == "plate":
            self.presenter.plate_typed(self.answers()["plate"])

    def _hand_in(self) -> None:
        missing = [form for form in (self.caller, self.complaint) if not form.is_complete()]
        if missing:
            missing[0].is_complete()  # the focus belongs to the first thing that is missing
            self.refuse(self.tr("Something is still needed; it is marked."))
        else:
            self.presenter.keep(self.answers(), self.change.answers()["reason"])

    def _kept(self) -> None:
        self._begun = False
        self.go.emit(Place(TODAY))

    def arrive(self, place: Place) -> None:
        if place.number or self._number or not self._begun:
            self._number = place.number
            for form in (self.caller, self.complaint, self.change):
                form.clear()
            self.refuse("")
            self.presenter.open(place.number)
            self._begun = False
        self.refuse(self._setting.lacks("desk"))
        self.caller.focus_first()

    def new_job(self) -> Place:
        """The vehicle that this call is about, while it is expected."""
        return it_is_here(self._number) if not self.here.isHidden() else super().new_job()

    def show_new(self) -> None:
        self.title.setText(self.tr("Somebody calls"))
        self._allow(new=True, ended="")
        self.show_known("")
        self.presenter.typed(self.answers())

    def show_call(self, title: str, answers: Mapping[str, str], ended: str) -> None:
        self.title.setText(title + (f" · {ended}" if ended else ""))
        for form in (self.caller, self.complaint):
            form.show_answers({name: text for name, text in answers.items() if name in form.fields})
        self._allow(new=False, ended=ended)
        self.presenter.typed(answers)

    def _allow(self, new: bool, ended: str) -> None:
        """An ended call is read; one that is there is changed with a reason, or its vehicle is taken in."""
        self.change.setVisible(not new and not ended)
        self.complaint.goes_on_in = None if new else self.change
        self.here.setVisible(not new and not ended)
        self.keep.setVisible(not ended)

    def show_advice(self, sentences: tuple[str, ...]) -> None:
        self.advice.setText(" ".join(sentences))

    def show_known(self, sentence: str) -> None:
        self.known.setText(sentence)

    def refuse(self, sentence: str) -> None:
        self.said.setText(sentence)

    def show_busy(self, busy: bool) -> None:
        self.keep.setEnabled(not busy)
