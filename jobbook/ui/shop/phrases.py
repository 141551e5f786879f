"""The phrases that can be picked while writing."""

from PySide6.QtWidgets import QWidget

from jobbook.core.desk.phrases import FIELDS, Phrase
from jobbook.services.sheet.sheets import Ask, options_of
from jobbook.ui.cards import CardFile
from jobbook.ui.controls import button, column, holding, row
from jobbook.ui.setting import Setting
from jobbook.ui.shop.part import CardPart
from jobbook.ui.shop.phrases_presenter import PhrasesPresenter
from jobbook.ui.tables import Column


class PhrasesPage(CardPart):
    """Every phrase with the field in which it is offered; those of the shop's own can be taken away."""

    presenter: PhrasesPresenter

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = PhrasesPresenter(setting, self)
        columns = (
            Column(self.tr("Offered for"), lambda one: FIELDS[one.field], width=26, role="soft"),
            Column(self.tr("Phrase"), lambda one: one.text),
            Column(self.tr("From"), lambda one: self.tr("the shop") if one.number else "", width=9, role="soft"),
        )
        fields = options_of(FIELDS)
        asks = (Ask("field", self.tr("Offered for"), "list", fields), Ask("text", self.tr("Phrase"), "long text"))
        nothing = self.tr("Here stand phrases to pick from while writing.")
        self.away = button(self.tr("Take it out of the list"))
        below = holding(row(1, self.away))
        self.cards = CardFile(self.tr("Phrases"), columns, asks, self.tr("Add a phrase"), nothing, below)
        self.setLayout(column(self.cards))
        self.cards.chosen.connect(self.presenter.choose)
        self.cards.begun.connect(self._begin)
        self.cards.handed_in.connect(self.presenter.keep)
        self.away.clicked.connect(self.presenter.take_away)

    def _begin(self) -> None:
        self.presenter.begin()
        self.away.hide()
        self.cards.begin_card(self.tr("A new phrase"))

    def show_phrases(self, there: tuple[Phrase, ...]) -> None:
        self.cards.show_rows(there)

    def show_phrase(self, one: Phrase) -> None:
        self.away.setVisible(bool(one.number))
        title = self.tr("A phrase of the shop's own") if one.number else self.tr("A phrase that comes with the program")
        self.cards.show_card(title, {"field": one.field, "text": one.text})

    def show_kept(self, sentence: str) -> None:
        self.cards.begin_card(self.tr("A new phrase"))
        self.away.hide()
        self.cards.show_kept(sentence)
