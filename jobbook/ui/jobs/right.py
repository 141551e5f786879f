"""The right page: one tab for each part of a job's life, in its order, each with the mark of how far it is."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QFrame, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from jobbook.services.sheet.sheets import Tab
from jobbook.ui import look
from jobbook.ui.flow import Flow
from jobbook.ui.jobs.rows import SMALL_MARK, RowButton, label, let_clicks_through
from jobbook.ui.paint import MarkLabel

COLOUR_OF_MARK = {"disc": "patina", "double": "patina", "half": "ochre", "bar": "ochre"}


class TabButton(RowButton):
    """A tab: its mark and its title, semibold while it is open."""

    def __init__(self, tab: Tab, place: int) -> None:
        super().__init__("tab")
        self.key = tab.key
        self._mark = MarkLabel(tab.mark, "soft", size=SMALL_MARK)
        self._title = label(tab.title, "soft")
        self.setCheckable(True)
        self.setAutoExclusive(True)
        self.setToolTip(self.tr("Alt+{place}").format(place=place))
        let_clicks_through(self._mark, self._title)
        line = QHBoxLayout(self)
        line.setContentsMargins(look.UNIT, look.UNIT * 3 // 2, look.UNIT, look.UNIT * 3 // 2)
        line.setSpacing(look.UNIT // 2)
        line.addWidget(self._mark)
        line.addWidget(self._title)
        self.toggled.connect(self._weigh)
        self.show_mark(tab)

    def show_mark(self, tab: Tab) -> None:
        self._mark.show_mark(tab.mark, COLOUR_OF_MARK.get(tab.mark, "soft"))
        self.setAccessibleName(f"{tab.title}: {self._mark.accessibleName()}")

    def _weigh(self, open_: bool) -> None:
        look.as_role(self._title, "strong" if open_ else "soft")


class RightPage(QFrame):
    """The tabs and what stands under the open one."""

    tab_opened = Signal(str)

    def __init__(self, pages: Mapping[str, QWidget], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look.as_role(self, "sheet")
        self._pages = dict(pages)
        self._tabs: dict[str, TabButton] = {}
        self._line = Flow()
        self._line.setContentsMargins(look.UNIT, 0, look.UNIT, 0)
        self._stack = QStackedWidget()
        page = QVBoxLayout(self)
        page.setContentsMargins(1, 1, 1, 1)
        page.setSpacing(0)
        page.addLayout(self._line)
        rule = QFrame()
        look.as_role(rule, "rule")
        page.addWidget(rule)
        page.addWidget(self._stack, 1)
        for shown in pages.values():
            self._stack.addWidget(shown)

    def show_tabs(self, tabs: Sequence[Tab]) -> None:
        """Show the tabs that there are a page for, with their marks."""
        known = [tab for tab in tabs if tab.key in self._pages]
        for tab in known:
            if tab.key not in self._tabs:
                self._add(tab)
            self._tabs[tab.key].show_mark(tab)

    def _add(self, tab: Tab) -> None:
        place = len(self._tabs) + 1
        made = TabButton(tab, place)
        made.clicked.connect(lambda _=False: self.open_tab(tab.key))
        shortcut = QShortcut(QKeySequence(f"Alt+{place}"), self)
        shortcut.activated.connect(lambda: self._go_to(tab.key))
        self._tabs[tab.key] = made
        self._line.addWidget(made)
        made.show()

    def open_tab(self, key: str) -> None:
        """Open the tab of that name."""
        if key in self._tabs:
            self._tabs[key].setChecked(True)
        changed = self._stack.currentWidget() is not self._pages[key]
        self._stack.setCurrentWidget(self._pages[key])
        if changed:
            self.tab_opened.emit(key)

    def _go_to(self, key: str) -> None:
        """Open it, and have the focus brought there even where it is open already."""
        if key == self.current():
            self.tab_opened.emit(key)
        self.open_tab(key)

    def focus_tab(self) -> None:
        """Put the focus on the open tab, from where left and right go along them."""
        if self.current() in self._tabs:
            self._tabs[self.current()].setFocus(Qt.FocusReason.OtherFocusReason)

    def current(self) -> str:
        return next(key for key, page in self._pages.items() if page is self._stack.currentWidget())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left and right go along the tabs while one of them has the focus."""
        keys = list(self._tabs)
        here = next((place for place, key in enumerate(keys) if self._tabs[key].hasFocus()), -1)
        by = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(event.key()), 0)
        if here < 0 or not by or not 0 <= here + by < len(keys):
            event.ignore()
            return
        self.open_tab(keys[here + by])
        self._tabs[keys[here + by]].setFocus(Qt.FocusReason.TabFocusReason)
