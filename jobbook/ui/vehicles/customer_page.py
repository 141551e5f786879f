"""One customer: data on the left page; vehicles, people, jobs and their data on the right."""

from dataclasses import replace

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from jobbook.core.errors import BookError
from jobbook.core.vehicle.vehicles import Customer
from jobbook.core.written import unless_erased
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.services.vehicle.customers import CustomerSheet, customer, keep_customer
from jobbook.ui import look
from jobbook.ui.controls import Said, button, column, frame, label, press_by, row, scrolling
from jobbook.ui.forms import Form
from jobbook.ui.places import Place
from jobbook.ui.rooms import Page
from jobbook.ui.setting import Setting
from jobbook.ui.vehicles import customer_blocks
from jobbook.ui.vehicles.blocks import BlocksView

DATA = ("name", "phone", "address", "email", "elsewhere")


class CustomerPage(Page):
    """The facing pages of one customer."""

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._setting = setting
        self._customer = Customer(0, "")
        self.title = label("", "title")
        self.beside = label("", "soft")
        self.form = Form(self._asks())
        self.said = Said("soft")
        self.keep = button(self.tr("Keep the changes"), "main")
        self.blocks = BlocksView(setting, customer_blocks)
        self._lay_out()
        press_by("Ctrl+Return", self.form, self.keep)
        self.keep.clicked.connect(self.form.hand_in)
        self.form.handed_in.connect(self._keep)
        self.form.changed.connect(lambda _: self.said.clear())
        self.blocks.go.connect(self.go)
        self.blocks.kept.connect(self._blocks_kept)

    def _asks(self) -> tuple[Ask, ...]:
        fleet = (Option("no", self.tr("one person")), Option("yes", self.tr("a fleet or a business")))
        return (
            Ask("name", self.tr("Name")),
            Ask("phone", self.tr("Telephone"), required=False),
            Ask("address", self.tr("Address"), required=False),
            Ask("email", self.tr("Mail"), required=False),
            Ask("elsewhere", self.tr("Number elsewhere"), "serial", required=False),
            Ask("fleet", self.tr("This is"), "choice", fleet, value="no"),
        )

    def _lay_out(self) -> None:
        left, right = frame("sheet"), frame("sheet")
        left.setFixedWidth(look.LEFT_PAGE_WIDTH)
        inside = QWidget()
        inside.setLayout(column(self.form, self.said, row(self.keep, 1), 1, margin=look.UNIT * 2, gap=look.UNIT))
        left.setLayout(column(scrolling(inside)))
        right.setLayout(column(self.blocks, margin=1))
        head = row(self.title, self.beside, 1, gap=look.UNIT * 2)
        self.setLayout(column(head, row(left, right, gap=look.UNIT * 2), margin=look.MARGIN, gap=look.UNIT * 2))

    def arrive(self, place: Place) -> None:
        self.said.clear()
        self._show(customer(self._setting.book, place.number))
        self.blocks.open(self._customer.id)
        self.form.fields["name"].setFocus(Qt.FocusReason.OtherFocusReason)

    def _show(self, sheet: CustomerSheet) -> None:
        self._customer = there = sheet.customer
        self.title.setText(unless_erased(there.name))
        owned = sum(1 for one in sheet.vehicles if not one.until)
        vehicles = self.tr("one vehicle") if owned == 1 else self.tr("{0} vehicles").format(owned or "no")
        jobs = self.tr("one job") if len(sheet.jobs) == 1 else self.tr("{0} jobs").format(len(sheet.jobs) or "no")
        self.beside.setText(f"{vehicles}, {jobs}")
        self.form.show_answers({name: getattr(there, name) or "" for name in DATA})
        self.form.show_answers({"fleet": "yes" if there.fleet else "no"})

    def _keep(self, answers: dict[str, str]) -> None:
        said = {name: answers[name].strip() for name in DATA}
        told = replace(self._customer, **said, fleet=answers["fleet"] == "yes")  # type: ignore[arg-type]
        book = self._setting.book
        self._setting.keep(lambda who: keep_customer(book, who, told), self._kept, self._refused)

    def _kept(self, told: Customer) -> None:
        self._show(customer(self._setting.book, told.id))
        self._say(self.tr("Kept."))

    def _blocks_kept(self, sentence: str) -> None:
        self._show(customer(self._setting.book, self._customer.id))
        self._say(sentence)

    def _say(self, sentence: str) -> None:
        self.said.say(sentence, "soft")

    def _refused(self, error: BookError) -> None:
        self.said.say(str(error), "error")

    def refresh(self, kinds: set[str]) -> None:
        """Show what happened since; what is being typed of their data stays."""
        if self._customer.id:
            self.blocks.refresh()
