"""What was said, found and done."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Concern:
    """One concern in the customer's words, its cause with the proof, its correction with what showed it right.

    `confidence` is proved, probable or not found; empty where nobody said.
    """

    said: str = ""
    cause: str = ""
    correction: str = ""
    confidence: str = ""
