"""One vehicle: its identity on the left page, its visits and odometer on the right."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QWidget

from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.core.written import unless_erased
from jobbook.services.sheet.sheets import Ask, Option, options_of
from jobbook.services.vehicle.vehicles import VehicleSheet, clean_vin
from jobbook.ui import look
from jobbook.ui.controls import Elided, Said, button, column, frame, holding, label, press_by, row, rule, scrolling
from jobbook.ui.forms import Form
from jobbook.ui.places import Place
from jobbook.ui.rooms import Page
from jobbook.ui.setting import Setting
from jobbook.ui.tables import Column, RecordModel, RecordTable, all_of
from jobbook.ui.vehicles import belongings, parts_block, years_block
from jobbook.ui.vehicles.blocks import BlocksView
from jobbook.ui.vehicles.columns import AIR, ERASED, VIN_FROM, odometer_columns, visit_columns
from jobbook.ui.vehicles.leaves import Leaves
from jobbook.ui.vehicles.presenter import VehiclePresenter

IDENTITY = ("vin", "plate", "make", "model", "year", "variant", "air", "distance_unit", "vin_from", "elsewhere")

LEFT_SHARE = 48  # percent of a narrow page, so that the words of the leaves have room
TAKES_THE_ROOM = 100  # a table with rows; else what stands below it comes up


class VehiclePage(Page):
    """The facing pages of one vehicle."""

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = VehiclePresenter(setting, self, self.go.emit)
        self._vehicle = Vehicle(0, "")
        self._sheet: VehicleSheet | None = None
        self.title = label("", "title")
        self.plate = label("", "soft")
        self.owner = Elided(role="soft")
        self.form = Form(self._asks(), columns=2)
        self.said = Said("error")
        self.keep = button(self.tr("Keep the changes"), "main")
        self.customer = label("", "", wrap=True)
        self.belongings = BlocksView(setting, belongings)
        self.parts, self.years = BlocksView(setting, parts_block), BlocksView(setting, years_block)
        self.visits = self._table(self.tr("Visits"), visit_columns(self.tr), lambda sheet: sheet.jobs)
        self.readings = self._table(
            self.tr("Odometer readings"), odometer_columns(self.tr), lambda sheet: sheet.odometers
        )
        self.nothing = {
            self.visits: self._nothing(self.tr("No visit yet. One begins when the vehicle is taken in.")),
            self.readings: self._nothing(
                self.tr(
                    "The odometer was not read yet. It is read when the vehicle is taken in, and when it goes back."
                )
            ),
        }
        self._lay_out()
        self._connect()

    def _nothing(self, words: str) -> QLabel:
        made = label(words, "soft", wrap=True)
        made.setContentsMargins(look.UNIT, look.UNIT, look.UNIT, look.UNIT)
        return made

    def _asks(self) -> Sequence[Ask]:
        air = options_of(AIR)
        units = (Option("km", "km"), Option("mi", "mi"))
        vin_from = options_of(VIN_FROM)
        return (
            Ask("vin", self.tr("VIN"), required=False),
            Ask("plate", self.tr("Plate"), "serial", required=False),
            Ask("make", self.tr("Make"), required=False),
            Ask("model", self.tr("Model"), required=False),
            Ask("year", self.tr("Year"), "number", required=False),
            Ask("distance_unit", self.tr("Odometer counts"), "choice", units, value="km"),
            Ask("variant", self.tr("Variant, which specifications are valid for"), "long text", required=False),
            Ask("vin_from", self.tr("VIN seen on"), "pieces", vin_from, required=False),
            Ask("air", self.tr("Air"), "list", air, value="all"),
            Ask("elsewhere", self.tr("Number elsewhere"), "serial", required=False),
        )

    def _table(self, name: str, columns: Sequence[Column], rows: Any) -> RecordTable:
        model = RecordModel(columns, lambda after, limit: all_of(rows(self._sheet) if self._sheet else ()), self)
        return RecordTable(name, model)

    def _lay_out(self) -> None:
        left = frame("sheet")
        self._left = left
        inside = QWidget()
        inside.setLayout(
            column(
                self.form,
                self.said,
                row(self.keep, 1),
                rule(),
                label(self.tr("Owner"), "heading"),
                self.customer,
                1,
                margin=look.UNIT * 2,
                gap=look.UNIT,
            )
        )
        left.setLayout(column(scrolling(inside)))
        history = self._history()
        right = Leaves(
            {
                self.tr("Visits"): history,
                self.tr("Parts and lines"): self.parts,
                self.tr("Years"): self.years,
                self.tr("Plates and owners"): self.belongings,
            }
        )
        head = row(self.title, self.plate, self.owner, gap=look.UNIT * 2)
        head.setStretchFactor(self.owner, 1)
        self.setLayout(column(head, row(left, right, gap=look.UNIT * 2), margin=look.MARGIN, gap=look.UNIT * 2))

    def _history(self) -> QWidget:
        content = column(
            self._heading(self.tr("Visits, the newest first")),
            self.visits,
            self.nothing[self.visits],
            self._heading(self.tr("Odometer, the newest first")),
            self.readings,
            self.nothing[self.readings],
            1,
            margin=(look.UNIT, 1, look.UNIT, 1),
            gap=0,
        )
        for table in self.nothing:
            content.setStretchFactor(table, TAKES_THE_ROOM)
        return holding(content)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._left.setFixedWidth(min(look.LEFT_PAGE_WIDTH, self.width() * LEFT_SHARE // 100))

    def _heading(self, words: str) -> QLabel:
        made = label(words, "heading")
        made.setContentsMargins(look.UNIT, look.UNIT * 2, look.UNIT, look.UNIT // 2)
        return made

    def _connect(self) -> None:
        press_by("Ctrl+Return", self.form, self.keep)
        self.keep.clicked.connect(self.form.hand_in)
        self.form.handed_in.connect(self._keep)
        self.form.changed.connect(self._typed)
        self.visits.opened.connect(self.presenter.open_job)
        for blocks in (self.belongings, self.parts, self.years):
            blocks.go.connect(self.go)
        self.belongings.kept.connect(self._belongings_kept)

    def _typed(self, name: str) -> None:
        self.said.clear()
        if name == "vin":
            self.presenter.vin_typed(self.form.answers()["vin"])
        elif name == "plate":
            self.presenter.plate_typed(self.form.answers()["plate"])

    def _keep(self, answers: dict[str, str]) -> None:
        self.presenter.keep(with_identity(self._vehicle, answers))

    def _belongings_kept(self, sentence: str) -> None:
        self.presenter.open(self._vehicle.id)
        self.said.say(sentence, "soft")

    def arrive(self, place: Place) -> None:
        self.said.clear()
        self.presenter.open(place.number)
        for blocks in (self.belongings, self.parts, self.years):
            blocks.open(self._vehicle.id)
        self.visits.choose_first()
        if self.visits.model().rowCount():
            self.visits.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.form.focus_first()

    def show_sheet(self, sheet: VehicleSheet) -> None:
        self._vehicle = sheet.vehicle
        self.title.setText(sheet.vehicle.title)
        self.plate.setText(sheet.vehicle.plate)
        self.form.show_answers({name: getattr(sheet.vehicle, name) for name in IDENTITY})
        self.show_history(sheet)

    def show_history(self, sheet: VehicleSheet) -> None:
        self._sheet = sheet
        self.customer.setText(customer_words(sheet.customer))
        self.owner.show_text(unless_erased(sheet.customer.name) if sheet.customer is not None else "")
        for table, nothing in self.nothing.items():
            table.refresh()
            there = table.model().rowCount() > 0
            table.setVisible(there)
            nothing.setVisible(not there)

    def refresh(self, kinds: set[str]) -> None:
        self.presenter.refresh()
        for blocks in (self.belongings, self.parts, self.years):
            blocks.refresh()

    def warn(self, field: str, sentence: str) -> None:
        self.form.fields[field].hint(sentence)

    def refuse(self, sentence: str) -> None:
        self.said.say(sentence, "error")

    def show_kept(self) -> None:
        self.said.say(self.tr("Kept."), "soft")


def with_identity(vehicle: Vehicle, answers: dict[str, str]) -> Vehicle:
    """The vehicle with the facts of its form."""
    return replace(
        vehicle,
        vin=clean_vin(answers["vin"]),
        plate=answers["plate"].strip(),
        make=answers["make"].strip(),
        model=answers["model"].strip(),
        year=answers["year"].strip(),
        variant=answers["variant"].strip(),
        air=answers["air"],
        distance_unit=answers["distance_unit"],
        vin_from=answers["vin_from"],
        elsewhere=answers["elsewhere"].strip(),
    )


def customer_words(customer: Customer | None) -> str:
    """A customer's name, address, telephone and mail, a line each; what was erased says so."""
    if customer is None:
        return "not recorded"
    facts = (customer.name, customer.address, customer.phone, customer.email)
    return "\n".join(ERASED if fact is None else fact for fact in facts if fact is None or fact.strip())
