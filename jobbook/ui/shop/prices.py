"""Prices: the country profile with its sources, the usual tax and hour, what no vehicle goes without."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from jobbook.core.desk.declined import BARRABLE, ITEMS
from jobbook.core.people import Shop
from jobbook.services.house.prices import CAUTION
from jobbook.services.house.profiles import profiles
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.ui import look
from jobbook.ui.controls import Said, at_most, button, column, frame, holding, label, row, scrolling
from jobbook.ui.forms import Form
from jobbook.ui.setting import Setting
from jobbook.ui.shop.part import Part
from jobbook.ui.shop.prices_presenter import FIELDS, PricesPresenter, ProfileLine


class PricesPage(Part):
    """One form, and under it what the chosen profile says, line by line with its source."""

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = PricesPresenter(setting, self)
        self.form = Form(self._asks(), columns=2)
        self.keep = button(self.tr("Keep"), "main", "Ctrl+Return")
        self.said = Said("error")
        self._told = QGridLayout()
        self._told.setContentsMargins(0, 0, 0, 0)
        self._told.setColumnStretch(1, 1)
        self._told.setHorizontalSpacing(look.UNIT * 2)
        told = column(label(self.tr("What this profile says"), "section"), label(CAUTION, "caution", wrap=True))
        told.addWidget(holding(self._told))
        inside = QWidget()
        inside.setLayout(column(self.form, self.said, row(1, self.keep), told, 1, margin=look.UNIT * 2))
        sheet = frame("sheet")
        sheet.setLayout(column(scrolling(inside), margin=1))
        self.setLayout(at_most(sheet, look.READABLE_WIDTH))
        self.keep.clicked.connect(self.form.hand_in)
        self.form.handed_in.connect(self.presenter.keep)
        self.form.changed.connect(self._changed)

    def _asks(self) -> tuple[Ask, ...]:
        places = tuple(Option(key, profile.title) for key, profile in profiles().items())
        barred = tuple(Option(key, ITEMS[key].title) for key in BARRABLE)
        return (
            Ask("profile", self.tr("Country profile"), "list", places),
            Ask("tax_rate", self.tr("Usual tax in new lines"), "quantity", unit="%", required=False),
            Ask("labour_rate", self.tr("One hour of labour, before tax"), "quantity", required=False),
            Ask("no_release_without", self.tr("No vehicle goes, even where it was declined, without"), "pieces", barred,
                required=False),
        )  # fmt: skip

    def _changed(self, name: str) -> None:
        self.said.clear()
        if name == "profile":
            self.presenter.choose(self.form.answers()["profile"])

    def open(self) -> None:
        self.presenter.open()
        self.form.focus_first()

    def refresh(self) -> None:
        """What is being typed stays: the form is read again only when the page is opened."""

    def show_shop(self, facts: Shop) -> None:
        told = {name: str(getattr(facts, name)) for name in FIELDS}
        self.form.show_answers(told | {"no_release_without": ",".join(facts.no_release_without)})

    def show_profile(self, said: tuple[ProfileLine, ...]) -> None:
        """Show what the profile says, each value with its source under it."""
        while (item := self._told.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.deleteLater()
        for number, (title, value, source) in enumerate(said):
            self._told.addWidget(label(title, "soft", wrap=True), number, 0, Qt.AlignmentFlag.AlignTop)
            words = column(label(value, wrap=True), label(source, "small", wrap=True), gap=0)
            self._told.addWidget(holding(words), number, 1)

    def refuse(self, sentence: str) -> None:
        self.said.say(sentence, "error")

    def show_kept(self) -> None:
        self.said.say(self.tr("Kept. What was allowed before keeps the tolerance of its day."), "kept")
