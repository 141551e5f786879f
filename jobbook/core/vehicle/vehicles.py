"""Vehicles and the customers who bring them."""

from dataclasses import dataclass

OLDER_NUMBER = "older number"  # among where a VIN was seen: shorter than VINs have been since they are of one length


@dataclass(frozen=True)
class Customer:
    """A customer. Name, address, telephone and mail are sealed in the book: None says "erased"."""

    id: int
    name: str | None
    address: str | None = ""
    phone: str | None = ""
    email: str | None = ""
    fleet: bool = False  # a customer with several vehicles and people who are spoken to
    elsewhere: str | None = ""  # their number in another system; sealed


@dataclass(frozen=True)
class Vehicle:
    """A vehicle: the VIN is its identity, the plate an attribute. `variant` is what specifications are valid for.

    `customer_id` is the owner. `vin_from` says where the VIN was read: on the body, on a paper, by the scan tool;
    with OLDER_NUMBER among it, that the number is none of 17 characters."""

    id: int
    vin: str
    plate: str = ""
    make: str = ""
    model: str = ""
    year: str = ""
    variant: str = ""
    air: str = "all"  # where the variant has air: "all", "front", "rear"
    distance_unit: str = "km"
    customer_id: int = 0
    vin_from: str = ""
    elsewhere: str = ""  # its number in another system

    @property
    def title(self) -> str:
        return f"{self.make} {self.model}".strip() or "Vehicle"


@dataclass(frozen=True)
class Odometer:
    """One odometer reading, as read, with its unit. `what`: "in", "out", "test" or "stated".

    `reset` says why the counter begins anew with this reading (see `odometers.RESETS`), with the last figure of the old
    one and the first of the new one, as whole numbers in `old_unit` and `unit`, or empty where nobody knows."""

    value: int
    unit: str
    what: str
    at: str
    entry: int = 0
    note: str = ""
    reset: str = ""
    old_end: str = ""
    old_unit: str = ""
    new_start: str = ""


@dataclass(frozen=True)
class Unread:
    """The odometer could not be read at a visit: unknown, with the reason. It is not nought, and no reading."""

    what: str
    why: str
    at: str
    job: int = 0
    entry: int = 0
