"""Figures by variant, each with the document and edition that it was read from."""

from PySide6.QtWidgets import QComboBox, QWidget

from jobbook.core.vehicle.specifications import Specification
from jobbook.core.vehicle.variants import Variant
from jobbook.services.measured.torque_at_work import fastener_in, without_look
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.services.vehicle.figure_story import FigureStory
from jobbook.ui import look
from jobbook.ui.cards import CardFile
from jobbook.ui.controls import ListBox, button, column, label, row
from jobbook.ui.forms import Section
from jobbook.ui.jobs.signing import Signers
from jobbook.ui.places import a_figure, a_job
from jobbook.ui.setting import Setting
from jobbook.ui.shop.about_variant import AboutVariant
from jobbook.ui.shop.columns import specification_columns
from jobbook.ui.shop.figure_history import FigureHistory
from jobbook.ui.shop.part import CardPart
from jobbook.ui.shop.specifications_presenter import FigureWanted, SpecificationsPresenter

FACTS = ("key", "text", "tolerance", "conditions", "document", "edition")


class SpecificationsPage(CardPart):
    """The variant on top, its figures at the left, the card of one at the right."""

    presenter: SpecificationsPresenter

    def __init__(self, setting: Setting, wanted: tuple[FigureWanted, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = SpecificationsPresenter(setting, self, wanted)
        self.variant = ListBox()
        self.variant.setEditable(True)
        self.variant.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.variant.setMinimumWidth(look.FIELD_WIDTH * 2)
        self.variant.setAccessibleName(self.tr("Variant"))
        self.said = label("", "error")
        self.history = FigureHistory()
        self.about = AboutVariant()
        self.cards = CardFile(
            self.tr("Figures"),
            specification_columns(self.tr),
            self._asks(),
            self.tr("Add a figure"),
            self.tr(
                "Here will stand the figures of this variant: torques, heights, pressures, each with the document and "
                "edition that it was read from. The program never supplies a maker's figure."
            ),
            self.history,
        )
        self.in_figures = button(self.tr("Look at a torque in Figures…"), "quiet")
        head = row(label(self.tr("Variant"), "heading"), self.variant, self.said, 1, self.in_figures)
        self.setLayout(column(head, self.about, self.cards))
        self._connect()

    def _connect(self) -> None:
        self.variant.activated.connect(lambda _: self._take_variant())
        line = self.variant.lineEdit()
        if line is not None:
            line.setAccessibleName(self.tr("Variant"))
            line.setPlaceholderText(self.tr("vehicle, build years, equipment, as the document names it"))
            line.editingFinished.connect(self._take_variant)
        self.cards.chosen.connect(self.presenter.choose)
        self.cards.begun.connect(lambda: self._begin())
        self.cards.handed_in.connect(self._keep)
        self.cards.confirmed.connect(lambda answers: self._keep(answers, confirmed=True))
        self.cards.form.changed.connect(self._typed)
        self.in_figures.clicked.connect(self._go_to_figures)
        self.about.handed_in.connect(self.presenter.keep_variant)
        self.history.looked.connect(self.presenter.second_look)
        self.history.job_wanted.connect(lambda job: self.go.emit(a_job(job)))

    def _asks(self) -> tuple[Ask | Section, ...]:
        wanted = tuple(Option(one.key, f"{one.title} · {one.kind}") for one in self.presenter.wanted)
        return (
            Ask("key", self.tr("Figure"), "list", wanted),
            Ask("text", self.tr("As the document has it, like 50 N·m + 90°")),
            Ask("tolerance", self.tr("Tolerance, like ± 10 %"), "serial", required=False),
            Ask("conditions", self.tr("Conditions"), required=False),
            Ask("fastener", self.tr("Thread and grade, like M12x1.5 10.9"), "serial", required=False),
            Section(self.tr("Where it stands")),
            Ask("document", self.tr("Document")),
            Ask("edition", self.tr("Edition, date or page"), "serial"),
            Ask("valid_from", self.tr("Valid from, today if empty"), "time", required=False),
        )

    def _begin(self) -> None:
        self.cards.begin_card(self.tr("A new figure"))
        self.show_notes(())
        self.show_story(None, Signers())

    def _take_variant(self) -> None:
        self.said.clear()
        self.presenter.choose_variant(self.variant.currentText())

    def _keep(self, answers: dict[str, str], confirmed: bool = False) -> None:
        self._take_variant()
        self.presenter.keep(answers, confirmed)

    def _typed(self, name: str) -> None:
        """A figure that is chosen brings thread and grade along, where a method declares them."""
        fields = self.cards.form.fields
        if name == "key" and fields["fastener"].is_empty():
            fields["fastener"].set_text(self.presenter.fastener_of(fields["key"].text()))
        self.presenter.look(self.cards.form.answers())

    def _go_to_figures(self) -> None:
        """The torque on the sheet of figures, with what is known of its bolt."""
        answers = self.cards.form.answers()
        thread, _, grade = answers["fastener"].strip().partition(" ")
        torque = answers["text"].partition(",")[0].partition("+")[0].strip()
        self.go.emit(a_figure("plausible", torque=torque, thread=thread, grade=grade.strip()))

    def open(self) -> None:
        self.presenter.open()
        self.cards.table.choose_first()
        self.variant.setFocus()

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
        answers = {name: getattr(figure, name) for name in FACTS}
        bolt = fastener_in(figure.conditions) or self.presenter.fastener_of(figure.key)
        answers |= {"conditions": without_look(figure.conditions), "fastener": bolt}
        self.cards.show_card(figure.title, answers)
        self.presenter.look(self.cards.form.answers())

    def show_notes(self, lines: tuple[str, ...]) -> None:
        self.cards.note.setText("\n".join(lines))

    def show_variant(self, known: Variant) -> None:
        self.about.show_variant(known)

    def show_story(self, story: FigureStory | None, signers: Signers) -> None:
        self.history.show_story(story, signers)

    def refuse_look(self, sentence: str) -> None:
        self.history.refuse(sentence)

    def refuse_about(self, sentence: str) -> None:
        self.about.refuse(sentence)

    def ask_to_confirm(self, sentence: str) -> None:
        self.cards.ask_to_confirm(sentence)

    def refuse_variant(self, sentence: str) -> None:
        self.said.setText(sentence)
        self.variant.setFocus()

    def show_kept(self, figure: Specification) -> None:
        self.cards.choose(figure)
        self.show_figure(figure)
        self.cards.show_kept(self.tr("{0} is kept for {1}.").format(figure.title, figure.variant))
