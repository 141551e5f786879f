"""How every screen looks: the palette, the sizes, the style sheet made from them. No other module of the window
holds a colour or a size of its own."""

from dataclasses import astuple, dataclass, fields
from functools import cache
from importlib.resources import as_file, files
from string import Template

from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QColor, QFont, QFontDatabase, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication, QWidget

from jobbook.ui.style_text import STYLE

FAMILY = "Source Sans Pro"
UNIT = 8  # pixels; every gap is a multiple or the half of it
SMALL, BODY, LARGE = 13, 15, 21  # pixels of the three text sizes of a desk screen
MARGIN = UNIT * 5 // 2  # round a page
INDEX_WIDTH = 148
LEFT_PAGE_WIDTH = 404
NARROW_PAGE, NARROW_CARD_WIDTH = 1010, 364  # a page that has less than this gives more of it to its list
CARD_WIDTH = 496
FIELD_WIDTH = 320
SHORT_FIELD_WIDTH = 112
DIALOG_WIDTH = 520
SIGNATURE_WIDTH = 480
RECKONER_SIZE = (920, 600)
READABLE_WIDTH = 720
SMALL_PICTURE, SHELF_PLACE = (152, 114), (176, 168)
PICTURE_INKS = {"line": "#000000", "halo": "#FFFFFF"}  # for marks on pictures: seen on any ground, in any scheme
ROW_HEIGHT = 32
WIDEST_COLUMN = 800
LONG_TEXT_HEIGHT = 56
WINDOW_SIZE = (1366, 768)
TITLE_BAR = 40  # pixels that a desktop draws above a window, at most
SMALLEST_WINDOW = (956, 480)  # a screen of 1920 by 1080 at 200 % has 960 by 540, less the window's own edge
MM_IN_AN_INCH = 25.4


@dataclass(frozen=True)
class Palette:
    """The nine named colours of a scheme: three to stand on and rule with, six for text and marks."""

    ground: str
    sheet: str
    ink: str
    soft: str
    rule: str
    bluing: str
    ochre: str
    oxide: str
    patina: str


LIGHT = Palette("#F7F4ED", "#FFFDF8", "#1D262D", "#47525B", "#D6CFBF", "#274A66", "#6B4700", "#8A2B1D", "#1F5A4D")
DARK = Palette("#14191D", "#1E252A", "#ECE7DB", "#B9BDBC", "#3A444B", "#9CC3E0", "#E8B860", "#F2A08F", "#8CCFBE")
SCHEMES = {"light": LIGHT, "dark": DARK}


