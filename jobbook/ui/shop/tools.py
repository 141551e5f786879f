"""The tools that are signed with."""

from dataclasses import asdict

from PySide6.QtWidgets import QWidget

from jobbook.core.tools import KINDS, Tool
from jobbook.services.sheet.sheets import Ask, Option, options_of
from jobbook.ui.cards import CardFile
from jobbook.ui.controls import column
from jobbook.ui.moments import day, understood
from jobbook.ui.places import TOOLS
from jobbook.ui.setting import Setting
from jobbook.ui.shop.columns import tool_columns
from jobbook.ui.shop.part import CardPart
from jobbook.ui.shop.tools_presenter import FACTS, ToolsPresenter

UNITS = ("N·m", "lbf·ft", "bar", "psi", "mm", "°")
STATES = ("in use", "quarantined", "scrapped", "outside")


class ToolsPage(CardPart):
    """The tool crib with the card of one tool."""

    presenter: ToolsPresenter

    key = TOOLS

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = ToolsPresenter(setting, self)
        self._clock = setting.book.clock
        self.cards = CardFile(
            self.tr("Tools"),
            tool_columns(self.tr, setting.book.today),
            self._asks(),
            self.tr("Add a tool"),
            self.tr(
                "Here will stand every tool that is signed with: what it covers, when it was calibrated and by whom. "
                "A joint is signed with a tool, so begin with the torque wrenches."
            ),
        )
        self.setLayout(column(self.cards))
        self.cards.chosen.connect(self.presenter.choose)
        self.cards.begun.connect(self._begin)
        self.cards.handed_in.connect(self.presenter.keep)

    def _asks(self) -> tuple[Ask, ...]:
        past, ahead = (understood(self._clock, ahead=to_come) for to_come in (False, True))
        kinds = tuple(Option(kind, f"{kind}: {what}") for kind, what in KINDS.items())
        return (
            Ask("number", self.tr("Number on the tool"), "number"),
            Ask("kind", self.tr("Kind"), "choice", kinds, value=next(iter(KINDS))),
            Ask("low", self.tr("Covers from"), "number", required=False),
            Ask("high", self.tr("to"), "number", required=False),
            Ask("unit", self.tr("in"), "choice", options_of(UNITS), value=UNITS[0]),
            Ask("status", self.tr("Stands"), "list", options_of(STATES), value=STATES[0]),
            Ask("calibrated_on", self.tr("Calibrated on, like 14 Mar 2026"), "time", required=False, hint=past),
            Ask("due_on", self.tr("Due again on"), "time", required=False, hint=ahead),
            Ask("certificate", self.tr("Certificate number"), "serial", required=False),
            Ask("laboratory", self.tr("Laboratory"), "serial", required=False),
            Ask("resolution", self.tr("Smallest division"), "number", required=False),
            Ask("uncertainty", self.tr("Uncertainty of the certificate, k = 2"), "number", required=False),
        )

    def show_one(self, given: dict[str, str]) -> None:
        self.cards.choose_where(lambda tool: tool.number == given.get("number"))

    def _begin(self) -> None:
        self.presenter.begin()
        self.cards.begin_card(self.tr("A new tool"))

    def show_tools(self, tools: tuple[Tool, ...]) -> None:
        self.cards.show_rows(tools)
        if not tools:
            self._begin()

    def show_tool(self, tool: Tool) -> None:
        facts = asdict(tool)
        shown = facts | {name: day(facts[name]) for name in ("calibrated_on", "due_on")}
        self.cards.show_card(tool.number, {name: shown[name] for name in FACTS})

    def show_kept(self, tool: Tool) -> None:
        self.cards.choose(tool)
        self.show_tool(tool)
        self.cards.show_kept(self.tr("{0} is kept.").format(tool.number))
