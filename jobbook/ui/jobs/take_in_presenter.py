"""Taking in: doubts are shown beside the field as one types; the book is asked to open the job."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Protocol

from jobbook.core.calls import Call, concern_of
from jobbook.core.errors import BookError, Refused
from jobbook.core.vehicles import Customer, Vehicle
from jobbook.core.work.model import CORNERS
from jobbook.services.calls import get_call
from jobbook.services.customers import customers
from jobbook.services.intake import Arrival, read_height, take_in
from jobbook.services.odometers import read_odometer
from jobbook.services.vehicles import clean_vin, find_by_vin, odometer_question, vehicle, vin_findings
from jobbook.ui.moments import day_and_hour
from jobbook.ui.setting import Setting

ENOUGH_OF_A_NAME = 2


class TakeInView(Protocol):
    """What the form can show."""

    def hint(self, field: str, sentence: str) -> None: ...

    def hint_heights(self, sentences: Mapping[str, str]) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def fill_in(self, answers: Mapping[str, str]) -> None: ...

    def show_known(self, sentence: str) -> None: ...

    def ask_odometer_note(self, question: str) -> None: ...

    def show_busy(self, busy: bool) -> None: ...


class TakeInPresenter:
    """Knows whether vehicle and customer are in the book already, and turns the answers into an arrival."""

    def __init__(self, setting: Setting, view: TakeInView, done: Callable[[int], None]) -> None:
        self._setting, self._view, self._done = setting, view, done
        self._vehicle = Vehicle(0, "")
        self._customer = Customer(0, "")
        self._call = 0
        self._busy = False

    def open(self) -> None:
        """Begin with nobody and nothing known."""
        self._vehicle, self._customer, self._call = Vehicle(0, ""), Customer(0, ""), 0
        self._view.show_known("")

    def is_of_call(self, number: int) -> bool:
        return self._call == number

    def open_call(self, number: int) -> bool:
        """Begin with what somebody said who called about the vehicle; False where the call ended already."""
        call = get_call(self._setting.book, number)
        if call.outcome:
            return False
        self._call = number
        said = {"customer": call.caller, "phone": call.phone, "plate": call.plate, "concerns": concern_of(call)}
        self._view.fill_in({name: text or "" for name, text in said.items()} | {"payer": call.payer})
        self._view.fill_in({"arrival": "recovered" if call.driven == "no" else "driven"})
        self._view.show_known(_call_words(call))
        self.name_typed(call.caller or "")
        return True

    def vin_typed(self, typed: str) -> None:
        vin = clean_vin(typed)
        self._view.hint("vin", " ".join(vin_findings(vin)) if vin else "")
        known = find_by_vin(self._setting.book, vin) if vin else None
        if known is not None and known.id != self._vehicle.id:
            self._know(known)
        elif known is None and self._vehicle.id and vin != self._vehicle.vin:
            self._vehicle = Vehicle(0, "")
            self._view.show_known("")

    def _know(self, known: Vehicle) -> None:
        sheet = vehicle(self._setting.book, known.id)
        self._vehicle = known
        facts = ("vin", "plate", "make", "model", "year", "variant", "air")
        self._view.fill_in({name: getattr(known, name) for name in facts} | {"odometer_unit": known.distance_unit})
        if sheet.customer is not None:
            self._know_customer(sheet.customer)
        self._view.show_known(_known_words(len(sheet.jobs), known, sheet.jobs[0].number if sheet.jobs else 0))

    def name_typed(self, typed: str) -> None:
        """A name that is in the book already brings its address and telephone with it."""
        name = typed.strip().casefold()
        if len(name) < ENOUGH_OF_A_NAME:
            return
        found = customers(self._setting.book, text=typed.strip(), limit=20)
        same = next((c for c in found if (c.name or "").casefold() == name), None)
        if same is not None:
            self._know_customer(same)
        elif self._customer.id:
            self._customer = Customer(0, "")
            self._view.hint("customer", "")

    def _know_customer(self, known: Customer) -> None:
        self._customer = known
        facts = {"customer": known.name, "address": known.address, "phone": known.phone, "email": known.email}
        self._view.fill_in({name: fact or "" for name, fact in facts.items()})
        self._view.hint("customer", "A customer of the shop already; the visit is kept under that name.")

    def odometer_typed(self, typed: str, unit: str) -> None:
        self._view.hint("odometer", "")
        if not typed.strip():
            return
        try:
            value = read_odometer(typed)
        except Refused as error:
            self._view.hint("odometer", str(error))
            return
        question = odometer_question(self._setting.book, self._vehicle.id, value, unit) if self._vehicle.id else ""
        self._view.ask_odometer_note(question)

    def heights_typed(self, heights: Mapping[str, str]) -> None:
        doubts = {corner: _doubt_of(corner, typed) for corner, typed in heights.items() if typed.strip()}
        self._view.hint_heights({corner: doubt for corner, doubt in doubts.items() if doubt})

    def take_in(self, answers: Mapping[str, str]) -> None:
        if self._busy:
            return
        try:
            who = self._setting.who()
        except BookError as error:
            self._view.refuse(str(error))
            return
        self._busy = True
        self._view.show_busy(True)
        arrival, book = arrival_of(answers, self._vehicle, self._customer), self._setting.book
        arrival = replace(arrival, call=self._call)
        self._setting.lanes.keep(lambda: take_in(book, who, arrival), self._taken_in, self._refused)

    def _taken_in(self, job: int) -> None:
        self._free()
        self._done(job)

    def _refused(self, error: BookError) -> None:
        self._free()
        self._view.refuse(str(error))

    def _free(self) -> None:
        self._busy = False
        self._view.show_busy(False)


def _call_words(call: Call) -> str:
    about = f", {call.vehicle}" if call.vehicle else ""
    return f"Announced by telephone, {day_and_hour(call.taken_at)}{about}. Read the VIN from the vehicle itself."


def _doubt_of(corner: str, typed: str) -> str:
    try:
        read_height(corner, typed)
    except BookError as error:
        return str(error)
    return ""


def _known_words(visits: int, known: Vehicle, last: int) -> str:
    if not visits:
        return f"{known.title} is in the book already; its facts were filled in."
    times = "once, in" if visits == 1 else f"{visits} times, last in"
    return f"{known.title} is in the book already. It was here {times} job {last}. Its facts were filled in."


def arrival_of(answers: Mapping[str, str], vehicle: Vehicle, customer: Customer) -> Arrival:
    """The arrival that the answers describe, for a vehicle and a customer known (or with id 0)."""
    said = {name: text.strip() for name, text in answers.items()}
    facts = {name: said[name] for name in ("vin", "plate", "make", "model", "year", "variant", "air")}
    came = replace(
        vehicle,
        vin=clean_vin(facts["vin"]),
        plate=facts["plate"],
        make=facts["make"],
        model=facts["model"],
        year=facts["year"],
        variant=facts["variant"],
        air=facts["air"],
        distance_unit=said["odometer_unit"],
    )
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
    )
