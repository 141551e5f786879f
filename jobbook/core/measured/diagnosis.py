"""What was found on a vehicle beside or under its concern, and how much it matters."""

from dataclasses import dataclass

# From what must not drive to what is only watched. The words are ours; how a country's inspection would class the same
# thing is its own matter.
UNSAFE = "unsafe to drive"
SEVERITIES = (
    UNSAFE,
    "to be put right with this work",
    "to be put right soon",
    "to be watched",
    "unknown",
)


@dataclass(frozen=True)
class Finding:
    """One thing that was found: in words, with the number of the concern that it belongs to, 0 where to none.

    `needs_permission`: nothing is done about it before the customer or the payer has said yes. `entry` names it."""

    words: str
    severity: str
    concern: int = 0
    needs_permission: bool = True
    corner: str = ""
    by: str = ""
    at: str = ""
    entry: int = 0


def with_corner(words: str, corner: str) -> str:
    """What was found, with its corner where the words do not name it."""
    said = words.rstrip(".")
    return said if not corner or corner in said.replace(",", " ").split() else f"{said}, {corner}"
