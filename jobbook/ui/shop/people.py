"""The people of the shop."""

from PySide6.QtWidgets import QWidget

from jobbook.core.people import PERMISSIONS, Person
from jobbook.services.sheet.sheets import Ask, Option, options_of
from jobbook.ui.cards import CardFile
from jobbook.ui.controls import column
from jobbook.ui.forms import Section
from jobbook.ui.setting import Setting
from jobbook.ui.shop.columns import people_columns
from jobbook.ui.shop.part import CardPart
from jobbook.ui.shop.people_presenter import PeoplePresenter

YES_NO = (Option("yes", "yes"), Option("no", "no, has left"))
LEARNING = (Option("no", "no"), Option("yes", "yes"))


class PeoplePage(CardPart):
    """Everybody who works here or did, with the card of one of them."""

    presenter: PeoplePresenter

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = PeoplePresenter(setting, self)
        self.cards = CardFile(
            self.tr("People"),
            people_columns(self.tr),
            self._asks(),
            self.tr("Add a person"),
            self.tr("Here stand the people of the shop."),
        )
        self.setLayout(column(self.cards))
        self.cards.chosen.connect(self.presenter.choose)
        self.cards.begun.connect(self._begin)
        self.cards.handed_in.connect(self.presenter.keep)

    def _asks(self) -> tuple[Ask | Section, ...]:
        permissions = options_of(PERMISSIONS)
        return (
            Ask("name", self.tr("Name, as it prints on papers")),
            Ask("active", self.tr("Works here"), "choice", YES_NO, value="yes"),
            Ask("learning", self.tr("Is learning: another person countersigns"), "choice", LEARNING, value="no"),
            Ask("permissions", self.tr("May"), "pieces", permissions, required=False),
            Section(self.tr("Signing: leave empty what stays as it is")),
            Ask("pin", self.tr("New PIN, at least four digits"), "secret", required=False),
            Ask("badge", self.tr("New badge: scan it here"), "secret", required=False),
        )

    def _begin(self) -> None:
        self.presenter.begin()
        self.cards.begin_card(self.tr("A new person"))

    def show_people(self, people: tuple[Person, ...]) -> None:
        self.cards.show_rows(people)

    def show_person(self, person: Person) -> None:
        answers = {
            "name": person.name,
            "active": "yes" if person.active else "no",
            "learning": "yes" if person.learning else "no",
            "permissions": ",".join(sorted(person.permissions)),
        }
        self.cards.show_card(person.name, answers)

    def show_kept(self, person: Person) -> None:
        self.cards.choose(person)
        self.show_person(person)
        self.cards.show_kept(self.tr("{0} is kept.").format(person.name))
