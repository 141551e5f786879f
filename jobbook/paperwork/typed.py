"""Whatever a person typed goes through `typed` on its way to a page: nothing breaks it, runs as markup, or vanishes."""

import unicodedata
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from itertools import groupby
from xml.sax.saxutils import escape

from reportlab.platypus import Paragraph

from jobbook.paperwork import sheet

NOT_RECORDED = "not recorded"

# Spaces that the paragraph setter would swallow or break at, set as ordinary or as unbreakable ones.
_SPACES = {"\t": " ", "\u2007": "\u00a0", "\u202f": "\u00a0", "\r\n": "\n", "\r": "\n", "\u2028": "\n", "\u2029": "\n"}


def _evened(text: str) -> str:
    for odd, even in _SPACES.items():
        text = text.replace(odd, even)
    return text


def _missing(character: str) -> bool:
    """Whether no face can show this character: no glyph, a control, an invisible or direction-turning sign."""
    if character in "\n\u00a0 ":
        return False
    return ord(character) not in sheet.fonts() or unicodedata.category(character) in ("Cc", "Cf", "Cs", "Zl", "Zp")


def shown(text: str) -> str:
    """The text with every run of characters that the faces lack written as a named box: [U+4E2D U+6587]."""
    pieces = []
    for lacking, run in groupby(_evened(text), _missing):
        letters = list(run)
        pieces.append("[" + " ".join(f"U+{ord(c):04X}" for c in letters) + "]" if lacking else "".join(letters))
    return "".join(pieces)


def typed(text: str) -> str:
    """The text as markup for a paragraph, with nothing in it that is markup of its own but its line ends."""
    return "<br/>".join(escape(line.strip(" ")) for line in shown(text).split("\n"))


def told(text: str) -> str:
    """`typed`, or "not recorded" where there is nothing: a fact that is missing is never a blank."""
    if text.strip():
        return typed(text)
    return f'<font color="{sheet.colour("soft").hexval().replace("0x", "#")}">{NOT_RECORDED}</font>'


def para(text: str, style: str = "body") -> Paragraph:
    """A paragraph of typed text, or of "not recorded"."""
    return Paragraph(told(text), sheet.style(style))


def missing_in(record: object) -> tuple[str, ...]:
    """The characters anywhere in a record that print as named boxes, in order, so that the person can be told."""
    return tuple(sorted({c for text in texts_of(record) for c in _evened(text) if _missing(c)}))


def texts_of(record: object) -> Iterator[str]:
    """Every text in a record, in the order of its fields."""
    if isinstance(record, str):
        yield record
    elif isinstance(record, tuple):
        for item in record:
            yield from texts_of(item)
    elif is_dataclass(record):
        for field in fields(record):
            yield from texts_of(getattr(record, field.name))
