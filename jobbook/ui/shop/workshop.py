"""The workshop's own facts, as they print on its papers."""

from dataclasses import asdict

from PySide6.QtWidgets import QWidget

from jobbook.core.measured.practice import RULES
from jobbook.core.people import Shop
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.ui import look
from jobbook.ui.controls import Said, at_most, button, column, frame, label, row, scrolling
from jobbook.ui.forms import Form, Section
from jobbook.ui.setting import Setting
from jobbook.ui.shop.part import Part
from jobbook.ui.shop.workshop_presenter import NUMBERS, PRACTICE, TEXTS, WorkshopPresenter

UNITS = (Option("km", "km"), Option("mi", "mi"))
HEIGHT_UNITS = (Option("mm", "mm"), Option("in", "inches"))
PAPERS = (Option("A4", "A4"), Option("Letter", "US Letter"))


class WorkshopPage(Part):
    """One form."""

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = WorkshopPresenter(setting, self)
        self.form = Form(self._asks(), columns=2)
        self.keep = button(self.tr("Keep"), "main", "Ctrl+Return")
        self.said = Said("error")
        self.lies = label("", "small", wrap=True)
        sheet = frame("sheet")
        inside = QWidget()
        inside.setLayout(column(self.form, self.said, row(1, self.keep), self.lies, 1, margin=look.UNIT * 2))
        sheet.setLayout(column(scrolling(inside), margin=1))
        self.setLayout(at_most(sheet, look.READABLE_WIDTH))
        self.keep.clicked.connect(self.form.hand_in)
        self.form.handed_in.connect(self.presenter.keep)
        self.form.changed.connect(lambda _: self.said.clear())

    def _asks(self) -> tuple[Ask | Section, ...]:
        return (
            Section(self.tr("As it prints on papers")),
            Ask("name", self.tr("Name of the workshop")),
            Ask("phone", self.tr("Telephone"), required=False),
            Ask("address", self.tr("Address"), "long text", required=False),
            Ask("distance_unit", self.tr("Odometers count"), "choice", UNITS),
            Ask("currency", self.tr("Currency"), "number"),
            Ask("paper", self.tr("Paper"), "choice", PAPERS),
            Ask("warranty_text", self.tr("Warranty statement of the shop"), "long text", required=False),
            Section(self.tr("The shop's own warranty, and when a visit is looked at as a comeback")),
            Ask("warranty_months", self.tr("Own warranty, months"), "number", required=False),
            Ask("warranty_distance", self.tr("and distance, like 20000 km"), required=False),
            Ask("comeback_months", self.tr("Comeback within months"), "number"),
            Ask("comeback_km", self.tr("and km after the release"), "number"),
            Section(self.tr("Re-torque visit after wheels were off")),
            Ask("retorque_km", self.tr("After this distance"), "number"),
            Ask("retorque_days", self.tr("or after so many days"), "number"),
            Section(self.tr("Heights and stands: common practice until you change it; the maker's figure comes first")),
            Ask("height_unit", self.tr("Heights are typed and shown in"), "choice", HEIGHT_UNITS),
            *(Ask(PRACTICE + rule.key, rule.words, "quantity", unit=rule.unit) for rule in RULES),
        )

    def open(self) -> None:
        self.presenter.open()
        self.form.focus_first()

    def refresh(self) -> None:
        """What is being typed stays: the form is read again only when the page is opened."""

    def show_shop(self, facts: Shop, folder: str) -> None:
        values = asdict(facts)
        own = {PRACTICE + rule.key: facts.practice.get(rule.key, "") or rule.default for rule in RULES}
        self.form.show_answers({name: str(values[name]) for name in (*TEXTS, *NUMBERS)} | own)
        self.lies.setText(self.tr("The book {0} lies in {1}.").format(facts.book_id, folder))

    def refuse_field(self, name: str, sentence: str) -> None:
        self.form.refuse(name, sentence)

    def refuse(self, sentence: str) -> None:
        self.said.say(sentence, "error")

    def show_kept(self) -> None:
        self.said.say(self.tr("Kept. Papers that were issued before stay as they are."), "kept")
