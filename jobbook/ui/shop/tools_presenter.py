"""Tools: the card of each, with range, calibration and certificate."""

from collections.abc import Mapping
from typing import Protocol

from jobbook.core.tools import Tool
from jobbook.services.house.shop import keep_tool, tools
from jobbook.ui.setting import Setting

FACTS = (
    "number", "kind", "low", "high", "unit", "calibrated_on", "due_on", "certificate", "laboratory", "status",
    "resolution", "uncertainty",
)  # fmt: skip


class ToolsView(Protocol):
    """What the page can show."""

    def show_tools(self, tools: tuple[Tool, ...]) -> None: ...

    def show_tool(self, tool: Tool) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_kept(self, tool: Tool) -> None: ...


class ToolsPresenter:
    """Keeps the card of a tool. The number of a tool that is in the crib does not change."""

    def __init__(self, setting: Setting, view: ToolsView) -> None:
        self._setting, self._view = setting, view
        self._number = ""

    def open(self) -> None:
        self._view.show_tools(tools(self._setting.book))

    def choose(self, tool: Tool) -> None:
        self._number = tool.number
        self._view.show_tool(tool)

    def begin(self) -> None:
        self._number = ""

    def keep(self, answers: Mapping[str, str]) -> None:
        tool = Tool(**{name: answers[name].strip() for name in FACTS})
        doubt = self._doubt(tool)
        if doubt:
            self._view.refuse(doubt)
            return
        book = self._setting.book
        self._setting.keep(
            lambda who: keep_tool(book, who, tool), self._kept, lambda error: self._view.refuse(str(error))
        )

    def _doubt(self, tool: Tool) -> str:
        """Why this number must not be kept: another tool has it, or it is not the number of this card."""
        if self._number and tool.number != self._number:
            return f"The tool was not kept: {self._number} keeps its number, since sign-offs name it. Add a new card."
        taken = {one.number for one in tools(self._setting.book)}
        if not self._number and tool.number in taken:
            return f"The tool was not kept: {tool.number} is in the crib already. Choose it on the left to change it."
        return ""

    def _kept(self, tool: Tool) -> None:
        self._number = tool.number
        self.open()
        self._view.show_kept(tool)
