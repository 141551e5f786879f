"""The look: contrast after WCAG 2.2, success criterion 1.4.6 (7:1), sizes on a screen, and its one place."""

import re
from pathlib import Path

import pytest
from PySide6.QtGui import QFontInfo

from jobbook.ui import look

TEXTS = ("ink", "soft", "bluing", "ochre", "oxide", "patina")
ON_A_WASH = {
    "index": ("ink", "bluing"),
    "card": TEXTS,
    "chosen": ("ink",),
    "hover": ("ink", "soft", "bluing"),
    "cry": ("ink", "bluing"),
    "caution": ("ink", "oxide"),
    "held": ("ink", "ochre"),
    "kept": ("ink", "patina"),
}
STANDS_ON = [
    (scheme, text, ground)
    for scheme in look.SCHEMES
    for ground, texts in {"ground": TEXTS, "sheet": TEXTS, **ON_A_WASH}.items()
    for text in texts
]


@pytest.mark.parametrize(("one", "other", "ratio"), [("#000000", "#FFFFFF", 21.0), ("#777777", "#FFFFFF", 4.48)])
def test_contrast_is_reckoned_as_the_accessibility_guidelines_do(one, other, ratio):
    """21:1 is the largest ratio that WCAG 2.2 names; 4.48 for #777777 on white is the well-known near miss of 4.5:1
    (both from memory of the guideline and its notes)."""
    assert look.contrast(one, other) == pytest.approx(ratio, abs=0.01)


@pytest.mark.parametrize(("scheme", "text", "ground"), STANDS_ON)
def test_every_text_reaches_seven_to_one_on_what_it_stands_on(scheme, text, ground):
    palette = look.SCHEMES[scheme]
    behind = getattr(palette, ground, None) or look.grounds(palette)[ground]
    assert look.contrast(getattr(palette, text), behind) >= 7.0


@pytest.mark.parametrize("scheme", look.SCHEMES)
def test_the_words_on_a_main_button_reach_seven_to_one(scheme):
    palette = look.SCHEMES[scheme]
    assert look.contrast(palette.sheet, palette.bluing) >= 7.0
    assert look.contrast(palette.sheet, look.mix(palette.bluing, palette.ink, 25)) >= 7.0


@pytest.mark.parametrize("scheme", look.SCHEMES)
@pytest.mark.parametrize("ground", ["ground", "sheet"])
def test_the_outline_of_a_field_reaches_three_to_one(scheme, ground):
    """WCAG 2.2, success criterion 1.4.11."""
    palette = look.SCHEMES[scheme]
    assert look.contrast(look.edge(palette), getattr(palette, ground)) >= 3.0


def test_a_length_on_the_screen_follows_its_dots_per_inch_within_what_can_be_believed():
    assert look.px(25.4, 96) == 96
    assert look.px(25.4, 10) == 70
    assert look.px(25.4, 4000) == 400
    assert look.px(85.6, 96) == 324  # 85.60 mm: the width of a bank card, ISO/IEC 7810 ID-1


def test_the_style_sheet_leaves_no_name_unfilled():
    for palette in look.SCHEMES.values():
        assert "$" not in look.style_sheet(palette)


def test_the_house_font_is_there_in_both_weights(dressed):
    regular, semibold = QFontInfo(look.font(look.BODY)), QFontInfo(look.font(look.BODY, semibold=True))
    assert regular.family() == semibold.family() == look.FAMILY
    assert regular.weight() < semibold.weight()


def test_no_colour_stands_anywhere_but_in_the_look():
    folder = Path(look.__file__).parent
    literal = re.compile(r"#[0-9A-Fa-f]{6}\b|QColor\(\s*[\d\"']|GlobalColor\.(?!transparent)")
    found = [
        f"{file.relative_to(folder)}: {line.strip()}"
        for file in sorted(folder.rglob("*.py"))
        if file.name != "look.py"
        for line in file.read_text().splitlines()
        if literal.search(line)
    ]
    assert found == []


def test_no_length_in_pixels_is_written_into_a_page():
    """Sizes come from the look: a page passes no bare number over 3 to what sets a size,
    a margin or a gap; a multiple or a fraction of the look's unit is how to say it."""
    folder = Path(look.__file__).parent
    sizing = re.compile(
        r"(set(Fixed|Minimum|Maximum)(Size|Width|Height)|setContentsMargins|set\w*Spacing|addSpacing|resize|setPixelSize)"
        r"\([^)]*(?<![*/] )(?<!\.)\b([4-9]|\d\d+)\b"
    )
    found = [
        f"{file.relative_to(folder)}: {line.strip()}"
        for file in sorted(folder.rglob("*.py"))
        if file.name not in ("look.py", "style_text.py")
        for line in file.read_text().splitlines()
        if sizing.search(line)
    ]
    assert found == []