def _parts(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def mix(base: str, with_: str, percent: int) -> str:
    """The base colour with so many percent of the other in it."""
    mixed = ((a * (100 - percent) + b * percent) // 100 for a, b in zip(_parts(base), _parts(with_), strict=True))
    return "#" + "".join(f"{part:02X}" for part in mixed)


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours as WCAG 2.2 defines it, 1 to 21."""
    brighter, darker = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (brighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    shares = (part / 255 for part in _parts(colour))
    red, green, blue = (s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


WASHED = {"cry": "bluing", "caution": "oxide", "held": "ochre", "kept": "patina"}


def grounds(palette: Palette) -> dict[str, str]:
    """The tinted grounds that are made from the palette, by what stands on them.

    A wash takes the bright hue of the dark scheme in both schemes: on paper it looks like thin water colour.
    """
    base, percent = (palette.sheet, 18) if palette is LIGHT else (palette.ground, 11)
    washed = {name: mix(base, getattr(DARK, hue), percent) for name, hue in WASHED.items()}
    return {
        "index": mix(palette.ground, palette.rule, 34 if palette is LIGHT else 12),
        "card": mix(palette.sheet, palette.ground, 50),
        "chosen": mix(palette.sheet, palette.bluing, 10),
        "hover": mix(palette.sheet, palette.bluing, 5),
        **washed,
    }


def edge(palette: Palette) -> str:
    """The outline of what can be typed into: three to one against what is round it (WCAG 2.2, 1.4.11)."""
    return mix(palette.rule, palette.soft, 55)


def scheme_in_use() -> str:
    """ "light" or "dark": what `dress` set last."""
    application = QApplication.instance()
    return str(application.property("scheme") or "light") if application else "light"


def palette_in_use() -> Palette:
    return SCHEMES[scheme_in_use()]


def colour(role: str) -> QColor:
    """The colour of a role of the drawings ("ink", "bluing", ...) in the scheme that is in use."""
    return QColor(getattr(palette_in_use(), role))


def picture_ink(role: str) -> QColor:
    """The colour of a mark on a picture: its line, or the halo that sets it off."""
    return QColor(PICTURE_INKS[role])


def scheme_of_the_system() -> str:
    dark = QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark
    return "dark" if dark else "light"


def dress(application: QApplication, scheme: str) -> None:
    """Give every window the font, the colours and the style sheet of the scheme, "light" or "dark"."""
    if application.property("scheme") == scheme:
        return
    if application.property("scheme") is None:
        _load_fonts()
        application.setStyle("Fusion")
    application.setProperty("scheme", scheme)
    application.setFont(font(BODY))
    application.setPalette(_qt_palette(SCHEMES[scheme]))
    application.setStyleSheet(style_sheet(SCHEMES[scheme]))


def font(size: int, semibold: bool = False) -> QFont:
    """The house's font in pixels, with tabular figures as this font has them by itself."""
    made = QFont(FAMILY)
    made.setPixelSize(size)
    made.setWeight(QFont.Weight.DemiBold if semibold else QFont.Weight.Normal)
    return made


@cache
def _load_fonts() -> None:
    folder = files("font_source_sans_pro") / "files"
    for face in ("SourceSansPro-Regular.ttf", "SourceSansPro-Semibold.ttf"):
        with as_file(folder / face) as file:
            if QFontDatabase.addApplicationFont(str(file)) < 0:
                raise FileNotFoundError(face)


def _qt_palette(palette: Palette) -> QPalette:
    role = QPalette.ColorRole
    made = QPalette(QColor(palette.ground))
    table = {
        role.Window: palette.ground,
        role.Base: palette.sheet,
        role.AlternateBase: palette.ground,
        role.WindowText: palette.ink,
        role.Text: palette.ink,
        role.ButtonText: palette.ink,
        role.Button: palette.sheet,
        role.ToolTipBase: palette.sheet,
        role.ToolTipText: palette.ink,
        role.PlaceholderText: palette.soft,
        role.Highlight: palette.bluing,
        role.HighlightedText: palette.sheet,
        role.Link: palette.bluing,
    }
    for which, value in table.items():
        made.setColor(which, QColor(value))
    return made


def style_sheet(palette: Palette) -> str:
    """The style sheet of the whole program for one palette."""
    names = dict(zip((f.name for f in fields(palette)), astuple(palette), strict=True))
    tints = {f"on_{name}": value for name, value in grounds(palette).items()}
    pressed = mix(palette.bluing, palette.ink, 25)
    sizes = {"small": SMALL, "body": BODY, "large": LARGE, "unit": UNIT, "half": UNIT // 2, "wide": UNIT * 2}
    return Template(STYLE).substitute(names, **tints, **sizes, pressed=pressed, edge=edge(palette))


def as_role(widget: QWidget, role: str) -> None:
    """Say what a widget is ("title", "soft", "main", ...), which decides how the style sheet dresses it."""
    if widget.property("role") == role:
        return
    widget.setProperty("role", role)
    widget.style().unpolish(widget)
    widget.style().polish(widget)
    QCoreApplication.sendEvent(widget, QEvent(QEvent.Type.StyleChange))  # a frame looks at its padding only then


def px(mm: float, dots_per_inch: float) -> int:
    """Pixels of a length on the screen. A screen that claims less than 70 or more than 400 dots per inch is not
    believed."""
    believed = min(max(dots_per_inch, 70.0), 400.0)
    return round(mm / MM_IN_AN_INCH * believed)
