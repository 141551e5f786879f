"""Figures by variant, each with the document and edition that it was read from."""

from PySide6.QtWidgets import QComboBox, QWidget

from jobbook.core.specifications import Specification
from jobbook.services.sheets import Ask, Option
from jobbook.ui import look
from jobbook.ui.cards import CardFile
from jobbook.ui.controls import ListBox, column, label, row
from jobbook.ui.forms import Section
from jobbook.ui.setting import Setting
from jobbook.ui.shop.columns import specification_columns
from jobbook.ui.shop.part import Part
from jobbook.ui.shop.specifications_presenter import FigureWanted, SpecificationsPresenter

FACTS = ("key", "text", "tolerance", "conditions", "document", "edition", "second_look_by")


class SpecificationsPage(Part):
    """The variant on top, its figures at the left, the card of one at the right."""

    def __init__(self, setting: Setting, wanted: tuple[FigureWanted, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = SpecificationsPresenter(setting, self, wanted)
        self.variant = ListBox()
        self.variant.setEditable(True)
        self.variant.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.variant.setMinimumWidth(look.FIELD_WIDTH * 2)
        self.variant.setAccessibleName(self.tr("Variant"))
        self.said = label("", "error")
        self.cards = CardFile(
            self.tr("Figures"),
            specification_columns(self.tr),
            self._asks(),
            self.tr("Add a figure"),
            self.tr(
                "Here will stand the figures of this variant: torques, heights, pressures, each with the document and "
                "edition that it was read from. The program never supplies a maker's figure."
            ),
        )
        head = row(label(self.tr("Variant"), "heading"), self.variant, self.said, 1)
        self.setLayout(column(head, self.cards))
        self._connect()

    def _connect(self) -> None:
        self.variant.activated.connect(lambda _: self._take_variant())
        line = self.variant.lineEdit()
        if line is not None:
            line.setAccessibleName(self.tr("Variant"))
            line.setPlaceholderText(self.tr("vehicle, build years, equipment, as the document names it"))
            line.editingFinished.connect(self._take_variant)
        self.cards.chosen.connect(self.presenter.choose)
        self.cards.begun.connect(lambda: self.cards.begin_card(self.tr("A new figure")))
        self.cards.handed_in.connect(self._keep)

    def _asks(self) -> tuple[Ask | Section, ...]:
        wanted = tuple(Option(one.key, f"{one.title} · {one.kind}") for one in self.presenter.wanted)
        people = tuple(Option(person.id, person.name) for person in self.presenter.people())
        return (
            Ask("key", self.tr("Figure"), "list", wanted),
            Ask("text", self.tr("As the document has it, like 50 N·m + 90°")),
            Ask("tolerance", self.tr("Tolerance, like ± 10 %"), "serial", required=False),
            Ask("conditions", self.tr("Conditions"), required=False),
            Section(self.tr("Where it stands")),
            Ask("document", self.tr("Document")),
            Ask("edition", self.tr("Edition, date or page"), "serial"),
            Ask("second_look_by", self.tr("Second look by"), "list", people, required=False),
        )

    def _take_variant(self) -> None:
        self.said.clear()
        self.presenter.choose_variant(self.variant.currentText())

    def _keep(self, answers: dict[str, str]) -> None:
        self._take_variant()
        self.presenter.keep(answers)

    def open(self) -> None:
        self.presenter.open()
        self.cards.table.choose_first()
        self.variant.setFocus()

    def refresh(self) -> None:
        self.presenter.open()

    def show_variants(self, variants: tuple[str, ...], chosen: str) -> None:
        typed = self.variant.currentText()
        self.variant.clear()
        self.variant.addItems(list(variants))
        self.variant.setEditText(chosen or typed)

    def show_figures(self, figures: tuple[Specification, ...]) -> None:
        self.cards.show_rows(figures)
        if not figures:
            self.cards.title.setText(self.tr("A new figure"))

    def show_figure(self, figure: Specification) -> None:
        self.cards.show_card(figure.title, {name: getattr(figure, name) for name in FACTS})

    def refuse(self, sentence: str) -> None:
        self.cards.refuse(sentence)

    def refuse_variant(self, sentence: str) -> None:
        self.said.setText(sentence)
        self.variant.setFocus()

    def show_kept(self, figure: Specification) -> None:
        self.cards.choose(figure)
        self.show_figure(figure)
        self.cards.show_kept(self.tr("{0} is kept for {1}.").format(figure.title, figure.variant))
