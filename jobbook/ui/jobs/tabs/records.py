"""What a tab of the job page shows and offers. Plain records; one widget draws them all."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Protocol

from jobbook.core.drawing import Drawing
from jobbook.core.people import Person
from jobbook.core.work.model import LooseEnd
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Fact, JobSheet

Answers = Mapping[str, str]
Live = Callable[[Answers], str]


@dataclass(frozen=True)
class Offer:
    """Something known already that fits what is typed: in words, and the answers that it fills in."""

    words: str
    fills: Mapping[str, str]


Offers = Callable[[Answers], tuple[Offer, ...]]


@dataclass(frozen=True)
class Deed:
    """One thing that can be done on a tab. `key` names it to its tab, `of` says to what it is done.

    `caution` stands over what is asked. A deed without asks is done at once; one that `signs` asks for a signature too.
    `opens` shows something and keeps nothing. `end` is the loose end that it lets go or ends."""

    key: str
    label: str
    asks: tuple[Ask, ...] = ()
    of: str = ""
    keep: str = ""
    explain: str = ""
    caution: str = ""
    main: bool = False
    signs: bool = False
    opens: bool = False
    end: LooseEnd | None = None
    live: Live | None = None  # what the answers come to while they are typed
    offers: Offers | None = None  # what is known already, while it is typed


@dataclass(frozen=True)
class Line:
    """One line: a mark or none, words, what is said under them in soft ink, cells under the block's headings."""

    words: str
    beside: str = ""
    mark: str = ""
    at: str = ""
    cells: tuple[str, ...] = ()
    loud: bool = False
    deeds: tuple[Deed, ...] = ()


@dataclass(frozen=True)
class Block:
    """A part of a tab under its heading. `nothing` is said where there is no line yet; `drawing` stands under it.
    `wide`: its cells hold words and not figures alone."""

    title: str
    lines: tuple[Line, ...] = ()
    facts: tuple[Fact, ...] = ()
    headings: tuple[str, ...] = ()
    nothing: str = ""
    deeds: tuple[Deed, ...] = ()
    drawing: Drawing | None = None
    wide: bool = False


@dataclass(frozen=True)
class TabSheet:
    """A whole tab. `notice` is what holds something up."""

    blocks: tuple[Block, ...]
    notice: str = ""


@dataclass(frozen=True)
class Signing:
    """Who does a deed: the person on duty, and the one whose signature was given, where it was asked for."""

    who: Person
    signer: Person | None = None


class TabOfJob(Protocol):
    """One tab: what it shows of a job, and how it keeps what is done there. A module is one."""

    def show(self, book: OpenBook, sheet: JobSheet) -> TabSheet: ...

    def keep(self, book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
        """Keep it, and return the words for what was kept."""
