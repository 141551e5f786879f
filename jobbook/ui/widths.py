"""Columns that somebody made wider or narrower are as wide again in the next window."""

from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QWidget

from jobbook.ui.tables import RecordTable

GROUP = "widths"


def restore(within: QWidget, settings: QSettings) -> None:
    """Give the columns of every list on a page the widths that were kept; what was kept for others is left alone."""
    for table in within.findChildren(RecordTable):
        kept = settings.value(_key(table), {})
        if isinstance(kept, dict):
            table.draw_widths({int(place): int(width) for place, width in kept.items() if _whole(place, width)})


def keep(within: QWidget, settings: QSettings) -> None:
    """Keep the widths of those columns that do not stand as they were made."""
    for table in within.findChildren(RecordTable):
        drawn = {str(place): width for place, width in table.drawn_widths().items()}
        if drawn:
            settings.setValue(_key(table), drawn)
        else:
            settings.remove(_key(table))


def _key(table: RecordTable) -> str:
    return f"{GROUP}/{table.accessibleName()} {table.model().columnCount()}"


def _whole(place: object, width: object) -> bool:
    return str(place).isdecimal() and str(width).isdecimal()
