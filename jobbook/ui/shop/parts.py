"""The parts that the shop knows by their numbers."""

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QWidget

from jobbook.core.vehicle.parts import KnownPart
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.ui import look
from jobbook.ui.cards import CardFile
from jobbook.ui.controls import column, label, row
from jobbook.ui.lists import TYPING_PAUSE_MS, FindField
from jobbook.ui.places import PARTS
from jobbook.ui.setting import Setting
from jobbook.ui.shop.part import CardPart
from jobbook.ui.shop.parts_presenter import FACTS, MOST, PartsPresenter
from jobbook.ui.tables import Column

KINDS = (Option("part", "part"), Option("piece", "single-use piece"), Option("seal", "seal"))


class PartsPage(CardPart):
    """The list of parts with the card of one, found while typing."""

    presenter: PartsPresenter

    key = PARTS

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = PartsPresenter(setting, self)
        self.find_field = FindField()
        self.find_field.setPlaceholderText(self.tr("Find a part by number, title or supplier"))
        self.find_field.setAccessibleName(self.find_field.placeholderText())
        self.find_field.setMinimumWidth(look.FIELD_WIDTH * 3 // 2)
        self.find_field.setClearButtonEnabled(True)
        self.more = label("", "small")
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(TYPING_PAUSE_MS)
        self.cards = CardFile(
            self.tr("Parts"),
            self._columns(),
            self._asks(),
            self.tr("Add a part"),
            self.tr(
                "Here will stand the parts that the shop knows: number, what it is, who supplies it, and for how many "
                "months the supplier answers. A whole list comes in under Import and export."
            ),
        )
        self.setLayout(column(row(self.find_field, self.more, 1), self.cards, gap=look.UNIT * 3 // 2))
        self._connect()

    def _columns(self) -> tuple[Column, ...]:
        return (
            Column(self.tr("Number"), lambda part: part.number, width=14, strong=True),
            Column(self.tr("What it is"), lambda part: part.title),
            Column(self.tr("Supplier"), lambda part: part.supplier, width=18, role="soft"),
        )

    def _asks(self) -> tuple[Ask, ...]:
        return (
            Ask("number", self.tr("Part number"), "serial"),
            Ask("title", self.tr("What it is")),
            Ask("supplier", self.tr("Supplier"), required=False),
            Ask("kind", self.tr("Kind"), "list", KINDS, value="part"),
            Ask("warranty_months", self.tr("Supplier's warranty in months"), "number", required=False),
            Ask("note", self.tr("Note"), required=False),
        )

    def _connect(self) -> None:
        self.find_field.textChanged.connect(lambda _: self._pause.start())
        self.find_field.down.connect(self.cards.table.setFocus)
        self._pause.timeout.connect(lambda: self.presenter.find(self.find_field.text()))
        self.cards.chosen.connect(self.presenter.choose)
        self.cards.begun.connect(self._begin)
        self.cards.handed_in.connect(self.presenter.keep)

    def open(self) -> None:
        self.presenter.open()
        self.find_field.setFocus()

    def show_one(self, given: dict[str, str]) -> None:
        self.presenter.show_one(int(given["part"]))

    def _begin(self) -> None:
        self.presenter.begin()
        self.cards.begin_card(self.tr("A new part"))

    # what the presenter shows

    def show_parts(self, parts: tuple[KnownPart, ...], more: bool) -> None:
        self.more.setText(self.tr("The newest {0}; type to find others.").format(MOST) if more else "")
        self.cards.show_rows(parts)

    def show_part(self, part: KnownPart) -> None:
        self.cards.show_card(part.number, {name: getattr(part, name) for name in FACTS})

    def show_kept(self, part: KnownPart) -> None:
        self.cards.choose(part)
        self.show_part(part)
        self.cards.show_kept(self.tr("{0} is kept.").format(part.number))
