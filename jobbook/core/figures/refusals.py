"""The one form in which a figure turns a value away: the key, what is wrong with it, what to do."""

from jobbook.core.errors import Refused


def unfit(key: str, why: str, do: str) -> Refused:
    """Return the refusal of the value under that key."""
    return Refused(f"{key} was not taken: {why}; {do}.")
