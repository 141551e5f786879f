"""The odometer on the Arrival tab: the readings of the vehicle, another one, and what is put right in one."""

from jobbook.services.measured.readings import add_odometer
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.services.vehicle.odometers import distances
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Signing
from jobbook.ui.vehicles import odometer_block
from jobbook.ui.vehicles.odometer_block import UNITS, WHEN, reset_asks, reset_of

ADD, CORRECT = "odometer", odometer_block.CORRECT


def block(book: OpenBook, vehicle: int) -> Block:
    told = distances(book, vehicle)
    kinds = tuple(Option(what, words) for what, words in WHEN.items() if what != "out")
    asks = (
        Ask("value", "Odometer as read, or ?", "number"),
        Ask("unit", "Unit", "choice", UNITS, value=told.unit),
        Ask("what", "Read", "choice", kinds),
        Ask("note", "Note", required=False),
        *reset_asks(),
    )
    return odometer_block.block(told, (Deed(ADD, "Another reading…", asks),))


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    if deed.key == CORRECT:
        odometer_block.keep(book, by.who, deed, given)
        return f"The odometer, corrected to {given['value'].strip()} {given['unit']}"
    reset = reset_of(given)
    add_odometer(book, by.who, job, given["value"], given["unit"], given["what"], given["note"], reset)
    return f"Odometer {given['value'].strip()} {given['unit']}"
