"""What is asked when a vehicle is taken in, in the order in which one walks round it."""

from collections.abc import Callable

from jobbook.core.jobs import ARRIVALS
from jobbook.core.work.model import CORNERS
from jobbook.services.sheets import Ask, Option
from jobbook.ui.forms import Section
from jobbook.ui.vehicles.columns import AIR

Asked = tuple[Ask | Section, ...]
Tr = Callable[[str], str]
UNITS = (Option("km", "km"), Option("mi", "mi"))
PAYERS = ("customer", "insurer", "supplier", "fleet")


def _options(words: dict[str, str]) -> tuple[Option, ...]:
    return tuple(Option(value, label) for value, label in words.items())


def vehicle_asks(tr: Tr) -> Asked:
    return (
        Section(tr("Vehicle")),
        Ask("vin", tr("VIN, read from the vehicle"), required=False),
        Ask("plate", tr("Plate"), "serial", required=False),
        Ask("make", tr("Make")),
        Ask("model", tr("Model")),
        Ask("year", tr("Year"), "number", required=False),
        Ask("variant", tr("Variant"), required=False),
        Ask("air", tr("Air"), "choice", _options(AIR), value="all"),
    )


def customer_asks(tr: Tr) -> Asked:
    payers = tuple(Option(payer, payer) for payer in PAYERS)
    return (
        Section(tr("Customer")),
        Ask("customer", tr("Name")),
        Ask("phone", tr("Telephone"), required=False),
        Ask("address", tr("Address"), required=False),
        Ask("email", tr("Mail"), required=False),
        Ask("brought_by", tr("Brought by, if somebody else"), required=False),
        Ask("parts_back", tr("Old parts back"), "choice", _options({"yes": "yes", "no": "no"}), required=False),
        Ask("payer", tr("Who pays"), "choice", payers, value="customer"),
    )


def arrival_asks(tr: Tr, unit: str) -> Asked:
    return (
        Section(tr("Arrival")),
        Ask("arrival", tr("It was"), "choice", _options(ARRIVALS), value="driven"),
        Ask("odometer", tr("Odometer as read"), "number"),
        Ask("odometer_unit", tr("Odometer counts"), "choice", UNITS, value=unit),
        Ask("odometer_note", tr("Note on the odometer"), required=False),
        Ask("promised", tr("Promised for, like 2026-11-27 17:00"), "time", required=False),
        Ask("concerns", tr("Concern in the customer's words, one a line"), "long text"),
    )


def standing_asks(tr: Tr) -> Asked:
    corners = tuple(Option(corner, corner) for corner in CORNERS)
    return (
        Section(tr("As it stands, before anybody wakes or levels it")),
        Ask("heights", tr("Heights, hub centre straight up to the arch edge"), "heights", unit="mm", required=False),
        Ask("on_stops", tr("Corners that stand with no air"), "pieces", corners, required=False),
        Ask("instrument", tr("Read with"), required=False),
        Ask("fuel", tr("Fuel"), required=False),
        Ask("load", tr("Load and tyres"), required=False),
        Ask("condition", tr("Condition, damage, lamps, belongings"), "long text", required=False),
    )
