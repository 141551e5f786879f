"""Vehicles and the customers who bring them."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Customer:
    """A customer. Name, address, telephone and mail are sealed in the book: None says "erased"."""

    id: int
    name: str | None
    address: str | None = ""
    phone: str | None = ""
    email: str | None = ""


@dataclass(frozen=True)
class Vehicle:
    """A vehicle: the VIN is its identity, the plate an attribute. `variant` is what specifications are valid for."""

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

    @property
    def title(self) -> str:
        return f"{self.make} {self.model}".strip() or "Vehicle"


@dataclass(frozen=True)
class Odometer:
    """One odometer reading, as read, with its unit. `what`: "in", "out", "test" or "stated"."""

    value: int
    unit: str
    what: str
    at: str
    entry: int = 0
    note: str = ""
