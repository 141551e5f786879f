"""A job of the demonstration while it is played: its script, its people and the clock that the script moves on."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from jobbook.core.people import Person
from jobbook.services.opened import OpenBook

Script = Mapping[str, Any]
STEP_TIME = timedelta(minutes=3)


@dataclass
class MovedClock:
    """A clock that the script moves on."""

    now: datetime

    def __call__(self) -> datetime:
        return self.now

    def on(self, by: timedelta) -> None:
        self.now += by


@dataclass
class Played:
    """One job while it is played: how many readings and codes of the script are used up."""

    book: OpenBook
    clock: MovedClock
    job: int
    script: Script
    people: Mapping[str, Person]
    used: dict[str, int] = field(default_factory=dict)

    def person(self, role: str) -> Person:
        return self.people[self.script[role]]

    def next(self, name: str) -> Any:
        """The next entry of a list of the script, the last one again when there is none left."""
        entries: Sequence[Any] = self.script[name]
        number = self.used.get(name, 0)
        self.used[name] = number + 1
        return entries[min(number, len(entries) - 1)]
