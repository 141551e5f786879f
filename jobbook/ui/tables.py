"""Lists of records: one table model over a query that is paged by key, with columns as data."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Protocol

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from jobbook.ui import look
from jobbook.ui.paint import mark_picture

PAGE = 100
ANY_ROLE = Qt.ItemDataRole.UserRole
Index = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()


class PageOfRows(Protocol):
    """What a query gives: some records, and the key after which the next ones begin (None: that was all)."""

    @property
    def rows(self) -> Sequence[Any]: ...

    @property
    def next(self) -> Any: ...


@dataclass(frozen=True)
class AllRows:
    """A short list that needs no pages."""

    rows: tuple[Any, ...]
    next: None = None


def all_of(rows: Sequence[Any]) -> AllRows:
    return AllRows(tuple(rows))


Fetch = Callable[[Any, int], PageOfRows]


@dataclass(frozen=True)
class Column:
    """One column: its title, the text of a record in it, how it is set. `width` in letters; 0 takes what is left.

    `mark` gives the kind of the mark that stands before the text, where shape says how a thing stands."""

    title: str
    text: Callable[[Any], str]
    width: int = 0
    right: bool = False
    strong: bool = False
    role: str | Callable[[Any], str] = "ink"
    mark: Callable[[Any], str] | None = None


class RecordModel(QAbstractTableModel):
    """Records that are fetched a page at a time; the record itself stands under UserRole."""

    def __init__(self, columns: Sequence[Column], fetch: Fetch, parent: Any = None) -> None:
        super().__init__(parent)
        self._columns = tuple(columns)
        self._fetch = fetch
        self._rows: list[Any] = []
        self._next: Any = None
        self._more = True

    def reload(self, extent: int = PAGE) -> None:
        """Forget what was read and read the first page again, or as many rows as are named."""
        page = self._fetch(None, max(PAGE, extent))
        self.beginResetModel()
        self._rows = list(page.rows)
        self._next, self._more = page.next, page.next is not None
        self.endResetModel()

    def record(self, row: int) -> Any:
        return self._rows[row]

    def rowCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._columns)

    def canFetchMore(self, parent: Index) -> bool:
        return not parent.isValid() and self._more

    def fetchMore(self, parent: Index) -> None:
        if not self.canFetchMore(parent):
            return
        page = self._fetch(self._next, PAGE)
        self._next, self._more = page.next, page.next is not None
        if page.rows:
            self.beginInsertRows(NOWHERE, len(self._rows), len(self._rows) + len(page.rows) - 1)
            self._rows.extend(page.rows)
            self.endInsertRows()

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        column, record = self._columns[index.column()], self._rows[index.row()]
        match role:
            case Qt.ItemDataRole.DisplayRole | Qt.ItemDataRole.ToolTipRole:
                return column.text(record)
            case Qt.ItemDataRole.TextAlignmentRole:
                side = Qt.AlignmentFlag.AlignRight if column.right else Qt.AlignmentFlag.AlignLeft
                return side | Qt.AlignmentFlag.AlignVCenter
            case Qt.ItemDataRole.FontRole:
                return look.font(look.BODY, column.strong)
            case Qt.ItemDataRole.ForegroundRole:
                return look.colour(column.role(record) if callable(column.role) else column.role)
            case Qt.ItemDataRole.DecorationRole if column.mark is not None:
                return mark_picture(column.mark(record), "soft")
            case Qt.ItemDataRole.UserRole:
                return record
        return None

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if orientation is not Qt.Orientation.Horizontal or not 0 <= section < len(self._columns):
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return self._columns[section].title
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if self._columns[section].right else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        return None

    @property
    def columns(self) -> tuple[Column, ...]:
        return self._columns


class RecordTable(QTableView):
    """Shows a RecordModel. `opened` carries the record on which Enter was pressed or that was clicked twice."""

    opened = Signal(object)

    def __init__(self, name: str, model: RecordModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._records = model
        self.setModel(model)
        self.setAccessibleName(name)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(look.ROW_HEIGHT)
        self._set_widths()
        self.doubleClicked.connect(lambda index: self.opened.emit(index.data(ANY_ROLE)))

    def _set_widths(self) -> None:
        header = self.horizontalHeader()
        header.setHighlightSections(False)
        letter = self.fontMetrics().averageCharWidth()
        self._made: dict[int, int] = {}  # the widths that columns were made with, without those that stretch
        for place, column in enumerate(self._records.columns):
            if column.width:
                self._made[place] = column.width * letter + look.UNIT * 3
                self.setColumnWidth(place, self._made[place])
            else:
                header.setSectionResizeMode(place, QHeaderView.ResizeMode.Stretch)

    def drawn_widths(self) -> dict[int, int]:
        """The columns that somebody made wider or narrower, with their widths in pixels."""
        now = {place: self.columnWidth(place) for place in self._made if not self.isColumnHidden(place)}
        return {place: width for place, width in now.items() if width != self._made[place]}

    def draw_widths(self, widths: Mapping[int, int]) -> None:
        """Make those columns so wide, as far as such widths can be read."""
        for place, width in widths.items():
            if place in self._made:
                self.setColumnWidth(place, min(max(width, look.UNIT * 4), look.WIDEST_COLUMN))

    def refresh(self) -> None:
        """Read again as far as was read, and stay at the same place in the list."""
        at = self.verticalScrollBar().value()
        self.reload(self._records.rowCount())
        self.verticalScrollBar().setValue(at)

    def reload(self, extent: int = PAGE) -> None:
        """Read the first page again; the record that was chosen stays chosen where it is still there."""
        chosen = self.chosen()
        self._records.reload(extent)
        rows = range(self._records.rowCount())
        again = next((i for i in rows if self._records.record(i) == chosen), None) if chosen is not None else None
        if again is not None:
            self.selectRow(again)

    def chosen(self) -> Any:
        """The record of the current row, or None."""
        return self.currentIndex().data(ANY_ROLE) if self.currentIndex().isValid() else None

    def choose_first(self) -> None:
        if self._records.rowCount():
            self.selectRow(0)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Whoever comes in by keys sees where they are."""
        super().focusInEvent(event)
        by_keys = event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason)
        if by_keys and not self.currentIndex().isValid():
            self.choose_first()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.chosen() is not None:
            self.opened.emit(self.chosen())
        else:
            super().keyPressEvent(event)
