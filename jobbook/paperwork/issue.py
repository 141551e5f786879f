"""Who issues a paper, about which vehicle, for whom. Every field is text as it prints; empty text prints "not recorded"."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Issue:
    """The workshop and this copy of the paper. `replaces` names the copy that this one takes the place of."""

    shop: str
    address: str
    job: str
    issued_at: str
    issued_by: str
    version: str = "1"
    replaces: str = ""
    contact: str = ""


@dataclass(frozen=True)
class Head:
    """The book as it stood when the paper left: its id, number of its last entry, head and key fingerprint (hex)."""

    book: str
    entry: int
    head: str
    key: str


@dataclass(frozen=True)
class Identity:
    """The vehicle as it was identified on site."""

    vehicle: str = ""
    variant: str = ""
    plate: str = ""
    vin: str = ""


@dataclass(frozen=True)
class Party:
    """A customer or a recipient; an erased one is written so by whoever fills the record."""

    name: str = ""
    address: str = ""
