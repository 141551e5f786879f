"""A layout that sets things in a line and goes on in a second one where the room ends."""

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem


class Flow(QLayout):
    """Things beside one another, in as many lines as it takes."""

    def __init__(self, gap: int = 0) -> None:
        super().__init__()
        self._items: list[QLayoutItem] = []
        self.setSpacing(gap)

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._set(QRect(0, 0, width, 0), moving=False)

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._set(rect, moving=True)

    def sizeHint(self) -> QSize:
        return self.minimumSize()

    def minimumSize(self) -> QSize:
        """As wide as the widest thing; the height follows from the width."""
        size = QSize()
        for item in self._items:
            size = size.expandedTo(item.minimumSize())
        around = self.contentsMargins()
        return size + QSize(around.left() + around.right(), around.top() + around.bottom())

    def _set(self, rect: QRect, moving: bool) -> int:
        """Set the things into the rectangle, or only reckon; returns the height that they take."""
        around = self.contentsMargins()
        inside = rect.marginsRemoved(around)
        at, line = inside.topLeft(), 0
        for item in self._items:
            hint = item.sizeHint()
            if at.x() > inside.left() and at.x() + hint.width() > inside.right() + 1:
                at, line = QPoint(inside.left(), at.y() + line + self.spacing()), 0
            if moving:
                item.setGeometry(QRect(at, hint))
            at.setX(at.x() + hint.width() + self.spacing())
            line = max(line, hint.height())
        return at.y() + line - rect.top() + around.bottom()
