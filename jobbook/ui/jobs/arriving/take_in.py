"""The form with which a vehicle is taken in."""

from collections.abc import Mapping, Sequence

from PySide6.QtWidgets import QWidget

from jobbook.services.house.shop import shop
from jobbook.services.office.phrases import phrases, phrases_for
from jobbook.ui import look
from jobbook.ui.controls import Facing, Said, button, column, frame, label, row, scrolling
from jobbook.ui.corners import HeightsField
from jobbook.ui.fields import LineField
from jobbook.ui.forms import Form
from jobbook.ui.jobs.arriving.alike import AlikeOffer
from jobbook.ui.jobs.arriving.take_in_asks import arrival_asks, customer_asks, standing_asks, vehicle_asks
from jobbook.ui.jobs.arriving.take_in_presenter import TakeInPresenter
from jobbook.ui.moments import understood
from jobbook.ui.places import FROM_PAPER, Place, a_job
from jobbook.ui.rooms import Page
from jobbook.ui.setting import Setting


class TakeInPage(Page):
    """Two facing pages: vehicle and customer on the left, arrival and how it stands on the right."""

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._setting = setting
        self.presenter = TakeInPresenter(setting, self, self._taken_in)
        unit = shop(setting.book).distance_unit
        said, seen = (phrases_for(phrases(setting.book), field) for field in ("concern", "condition"))
        came, stands = arrival_asks(self.tr, unit, understood(setting.book.clock), said), standing_asks(self.tr, seen)
        asked = (vehicle_asks(self.tr), customer_asks(self.tr), came, stands)
        self.forms = tuple(Form(asks, columns=2) for asks in asked)
        self.vehicle, self.customer, self.arrival, self.standing = self.forms
        self.arrival.more.hide()  # a counter that begins anew is asked about where a reading raises the question
        self.known = Said("cry")
        self.alike = AlikeOffer()
        self.said = Said("caution")
        self.take_in = button(self.tr("Take in"), "main", "Ctrl+Return")
        self.leave = button(self.tr("Leave it for now"), "quiet", "Esc")
        self.empty = button(self.tr("Empty the form"), "quiet")
        self.old = button(self.tr("An old job from paper…"), "quiet")
        self._asks_why = False
        self._begun = False  # something was typed that was not taken in yet
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        left, right = frame("sheet"), frame("sheet")
        left.setLayout(
            column(self.vehicle, self.known, self.alike, self.customer, 1, margin=look.UNIT * 2, gap=look.UNIT * 2)
        )
        right.setLayout(column(self.arrival, self.standing, 1, margin=look.UNIT * 2, gap=look.UNIT))
        head = row(label(self.tr("Take in a vehicle"), "title"), 1, self.old, self.empty, self.leave, self.take_in)
        self.setLayout(column(head, self.said, scrolling(Facing(left, right)), margin=look.MARGIN, gap=look.UNIT * 2))
        self.standing.leads_to(self.take_in, self.leave, self.empty, self.old)

    def _connect(self) -> None:
        for before, after in zip(self.forms, self.forms[1:], strict=False):
            before.goes_on_in = after
        self.standing.handed_in.connect(lambda _: self._hand_in())
        self.take_in.clicked.connect(self._hand_in)
        self.empty.clicked.connect(self._begin_again)
        self.old.clicked.connect(lambda: self.go.emit(FROM_PAPER))
        self.leave.clicked.connect(self.back)
        for form in self.forms:
            form.changed.connect(self._typed)
        odometer = self.arrival.fields["odometer"]
        assert isinstance(odometer, LineField)
        odometer.edit.editingFinished.connect(self._odometer_left)
        self.alike.taken.connect(self.presenter.take)

    def _typed(self, name: str) -> None:
        said = self.answers()
        self._begun = True
        self.refuse("")
        if name == "vin":
            self.presenter.vin_typed(said["vin"], said["plate"])
        elif name == "plate":
            self.presenter.plate_typed(said["plate"])
        elif name in ("customer", "phone"):
            self.presenter.name_typed(said["customer"], said["phone"])
        elif name in ("owner", "payer") and (said["owner"] == "other" or said["payer"] != "customer"):
            self.customer.unfold(go_there=False)
        elif name in ("odometer", "odometer_unit"):
            self.presenter.odometer_typed(said["odometer"], said["odometer_unit"])
        elif name == "heights":
            self.presenter.heights_typed({key[-2:]: text for key, text in said.items() if key.startswith("heights ")})

    def _hand_in(self) -> None:
        incomplete = [form for form in self.forms if not form.is_complete()]
        if incomplete:
            incomplete[0].is_complete()  # the focus belongs to the first thing that is missing
            self.refuse(self.tr("Something is still needed; it is marked."))
        else:
            self.presenter.take_in(self.answers())

    def answers(self) -> dict[str, str]:
        given: dict[str, str] = {}
        for form in self.forms:
            given |= form.answers()
        return given

    def _form_of(self, field: str) -> Form:
        return next(form for form in self.forms if field in form.fields)

    def arrive(self, place: Place) -> None:
        """What was begun and left still stands; otherwise the form is empty, or holds what a call said of it."""
        if place.number and not self.presenter.is_of_call(place.number):
            self._begin_again()
            self._begun = self.presenter.open_call(place.number)
        elif not self._begun:
            self._begin_again()
        self.refuse(self._setting.lacks("desk"))
        self.vehicle.focus_first()

    def _begin_again(self) -> None:
        for form in self.forms:
            form.clear()
        self.refuse("")
        self._begun = False
        self.presenter.open()
        self.vehicle.focus_first()

    def _taken_in(self, job: int) -> None:
        self._begun = False
        self.go.emit(a_job(job))

    def hint(self, field: str, sentence: str) -> None:
        if sentence and field == "may_authorise":
            self.customer.unfold(go_there=False)
        self._form_of(field).fields[field].hint(sentence)

    def hint_heights(self, sentences: Mapping[str, str]) -> None:
        field = self.standing.fields["heights"]
        assert isinstance(field, HeightsField)
        field.hint_corners(sentences)

    def refuse(self, sentence: str) -> None:
        self.said.setText(sentence)

    def fill_in(self, answers: Mapping[str, str]) -> None:
        for name, text in answers.items():
            self._form_of(name).show_answers({name: text})

    def show_known(self, sentence: str) -> None:
        self.known.setText(sentence)

    def offer(self, what: str, found: Sequence[tuple[int, str]]) -> None:
        self.alike.offer(what, found)

    def ask_odometer_note(self, question: str) -> None:
        self.arrival.fields["odometer"].hint(question)
        self._asks_why = bool(question)

    def _odometer_left(self) -> None:
        """A reading that raises a question is typed to its end: ask why the counter may have begun anew."""
        if self._asks_why:
            self.arrival.unfold(go_there=False)

    def show_busy(self, busy: bool) -> None:
        self.take_in.setEnabled(not busy)
