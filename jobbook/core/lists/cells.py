"""One cell of a list as the book keeps it. Each raises ValueError with what is wrong and what to write instead."""

import re

from jobbook.core.figures.vin import LENGTH, fault_of, tidy_vin
from jobbook.core.record.canonical import clean_text

LONGEST_TEXT = 200
LARGEST_NUMBER = 999_999_999
FIRST_YEAR, LAST_YEAR = 1900, 2100
MOST_MONTHS = 240
AS_A_NUMBER = re.compile(r"\d[.,]?\d*E\+?\d+", re.IGNORECASE)  # what a spreadsheet makes of a long number
AIR = {"all": "all", "front": "front", "rear": "rear"}
UNITS = {"km": "km", "mi": "mi", "mile": "mi", "miles": "mi"}
PARTS = {"part": "part", "piece": "piece", "seal": "seal"}


def text(cell: str) -> str:
    """One line of text."""
    said = " ".join(clean_text(cell).split())
    if len(said) > LONGEST_TEXT:
        raise ValueError(f"is longer than {LONGEST_TEXT} signs; shorten it")
    return said


def number(cell: str) -> str:
    """A whole number that this book gave, as text."""
    said = text(cell)
    if not (said.isascii() and said.isdigit() and 0 < int(said) <= LARGEST_NUMBER):
        raise ValueError(f"“{said}” is not a number that this book gives; leave it empty for a new one")
    return str(int(said))


def vin(cell: str) -> str:
    said = text(cell)
    if AS_A_NUMBER.fullmatch(said):
        raise ValueError(f"“{said}” is a VIN that a spreadsheet took for a number; set the column to text and type it")
    tidy = tidy_vin(said)
    if not (tidy.isascii() and tidy.isalnum()) or len(tidy) > LENGTH:
        raise ValueError(f"“{said}” is no VIN: letters and digits, {LENGTH} of them; older vehicles have fewer")
    if len(tidy) == LENGTH and (fault := fault_of(tidy)):
        raise ValueError(f"“{said}” is no VIN: {fault[:1].lower()}{fault[1:].rstrip('.')}")
    return tidy


def year(cell: str) -> str:
    said = text(cell)
    if not (said.isascii() and said.isdigit() and FIRST_YEAR <= int(said) <= LAST_YEAR):
        raise ValueError(f"“{said}” is no year; write four digits")
    return said


def months(cell: str) -> str:
    said = text(cell)
    if not (said.isascii() and said.isdigit() and int(said) <= MOST_MONTHS):
        raise ValueError(f"“{said}” is no number of months up to {MOST_MONTHS}; write digits alone")
    return str(int(said))


def air(cell: str) -> str:
    return _one_of(AIR, cell)


def unit(cell: str) -> str:
    return _one_of(UNITS, cell)


def kind_of_part(cell: str) -> str:
    return _one_of(PARTS, cell)


def _one_of(words: dict[str, str], cell: str) -> str:
    said = text(cell).casefold()
    if said not in words:
        raise ValueError(f"“{said}” is none of {', '.join(words)}")
    return words[said]
