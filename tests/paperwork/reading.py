"""Reading papers back, as anybody would with a PDF reader."""

from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from io import BytesIO
from typing import Any

from pypdf import PdfReader

from jobbook.paperwork.answers import ANSWERS
from jobbook.paperwork.typed import texts_of

# Words of a closed set, which nobody types; the last stands in for a reading and prints only where there is none.
MARKS = ("ring", "half", "disc", "double", "bar")
FIXED = {*ANSWERS, *MARKS, "FL", "FR", "RL", "RR", "not measured", "estimate"}


def pages(pdf: bytes) -> list[str]:
    return [page.extract_text() for page in PdfReader(BytesIO(pdf), strict=True).pages]


def close(text: str) -> str:
    """The text without any white space: lines break where the page has no more room, even within a word."""
    return "".join(text.split())


def on_paper(pdf: bytes) -> str:
    return close("".join(pages(pdf)))


def typed_texts(record: Any) -> list[str]:
    """Every text of a record that a person may have typed."""
    return [text for text in texts_of(record) if text not in FIXED]


def every_text(record: Any, change: Callable[[str], str]) -> Any:
    """The record with every text that a person may have typed changed."""
    if isinstance(record, str):
        return record if record in FIXED else change(record)
    if isinstance(record, tuple):
        return tuple(every_text(item, change) for item in record)
    if is_dataclass(record) and not isinstance(record, type):
        return replace(record, **{f.name: every_text(getattr(record, f.name), change) for f in fields(record)})
    return record
