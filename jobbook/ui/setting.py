"""What every page is given: the open book, who is on duty, and the lanes that work goes through. No Qt in here."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol, TypeVar

from jobbook.core.errors import BookError, Refused
from jobbook.core.people import PERMISSIONS, Person
from jobbook.services.opened import OpenBook

Result = TypeVar("Result")
Refusal = Callable[[BookError], None]


class Progress(Protocol):
    """How slow work says how far it is, and hears that it is no longer wanted."""

    @property
    def cancelled(self) -> bool: ...

    def report(self, done: int, total: int) -> None: ...

    def hold(self) -> None:
        """From here on it is seen through: nobody stops it any more, but for the program's own end."""


class Lanes(Protocol):
    """Where work is done that must not hold the window up. `done` and `refused` are called on the window's thread.

    One of the two is called, so that whoever waits is freed: `refused` with an expected error, when slow work was
    stopped, and after a defect of ours, which is then raised on the window's thread."""

    def keep(self, work: Callable[[], Result], done: Callable[[Result], None], refused: Refusal) -> None:
        """Short work that writes the book: one after the other, in the order given."""

    def slow(
        self, title: str, work: Callable[[Progress], Result], done: Callable[[Result], None], refused: Refusal
    ) -> None:
        """Slow work that only reads or prepares: shown in the foot with progress, and can be cancelled."""

    def find(self, work: Callable[[], Result], done: Callable[[Result], None], refused: Refusal) -> None:
        """A short reading while somebody types. One that has not begun is given up for the next; `done` may be called
        for one that is no longer wanted."""


class OnDuty(Protocol):
    """Who works at this window now; nobody while it is locked."""

    @property
    def person(self) -> Person | None: ...


@dataclass(frozen=True)
class Setting:
    """The book and its surroundings, for as long as the window is open."""

    book: OpenBook
    duty: OnDuty
    lanes: Lanes

    def who(self) -> Person:
        """The person on duty. Refused while the window is locked."""
        if self.duty.person is None:
            raise Refused("Nobody is on duty at this window; nothing was kept. Say who you are, then do it again.")
        return self.duty.person

    def lacks(self, permission: str) -> str:
        """What to say before somebody types what they may not keep; "" where they may."""
        who = self.duty.person
        if who is None or who.may(permission):
            return ""
        return (
            f"{who.name} has no permission to {PERMISSIONS[permission]}: "
            "what is typed here waits until a person who has it is at this window."
        )

    def begin(self, act: Callable[[Person], None], refused: Refusal) -> None:
        """Begin something in the name of the person on duty. Refused while the window is locked."""
        try:
            who = self.who()
        except Refused as error:
            refused(error)
            return
        act(who)

    def keep(self, use_case: Callable[[Person], Result], done: Callable[[Result], None], refused: Refusal) -> None:
        """Do a use case in the writing lane, as the person on duty."""
        self.begin(lambda who: self.lanes.keep(lambda: use_case(who), done, refused), refused)

    def slow(
        self, title: str, work: Callable[[Person, Progress], Result], done: Callable[[Result], None], refused: Refusal
    ) -> None:
        """Do slow work as the person on duty."""
        self.begin(lambda who: self.lanes.slow(title, lambda running: work(who, running), done, refused), refused)
