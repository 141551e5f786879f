"""The one place for what paper looks like: its sizes, type, colours and styles."""

from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from reportlab.lib.colors import Color, HexColor
from reportlab.lib.enums import TA_LEFT, TA_RIGHT
from reportlab.lib.pagesizes import A4, LETTER
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

SIZES = {"A4": A4, "Letter": LETTER}
MARGIN = 40.0
HEAD_TOP = 36.0  # from the upper edge of the page to the shop's name
FOOT_BOTTOM = 28.0
CODE_SIDE = 54.0  # 57 modules of the book's code are then 0.33 mm each: read by a telephone from a laser print
GUTTER = 20.0
LABEL_WIDTH = 92.0
DIGEST_HALF = 32  # signs of a digest on one line
HAIRLINE, THIN, THICK = 0.4, 0.7, 1.4

REGULAR = "Sheet"
SEMIBOLD = "Sheet-Semibold"
_FACES = {REGULAR: "SourceSansPro-Regular.ttf", SEMIBOLD: "SourceSansPro-Semibold.ttf"}

_INKS = {
    "ground": "#FFFFFF",
    "sheet": "#FFFFFF",
    "ink": "#14191D",
    "soft": "#47525B",
    "rule": "#B9B4A8",
    "bluing": "#274A66",
    "ochre": "#6B4700",
    "oxide": "#8A2B1D",
    "patina": "#1F5A4D",
    "watermark": "#ECE9E1",
}


def colour(role: str) -> Color:
    """The print colour of a role. Paper is read in grey too, so nothing rests on these alone."""
    return HexColor(_INKS[role])


@cache
def fonts() -> frozenset[int]:
    """Register the two faces once; the code points that both of them have."""
    folder = files("font_source_sans_pro") / "files"
    faces = [TTFont(name, str(folder / file)) for name, file in _FACES.items()]
    for face in faces:
        pdfmetrics.registerFont(face)
    pdfmetrics.registerFontFamily(REGULAR, normal=REGULAR, bold=SEMIBOLD, italic=REGULAR, boldItalic=SEMIBOLD)
    known = [frozenset(face.face.charToGlyph) for face in faces]
    return known[0] & known[1]


@dataclass(frozen=True)
class _Type:
    size: float
    leading: float
    bold: bool = False
    role: str = "ink"
    before: float = 0.0
    after: float = 0.0
    right: bool = False


_TYPES = {
    "shop": _Type(12.6, 16, bold=True, role="soft"),
    "shop-line": _Type(8.8, 12, role="soft"),
    "corner": _Type(8.8, 12.6, role="soft"),
    "title": _Type(17, 21, bold=True, before=2, after=3),
    "under": _Type(8.8, 12, role="soft", after=7),
    "section": _Type(9.6, 12, bold=True),
    "body": _Type(9, 12.6, after=2.5),
    "fact": _Type(9, 12.6, after=1.2),
    "cell": _Type(8.4, 10.8),
    "cell-head": _Type(8.4, 10.8, bold=True),
    "figure": _Type(8.4, 10.8, right=True),
    "figure-head": _Type(8.4, 10.8, bold=True, right=True),
    "sum": _Type(9.4, 12.8, bold=True, right=True),
    "note": _Type(7.6, 10, role="soft", before=2),
    "call": _Type(9.4, 12.8, bold=True),
    "foot": _Type(7.2, 9.6, role="soft"),
}


@cache
def style(name: str) -> ParagraphStyle:
    """One of the paper's text styles."""
    fonts()
    kind = _TYPES[name]
    return ParagraphStyle(
        name,
        fontName=SEMIBOLD if kind.bold else REGULAR,
        fontSize=kind.size,
        leading=kind.leading,
        textColor=colour(kind.role),
        spaceBefore=kind.before,
        spaceAfter=kind.after,
        splitLongWords=1,
        allowWidows=0,
        allowOrphans=0,
        alignment=TA_RIGHT if kind.right else TA_LEFT,
    )


@cache
def hanging(label_bold: bool, width: float = LABEL_WIDTH) -> ParagraphStyle:
    """The style of a fact: its label stands in a column of `width` points, its text beside it."""
    return ParagraphStyle(
        "hanging",
        parent=style("fact"),
        leftIndent=width,
        bulletIndent=0,
        bulletFontName=SEMIBOLD if label_bold else REGULAR,
        bulletFontSize=style("fact").fontSize,
        bulletColor=colour("ink" if label_bold else "soft"),
    )


@cache
def rightward() -> ParagraphStyle:
    """The style of the upper right corner."""
    return ParagraphStyle("rightward", parent=style("corner"), alignment=TA_RIGHT)
