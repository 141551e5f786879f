"""Whose the vehicles of the demonstration are: one that was sold, a fleet with its people, a customer written twice."""

from collections.abc import Mapping
from typing import Any

from jobbook.core.people import Person
from jobbook.core.vehicle.ownership import Contact
from jobbook.core.vehicle.vehicles import Customer
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.customers import customers, exactly, keep_customer
from jobbook.services.vehicle.merging import merge_customers
from jobbook.services.vehicle.ownership import sell
from jobbook.services.vehicle.vehicles import find_by_vin


def keep_owners(book: OpenBook, clerk: Person, script: Mapping[str, Any]) -> None:
    """Keep what a script says of owners beside its job: a sale, two numbers of one customer, people at a fleet."""
    vehicle = find_by_vin(book, script["vehicle"]["vin"])
    if vehicle is not None and "sold" in script:
        told = script["sold"]
        buyer = sell(book, clerk, vehicle.id, Customer(0, told["buyer"], phone=told["phone"]), told["since"])
        if "merged" in script:
            merge_customers(book, clerk, buyer, _named(book, script["merged"]["name"]), script["merged"]["reason"])
    if vehicle is not None and "person_to_speak_to" in script:
        people = tuple(Contact(0, **told) for told in script["person_to_speak_to"])
        keep_customer(book, clerk, Customer(vehicle.customer_id, **script["customer"], fleet=True), people)


def _named(book: OpenBook, name: str) -> int:
    there = exactly(customers(book, text=name), name)
    assert there is not None, f"the demonstration knows no customer {name}"
    return there.id
