"""Vehicle identification numbers by ISO 3779 and 3780. The check digit of 49 CFR part 565 warns and never refuses."""

import re
from dataclasses import dataclass

from jobbook.core.errors import Refused

LENGTH = 17

# 49 CFR 565.15: each letter stands for a digit, each position has a weight, the sum is taken modulo 11.
VALUES = {
    **{str(digit): digit for digit in range(10)},
    **dict(zip("ABCDEFGH", range(1, 9), strict=True)),
    **dict(zip("JKLMN", range(1, 6), strict=True)),
    "P": 7,
    "R": 9,
    **dict(zip("STUVWXYZ", range(2, 10), strict=True)),
}
WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)

# 49 CFR 565.15, table VII, and the thirty years after it: A is 1980 and 2010, 1 is 2001 and 2031.
YEAR_CODES = "ABCDEFGHJKLMNPRSTVWXY123456789"

NORTH_AMERICA = "12345"


@dataclass(frozen=True)
class VinReport:
    """What can be said of a VIN from its characters alone. `findings` are sentences, none of which refuses it."""

    vin: str
    well_formed: bool
    check_digit: str
    check_passes: bool
    model_years: tuple[int, ...]
    findings: tuple[str, ...]


def look_at_vin(text: str) -> VinReport:
    """Return what can be said of a typed VIN, however it is formed."""
    vin = tidy_vin(text)
    fault = fault_of(vin)
    if fault:
        return VinReport(vin, False, "", False, (), (fault,))
    digit = check_digit(vin)
    return VinReport(vin, True, digit, digit == vin[8], model_years(vin), findings(vin))


def read_vin(text: str) -> VinReport:
    """Return the report on a VIN.

    text as it is typed. Range: vehicles of any maker; the check digit binds in North America alone, and elsewhere it
    is a finding and no fault. Errors: not 17 characters, I, O, Q, other characters, nothing but noughts. Source: ISO
    3779, ISO 3780, 49 CFR 565.15.
    """
    report = look_at_vin(text)
    if not report.well_formed:
        raise Refused(f"{report.findings[0]} Nothing was kept; read it from the vehicle again.")
    return report


def tidy_vin(text: str) -> str:
    """Return the VIN in capitals, without spaces, hyphens and the stars that some plates have at both ends."""
    return re.sub(r"[\s\-‐–]", "", text).strip("*").upper()


def fault_of(vin: str) -> str:
    """Return the sentence that says why this is no VIN, or nothing."""
    for place, character in enumerate(vin, 1):
        if character in "IOQ":
            like = "1" if character == "I" else "0"
            return f"Character {place} is the letter {character}, which no VIN holds; it may be the digit {like}."
        if character not in VALUES:
            return f"Character {place} is {character!a}, and a VIN holds only the digits and the letters A to Z."
    if len(vin) != LENGTH:
        return f"A VIN has {LENGTH} characters and this has {len(vin)}."
    return "A VIN of nothing but noughts stands on no vehicle." if set(vin) == {"0"} else ""


def check_digit(vin: str) -> str:
    """Return the check digit (0 to 9 or X) that a well-formed VIN would carry in position 9."""
    rest = sum(VALUES[character] * weight for character, weight in zip(vin, WEIGHTS, strict=True)) % 11
    return "X" if rest == 10 else str(rest)


def model_years(vin: str) -> tuple[int, ...]:
    """Return the two model years, thirty apart, that position 10 can mean; none where it holds no year code."""
    at = YEAR_CODES.find(vin[9])
    return () if at < 0 else (1980 + at, 2010 + at)


def findings(vin: str) -> tuple[str, ...]:
    """Return sentences about a well-formed VIN that are worth a second look."""
    digit = check_digit(vin)
    found = (
        _check_finding(vin, digit) if digit != vin[8] else "",
        "" if vin[13:].isdigit() else "The last four characters are digits by ISO 3779, and these are not.",
        "Its maker builds few vehicles: positions 12 to 14 belong to the maker's code." if vin[2] == "9" else "",
        "" if model_years(vin) else f"Position 10 holds {vin[9]}, which is no model year.",
        _year_finding(vin),
        "It is one character repeated, as in a test and not on a vehicle." if len(set(vin)) == 1 else "",
    )
    return tuple(sentence for sentence in found if sentence)


def _check_finding(vin: str, digit: str) -> str:
    rule = "is required for this one" if vin[0] in NORTH_AMERICA else "is required in North America alone"
    return f"The check digit would be {digit} and position 9 holds {vin[8]}; it {rule}, so compare with the vehicle."


def _year_finding(vin: str) -> str:
    # 49 CFR 565.15 gives position 7 this meaning only for cars and light trucks sold in North America.
    years = model_years(vin)
    if vin[0] not in NORTH_AMERICA or not years:
        return ""
    likely = years[1] if vin[6].isalpha() else years[0]
    return f"By position 7 the model year is {likely}, if it is a car or a light truck."
