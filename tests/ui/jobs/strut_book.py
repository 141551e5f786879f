"""A real book with the front-left strut's job in it, for tests that go through the services."""

from dataclasses import dataclass, field
from datetime import datetime, timedelta, timezone
from pathlib import Path

from jobbook.core.jobs import Permission
from jobbook.core.people import PERMISSIONS, Person, Shop
from jobbook.core.tools import Tool
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.services import work
from jobbook.services.house import people, shop
from jobbook.services.job import stores
from jobbook.services.office import desk, intake
from jobbook.services.opened import OpenBook, start_book
from jobbook.ui.setting import Setting
from tests.ui.at_once import AtOnce

VARIANT = "2019, adaptive dampers, air in front only"
METHOD = "front-air-strut-renew-one-corner"
OPTIONS = {"link_on_strut": True, "keeps_pressure": False, "battery_off": False}
PINS = {"it": "1111", "bf": "2222", "nop": "3333"}
BADGE = "NOP-00007"
FIGURES = {
    "wheel_torque": "90 N·m",
    "front_strut_lower_torque": "70 N·m, then +90°",
    "front_strut_top_torque": "30 N·m",
    "front_link_torque": "60 N·m",
    "front_sensor_link_torque": "8 N·m",
    "front_line_nut_torque": "4 N·m",
    "front_ride_height": "402 mm",
}
SOURCE = {"tolerance": "± 5 %", "document": "VH-SUS-12", "edition": "3, 2024"}
TOOLS = (
    Tool("TW-02", "click wrench", "2", "10", calibrated_on="2026-01-10", due_on="2027-01-10"),
    Tool("TW-07", "click wrench", "20", "100", calibrated_on="2026-01-10", due_on="2027-01-10"),
    Tool("TW-11", "click wrench", "40", "200", calibrated_on="2025-01-10", due_on="2026-03-01"),
    Tool("AG-01", "angle gauge", calibrated_on="2026-01-10", due_on="2027-01-10"),
)


@dataclass
class Hands:
    """A clock that a test moves."""

    moment: datetime = datetime(2026, 3, 12, 9, 0, tzinfo=timezone(timedelta(hours=1)))

    def __call__(self) -> datetime:
        return self.moment

    def later(self, **by: float) -> None:
        self.moment += timedelta(**by)


@dataclass
class Here:
    """Who is on duty."""

    person: Person | None


@dataclass
class Strut:
    """The book, its people, the job and the clock."""

    book: OpenBook
    clock: Hands
    people: dict[str, Person]
    job: int
    duty: Here = field(default_factory=lambda: Here(None))

    def setting(self, lanes: object = None) -> Setting:
        return Setting(self.book, self.duty, lanes or AtOnce())

    @property
    def bram(self) -> Person:
        return self.people["bf"]


def strut(folder: Path) -> Strut:
    """The vehicle is taken in; nothing is allowed and nothing begun."""
    clock = Hands()
    book, imke = start_book(folder, Shop("Saltmarsh Lane Suspension"), "Imke Tolland", PINS["it"], clock=clock)
    bram = people.add_person(book, imke, "Bram Ferro", frozenset(PERMISSIONS), PINS["bf"])
    nadia = people.add_person(book, imke, "Nadia Oyelaran-Pike", frozenset({"work", "check"}), PINS["nop"], BADGE)
    for tool in TOOLS:
        shop.keep_tool(book, imke, tool)
    vehicle = Vehicle(0, "A09VH2AT4KB204117", "KX-07-ALD", "Varnholt", "estate", "2019", VARIANT, "front")
    arrival = intake.Arrival(
        vehicle,
        Customer(0, "Ada Winterbourne"),
        "128 410",
        ("Front left is right down in the morning.",),
        heights={"FL": "366", "FR": "399", "RL": "394", "RR": "395"},
    )
    job = intake.take_in(book, bram, arrival)
    return Strut(book, clock, {"it": imke, "bf": bram, "nop": nadia}, job, Here(bram))


def another(there: Strut) -> int:
    """Another visit: a van with a knock in the rear."""
    van = Vehicle(0, "A09VH2AT9LB310549", "ON-44-DRY", "Ondry", "van")
    arrival = intake.Arrival(van, Customer(0, "Piers Oakhanger"), "88 000", ("It knocks in the rear.",))
    return intake.take_in(there.book, there.bram, arrival)


def allowed(there: Strut) -> Strut:
    """The customer has said yes to the repair."""
    said = Permission("repair", "Ada Winterbourne", "signed", there.book.now(), "", "Strut FL", "", "1480.00", "EUR")
    desk.give_permission(there.book, there.bram, there.job, said)
    return there


def begun(there: Strut) -> Strut:
    """The method is begun at FL, its figures are entered and its kit is issued."""
    allowed(there)
    work.begin_method(there.book, there.bram, there.job, METHOD, "FL", OPTIONS)
    for key, text in FIGURES.items():
        kind = "torque" if key.endswith("torque") else "length"
        tolerance = SOURCE["tolerance"] if kind == "torque" else ""
        shop.keep_specification(
            there.book,
            there.bram,
            variant=VARIANT,
            key=key,
            kind=kind,
            title=key,
            text=text,
            document=SOURCE["document"],
            edition=SOURCE["edition"],
            tolerance=tolerance,
        )
    for need in stores.needed(there.book, there.job):
        part = {"number": "VH-FS-2", "serial": "7H-20611"} if need.kind == "part" else {"number": "K-1"}
        stores.issue(there.book, there.bram, there.job, need.serves, need.needed, **part)
    return there
