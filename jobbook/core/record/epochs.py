"""Epochs of a book: each restoring begins one. What was lost by it, and which numbers it leaves out.

Entries go on being numbered without a gap, so an entry number of a lost part is given again; the head on the paper and
the epoch tell them apart. Numbers that people use (jobs, vehicles, customers, versions of a paper) are not given again.
"""

from collections.abc import Iterable
from dataclasses import dataclass

LEAST_MARGIN = 100  # numbers left out at least: our own choice, more than a small shop opens jobs in a month
VERSION_MARGIN = 10  # versions of one paper that may have left in the lost part: our own choice
GUESS = 2  # twice what was opened in as long a time before: our own choice where nothing tells what was lost


@dataclass(frozen=True)
class Restoration:
    """One restoring. `epoch` is the one that it began (the book's first is 1), `entry` its own entry; `size` and `root`
    (hex) are the head that it went on from; `last_entry` the highest entry known of the lost part, 0 where unknown."""

    entry: int
    epoch: int
    size: int
    root: str
    made_at: str
    last_entry: int = 0


@dataclass(frozen=True)
class Skipped:
    """Numbers of one kind that may have been given in the lost part, and are not given again: from `first` to
    `last`."""

    what: str
    first: int
    last: int

    @property
    def next(self) -> int:
        return self.last + 1


def margin(size: int, last_entry: int, opened_in_as_long: int) -> int:
    """How many numbers are left out.

    A number is given by an entry, so there are never more of them than lost entries; where the last is only the
    highest that is known, and where none is known, the shop's own pace is the guess."""
    return max(LEAST_MARGIN, last_entry - size, GUESS * opened_in_as_long)


def skipped(what: str, highest: int, over: int) -> Skipped:
    """The numbers of this kind to leave out; the next one begins a new hundred, so that people see the step."""
    begins = -(-(highest + over) // 100) * 100
    return Skipped(what, highest + 1, begins)


def lost_after(restorations: Iterable[Restoration], entry: int, head_is_known: bool) -> tuple[Restoration, ...]:
    """The restorings in whose lost part a paper with the head of this entry may have been issued.

    A paper's own entry comes after the entry of its head: one with a known head may be lost too, when it was issued at
    the very end of what the backup held."""
    return tuple(one for one in restorations if entry > one.size or (head_is_known and entry == one.size))
