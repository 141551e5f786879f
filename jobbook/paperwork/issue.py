"""Who issues a paper, about which vehicle, for whom. Fields are text as it prints; empty prints "not recorded"."""

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
    """The book as it stood when the paper left: its id, number of its last entry, head and key fingerprint.

    Head and fingerprint are lower-case hex, the fingerprint with or without spaces between its groups.
    """

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


def under_title(issue: Issue, *leading: str) -> str:
    """The line under a paper's title: for whom, when issued, by whom, which version, what it replaces."""
    issued = f"issued {issue.issued_at or 'at a time not recorded'} by {issue.issued_by or 'a person not recorded'}"
    said = [part for part in leading if part.strip()] + [issued, f"version {issue.version}"]
    return " · ".join([*said, f"replaces {issue.replaces}"] if issue.replaces.strip() else said)


def identity_facts(identity: Identity) -> list[tuple[str, str]]:
    return [
        ("Vehicle", identity.vehicle),
        ("Variant", identity.variant),
        ("Plate", identity.plate),
        ("VIN", identity.vin),
    ]
