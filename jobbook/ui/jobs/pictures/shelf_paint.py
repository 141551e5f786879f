"""How files look on the shelf: the mark of what is chosen, the sheet of what has no picture, a picture in its place."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPoint, QSize, Qt
from PySide6.QtGui import QPainter, QPen, QPixmap
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from jobbook.ui import look


class Chosen(QStyledItemDelegate):
    """Paints a disc on what is chosen and a ring on what is not, so that it is seen without its colour."""

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        super().paint(painter, option, index)
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        corner = option.rect.topLeft() + QPoint(look.UNIT, look.UNIT)
        size = look.UNIT * 5 // 2
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(look.colour("bluing"), 2))
        painter.setBrush(look.colour("sheet"))
        painter.drawEllipse(corner.x(), corner.y(), size, size)
        if chosen:
            painter.setBrush(look.colour("bluing"))
            painter.drawEllipse(corner.x() + size // 4, corner.y() + size // 4, size // 2, size // 2)


def blank(size: tuple[int, int], word: str) -> QPixmap:
    """A sheet with a word on it, for what has no picture or not yet."""
    made = QPixmap(*size)
    made.fill(look.colour("rule"))
    with QPainter(made) as painter:
        painter.setPen(look.colour("ink"))
        painter.drawText(made.rect(), Qt.AlignmentFlag.AlignCenter, word)
    return made


def centred(picture: QPixmap, size: tuple[int, int]) -> QPixmap:
    """The picture in the middle of its place, so that those beside it stand in line."""
    fitted = picture.scaled(
        QSize(*size), Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
    )
    made = QPixmap(*size)
    made.fill(look.colour("sheet"))
    with QPainter(made) as painter:
        painter.drawPixmap((size[0] - fitted.width()) // 2, (size[1] - fitted.height()) // 2, fitted)
    return made
