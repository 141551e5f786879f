"""What the form for taking in says of what is known, and the arrival that its answers describe. No Qt in here."""

from collections.abc import Mapping
from dataclasses import replace

from jobbook.core.desk.calls import Call
from jobbook.core.errors import BookError
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.core.work.model import CORNERS
from jobbook.services.office.intake import Arrival, read_height
from jobbook.services.vehicle.vehicles import clean_vin
from jobbook.ui.moments import day_and_hour
from jobbook.ui.vehicles.odometer_block import reset_of

FACTS = ("vin", "plate", "make", "model", "year", "variant", "air", "vin_from")


def call_words(call: Call) -> str:
    return f"Announced by telephone, {day_and_hour(call.taken_at)}: look whether it is as was said."


def make_and_model(told: str) -> dict[str, str]:
    """What a caller said of the vehicle, in the two fields of the form: most say the make first."""
    make, _, model = " ".join(told.split()).partition(" ")
    return {"make": make, "model": model}


def vehicle_words(one: Vehicle) -> str:
    return ", ".join(filter(None, (one.title, one.plate, f"VIN …{one.vin[-6:]}" if one.vin else "", one.year)))


def customer_words(one: Customer) -> str:
    return ", ".join(filter(None, (one.name, one.phone, one.address)))


def doubt_of(corner: str, typed: str) -> str:
    try:
        read_height(corner, typed)
    except BookError as error:
        return str(error)
    return ""


def known_words(visits: int, known: Vehicle, last: int) -> str:
    if not visits:
        return f"{known.title} is in the book already; its facts were filled in."
    times = "once, in" if visits == 1 else f"{visits} times, last in"
    return f"{known.title} is in the book already. It was here {times} job {last}. Its facts were filled in."


def arrival_of(answers: Mapping[str, str], vehicle: Vehicle, customer: Customer) -> Arrival:
    """The arrival that the answers describe, for a vehicle and a customer known (or with id 0)."""
    said = {name: text.strip() for name, text in answers.items()}
    facts = {name: said[name] for name in FACTS} | {"vin": clean_vin(said["vin"])}
    came = replace(vehicle, **facts, distance_unit=said["odometer_unit"])  # type: ignore[arg-type]
    by = Customer(customer.id, said["customer"], said["address"], said["phone"], said["email"])
    return Arrival(
        vehicle=came,
        customer=by,
        odometer=said["odometer"],
        odometer_unit=said["odometer_unit"],
        odometer_note=said["odometer_note"],
        concerns=tuple(line for line in said["concerns"].splitlines() if line.strip()),
        arrival=said["arrival"],
        brought_by=said["brought_by"],
        payer=said["payer"],
        promised=said["promised"],
        condition=said["condition"],
        fuel=said["fuel"],
        load=said["load"],
        parts_back=said["parts_back"],
        heights={corner: said[f"heights {corner}"] for corner in CORNERS},
        instrument=said["instrument"],
        on_stops=tuple(filter(None, said["on_stops"].split(","))),
        owner=said["owner"],
        owner_name=said["owner_name"],
        may_authorise=said["may_authorise"],
        payer_name=said["payer_name"],
        reset=reset_of(said),
    )
