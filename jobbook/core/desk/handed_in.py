"""What was handed over with a vehicle when it came, beside the vehicle itself."""

from dataclasses import dataclass


@dataclass(frozen=True)
class HandedIn:
    """As it was said and seen at the counter. Empty means not recorded, which is not "none"."""

    keys: str = ""  # how many, and which
    belongings: str | None = ""  # what was left in the vehicle
    loan_car: str = ""  # what was lent to the customer, with its plate
    lamps: str = ""  # warning lamps and messages
    said: str | None = ""  # anything else
    entry: int = 0
