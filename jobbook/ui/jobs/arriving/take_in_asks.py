"""What is asked when a vehicle is taken in, in the order in which one walks round it."""

from collections.abc import Callable

from jobbook.core.jobs import ARRIVALS, PAYERS
from jobbook.core.work.model import CORNERS
from jobbook.services.sheet.sheets import Ask, Option, options_of
from jobbook.ui.forms import Section
from jobbook.ui.vehicles.columns import AIR, VIN_FROM
from jobbook.ui.vehicles.odometer_block import reset_asks

Asked = tuple[Ask | Section, ...]
Tr = Callable[[str], str]
When = Callable[[str], str]  # says back the day or time that was typed
UNITS = (Option("km", "km"), Option("mi", "mi"))
OWNERS = {"customer": "the customer", "as before": "its owner as before", "other": "somebody else"}
SEEN_ON = options_of(VIN_FROM.keys())


def vehicle_asks(tr: Tr) -> Asked:
    return (
        Section(tr("Vehicle")),
        Ask("vin", tr("VIN, read from the vehicle"), required=False),
        Ask("plate", tr("Plate"), "serial", required=False),
        Ask("vin_from", tr("VIN seen, better twice, on"), "pieces", SEEN_ON, required=False),
        Ask("make", tr("Make")),
        Ask("model", tr("Model")),
        Ask("year", tr("Year"), "number", required=False),
        Ask("variant", tr("Variant"), required=False),
        Ask("air", tr("Air"), "list", options_of(AIR), value="all"),
    )


def customer_asks(tr: Tr) -> Asked:
    payers = options_of(PAYERS)
    return (
        Section(tr("Customer")),
        Ask("customer", tr("Name")),
        Ask("phone", tr("Telephone"), required=False),
        Ask("address", tr("Address"), required=False),
        Ask("parts_back", tr("Old parts back"), "choice", options_of({"yes": "yes", "no": "no"}), required=False),
        Ask("owner", tr("The vehicle belongs to"), "list", options_of(OWNERS), value="customer"),
        Ask("payer", tr("Who pays"), "list", payers, value="customer"),
        Ask("owner_name", tr("Owner, if somebody else"), required=False, folded=True),
        Ask("payer_name", tr("Payer by name, if somebody else"), required=False, folded=True),
        Ask("brought_by", tr("Brought by, if somebody else"), required=False, folded=True),
        Ask("may_authorise", tr("May allow work, if somebody else"), required=False, folded=True),
        Ask("email", tr("Mail"), required=False, folded=True),
    )


def arrival_asks(tr: Tr, unit: str, when: When, phrases: tuple[str, ...] = ()) -> Asked:
    return (
        Section(tr("Arrival")),
        Ask("arrival", tr("It was"), "choice", options_of(ARRIVALS), value="driven"),
        Ask("odometer", tr("Odometer as read, or ?"), "number"),
        Ask("odometer_unit", tr("Odometer counts"), "choice", UNITS, value=unit),
        Ask("odometer_note", tr("Note on the odometer"), required=False),
        Ask("promised", tr("Promised for, like fri 17:00"), "time", required=False, hint=when),
        *reset_asks(),
        Ask("concerns", tr("Concern in the customer's words, one a line"), "long text", phrases=phrases),
    )


def standing_asks(tr: Tr, phrases: tuple[str, ...] = ()) -> Asked:
    corners = options_of(CORNERS)
    return (
        Section(tr("As it stands, before anybody wakes or levels it")),
        Ask("heights", tr("Heights, hub centre straight up to the arch edge"), "heights", unit="mm", required=False),
        Ask("on_stops", tr("Corners that stand with no air"), "pieces", corners, required=False),
        Ask("instrument", tr("Read with"), required=False),
        Ask("fuel", tr("Fuel"), required=False),
        Ask("load", tr("Load and tyres"), required=False),
        Ask("condition", tr("Condition, damage, lamps, belongings"), "long text", required=False, phrases=phrases),
    )
