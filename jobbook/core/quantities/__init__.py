"""Quantities: typed text to an exact amount with its unit, and back to text for people. Floats have no place here."""

from jobbook.core.quantities.numbers import Number
from jobbook.core.quantities.quantity import Quantity, kept
from jobbook.core.quantities.reading import HEIGHT_FROM, HEIGHT_TO, Unclear, convert, plausible_height, read_quantity
from jobbook.core.quantities.units import KINDS, UNITS

__all__ = [
    "HEIGHT_FROM",
    "HEIGHT_TO",
    "KINDS",
    "UNITS",
    "Number",
    "Quantity",
    "Unclear",
    "convert",
    "kept",
    "plausible_height",
    "read_quantity",
]
