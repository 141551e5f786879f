"""People: their permissions, and how they show that it is they."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Protocol

from jobbook.core.people import Person
from jobbook.services.house.people import add_person, all_people, change_person, set_badge, set_pin
from jobbook.ui.setting import Setting


class PeopleView(Protocol):
    """What the page can show."""

    def show_people(self, people: tuple[Person, ...]) -> None: ...

    def show_person(self, person: Person) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_kept(self, person: Person) -> None: ...


class PeoplePresenter:
    """Keeps the card of a person: name and permissions, and a PIN or a badge where one was given."""

    def __init__(self, setting: Setting, view: PeopleView) -> None:
        self._setting, self._view = setting, view
        self._person: Person | None = None

    def open(self) -> None:
        self._view.show_people(all_people(self._setting.book))

    def choose(self, person: Person) -> None:
        self._person = person
        self._view.show_person(person)

    def begin(self) -> None:
        self._person = None

    def keep(self, answers: Mapping[str, str]) -> None:
        self._setting.keep(self._work(answers), self._kept, lambda error: self._view.refuse(str(error)))

    def _work(self, answers: Mapping[str, str]) -> Callable[[Person], Person]:
        book, person = self._setting.book, self._person
        permissions = frozenset(filter(None, answers["permissions"].split(",")))
        pin, badge = answers["pin"].strip(), answers["badge"].strip()
        learning = answers["learning"] == "yes"
        if person is None:
            return lambda who: add_person(book, who, answers["name"], permissions, pin, badge, learning=learning)
        active = answers["active"] == "yes"
        changed = replace(
            person, name=answers["name"].strip(), permissions=permissions, active=active, learning=learning
        )

        def change(who: Person) -> Person:
            if changed != person:
                change_person(book, who, changed)
            if pin:
                set_pin(book, who, changed.id, pin)
            if badge:
                set_badge(book, who, changed.id, badge)
            return next(p for p in all_people(book) if p.id == changed.id)

        return change

    def _kept(self, person: Person) -> None:
        self._person = person
        self.open()
        self._view.show_kept(person)
