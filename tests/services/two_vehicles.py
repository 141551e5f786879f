"""Vehicles that come into the invented workshop: one, or two of two customers."""

from dataclasses import replace

from jobbook.core.vehicle.vehicles import Customer
from jobbook.db.audit import audit
from jobbook.services.office.intake import take_in
from jobbook.services.vehicle.vehicles import find_by_vin
from tests.services.workshop import ARRIVAL, VEHICLE, VIN

OTHER = replace(VEHICLE, vin="A09VH2AT2LB310552", plate="MR-52-TEN")
WRONG_VIN = "A09VH2AT4KB204111"


def come(there, **changes):
    return take_in(there.book, there.jonas, replace(ARRIVAL, **changes))


def known(there, vin=VIN):
    return find_by_vin(there.book, vin)


def both(there):
    """Two vehicles of two customers: numbers 1 and 2."""
    come(there)
    come(there, vehicle=OTHER, customer=Customer(0, "Sunniva Brack", phone="Quillhaven 0311"))


def audit_is_clean(there):
    return audit(there.book.store).findings == ()
