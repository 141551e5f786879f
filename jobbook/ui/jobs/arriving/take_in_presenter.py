"""Taking in: doubts are shown beside the field as one types; the book is asked to open the job."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Protocol

from jobbook.core.desk.calls import concern_of
from jobbook.core.errors import Refused
from jobbook.core.vehicle.ownership import Contact
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.services.office.calls import get_call
from jobbook.services.office.intake import take_in
from jobbook.services.vehicle.cries import cries_at_arrival
from jobbook.services.vehicle.customers import alike, customer, customers, exactly
from jobbook.services.vehicle.merging import vehicles_alike
from jobbook.services.vehicle.odometers import read_or_unknown
from jobbook.services.vehicle.ownership import plate_words
from jobbook.services.vehicle.vehicles import clean_vin, find_by_vin, odometer_question, vehicle, vin_findings
from jobbook.ui.jobs.arriving.take_in_words import (
    FACTS,
    arrival_of,
    call_words,
    customer_words,
    doubt_of,
    known_words,
    make_and_model,
    vehicle_words,
)
from jobbook.ui.keeping import Keeping
from jobbook.ui.setting import Setting

ENOUGH_OF_A_NAME = 3


class TakeInView(Protocol):
    """What the form can show."""

    def hint(self, field: str, sentence: str) -> None: ...

    def hint_heights(self, sentences: Mapping[str, str]) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def fill_in(self, answers: Mapping[str, str]) -> None: ...

    def show_known(self, sentence: str) -> None: ...

    def offer(self, what: str, found: Sequence[tuple[int, str]]) -> None: ...

    def ask_odometer_note(self, question: str) -> None: ...

    def show_busy(self, busy: bool) -> None: ...


class TakeInPresenter:
    """Knows whether vehicle and customer are in the book already, and turns the answers into an arrival."""

    def __init__(self, setting: Setting, view: TakeInView, done: Callable[[int], None]) -> None:
        self._setting, self._view, self._done = setting, view, done
        self._vehicle = Vehicle(0, "")
        self._customer = Customer(0, "")
        self._call = 0
        self._keeping = Keeping(setting, view)

    def open(self) -> None:
        """Begin with nobody and nothing known."""
        self._vehicle, self._customer, self._call = Vehicle(0, ""), Customer(0, ""), 0
        self._view.show_known("")
        self._view.offer("vehicle", ())
        self._view.offer("customer", ())

    def is_of_call(self, number: int) -> bool:
        return self._call == number

    def open_call(self, number: int) -> bool:
        """Begin with what somebody said who called about the vehicle; False where the call ended already."""
        call = get_call(self._setting.book, number)
        if call.outcome:
            return False
        self._call = number
        said = {"customer": call.caller, "phone": call.phone, "plate": call.plate, "concerns": concern_of(call)}
        said |= make_and_model(call.vehicle)
        self._view.fill_in({name: text or "" for name, text in said.items()} | {"payer": call.payer})
        self._view.fill_in({"arrival": "recovered" if call.driven == "no" else "driven"})
        self._view.show_known(call_words(call))
        if call.plate:
            self.plate_typed(call.plate)
        self.name_typed(call.caller or "")
        return True

    def take(self, what: str, number: int) -> None:
        """Take the vehicle or customer that was offered."""
        if what == "vehicle":
            self._know(vehicle(self._setting.book, number).vehicle)
        else:
            self._know_customer(customer(self._setting.book, number).customer)

    def vin_typed(self, typed: str, plate: str = "") -> None:
        vin = clean_vin(typed)
        self._view.hint("vin", " ".join(vin_findings(vin)) if vin else "")
        known = find_by_vin(self._setting.book, vin) if vin else None
        if known is not None and known.id != self._vehicle.id:
            self._know(known)
        elif known is None and self._vehicle.id and vin != self._vehicle.vin:
            self._vehicle = Vehicle(0, "")
            self._view.show_known("")
        self._offer_vehicles(vin, plate)

    def plate_typed(self, typed: str) -> None:
        """A plate that another vehicle bears or bore is said so; that vehicle is offered."""
        self._view.hint("plate", plate_words(self._setting.book, typed, self._vehicle.id))
        self._offer_vehicles("", typed)

    def _offer_vehicles(self, vin: str, plate: str) -> None:
        found = () if self._vehicle.id else vehicles_alike(self._setting.book, vin, plate)
        self._view.offer("vehicle", tuple((one.id, vehicle_words(one)) for one in found))

    def _know(self, known: Vehicle) -> None:
        sheet = vehicle(self._setting.book, known.id)
        self._vehicle = known
        self._view.fill_in({name: getattr(known, name) for name in FACTS} | {"odometer_unit": known.distance_unit})
        self._view.hint("vin", " ".join(vin_findings(known.vin)) if known.vin else "")
        self._view.hint("plate", "")
        self._view.offer("vehicle", ())
        if sheet.customer is not None:
            self._know_customer(sheet.customer)
        words = known_words(len(sheet.jobs), known, sheet.jobs[0].number if sheet.jobs else 0)
        self._view.show_known("\n".join((words, *cries_at_arrival(self._setting.book, known.id))))

    def name_typed(self, typed: str, phone: str = "") -> None:
        """A name that is in the book already brings its address and telephone with it; one that looks alike is offered.

        Another name than that of the customer who was filled in takes away what was filled in with them."""
        name = typed.strip()
        same = exactly(customers(self._setting.book, text=name, limit=20), name) if name else None
        if same is not None and same.id != self._customer.id:
            self._know_customer(same)
        elif same is None and self._customer.id and name.casefold() != (self._customer.name or "").casefold():
            self._customer = Customer(0, "")
            self._view.fill_in({"phone": "", "address": "", "email": "", "may_authorise": ""})
            self._view.hint("customer", "")
            self._ask_owner()
        if not self._customer.id:
            found = alike(self._setting.book, name if len(name) >= ENOUGH_OF_A_NAME else "", phone)
            self._view.offer("customer", tuple((one.id, customer_words(one)) for one in found))

    def _ask_owner(self) -> None:
        """Whose the vehicle is must be said where it belongs to another customer than the one who is here now."""
        owner = self._vehicle.customer_id
        if not owner or owner == self._customer.id:
            self._view.fill_in({"owner": "customer"})
            self._view.hint("owner", "")
            return
        self._view.fill_in({"owner": ""})
        self._view.hint(
            "owner", "In the book it is another customer's. Sold? Then it is the customer's now. If not: as before."
        )

    def _people(self, known: Customer) -> tuple[Contact, ...]:
        return customer(self._setting.book, known.id).contacts

    def _know_customer(self, known: Customer) -> None:
        self._customer = known
        facts = {"customer": known.name, "address": known.address, "phone": known.phone, "email": known.email}
        self._view.fill_in({name: fact or "" for name, fact in facts.items()})
        self._view.hint("customer", "A customer of the shop already; the visit is kept under that name.")
        allowing = [one.name or "" for one in self._people(known) if one.may_authorise]
        self._view.fill_in({"may_authorise": allowing[0] if len(allowing) == 1 else ""})
        self._view.hint("may_authorise", f"May allow work: {', '.join(allowing)}." if allowing else "")
        self._view.offer("customer", ())
        self._ask_owner()

    def odometer_typed(self, typed: str, unit: str) -> None:
        self._view.hint("odometer", "")
        if not typed.strip():
            return
        try:
            value = read_or_unknown(typed)
        except Refused as error:
            self._view.hint("odometer", str(error))
            return
        if value is None:
            self._view.hint("odometer", "Not read: unknown. Say in the note why, for instance “display dark”.")
            return
        question = odometer_question(self._setting.book, self._vehicle.id, value, unit) if self._vehicle.id else ""
        self._view.ask_odometer_note(question)

    def heights_typed(self, heights: Mapping[str, str]) -> None:
        doubts = {corner: doubt_of(corner, typed) for corner, typed in heights.items() if typed.strip()}
        self._view.hint_heights({corner: doubt for corner, doubt in doubts.items() if doubt})

    def take_in(self, answers: Mapping[str, str]) -> None:
        arrival, book = arrival_of(answers, self._vehicle, self._customer), self._setting.book
        arrival = replace(arrival, call=self._call)
        self._keeping.keep(lambda who: take_in(book, who, arrival), self._done)
