"""The square code of the foot (ISO/IEC 18004), drawn as runs of dark modules in one path."""

from functools import lru_cache
from itertools import groupby
from typing import Any

from reportlab.graphics.barcode.qr import QrCodeWidget

from jobbook.paperwork import sheet

Run = tuple[int, int, int]  # row from above, first column, length


@lru_cache(maxsize=4)
def _runs(text: str) -> tuple[int, tuple[Run, ...]]:
    """Modules along one side, and the runs of dark ones. Kept, since every page of a paper carries the same code."""
    widget: Any = QrCodeWidget(text, barLevel="L")
    code = widget.qr
    code.make()
    side = int(code.getModuleCount())
    runs = []
    for row in range(side):
        dark_at = [bool(code.isDark(row, column)) for column in range(side)]
        for dark, columns in groupby(range(side), dark_at.__getitem__):
            run = list(columns)
            runs += [(row, run[0], len(run))] if dark else []
    return side, tuple(runs)


def draw_code(canvas: Any, text: str, x: float, y: float) -> None:
    """Draw the code with its lower left corner at x, y.

    It brings no margin of its own: the white round it on the page is wider than the four modules that readers ask for.
    """
    side, runs = _runs(text)
    module = sheet.CODE_SIDE / side
    path = canvas.beginPath()
    for row, column, length in runs:
        path.rect(x + column * module, y + (side - row - 1) * module, length * module, module)
    canvas.setFillColor(sheet.colour("ink"))
    canvas.drawPath(path, stroke=0, fill=1)
