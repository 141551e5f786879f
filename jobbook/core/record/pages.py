"""A page of a long list, read by key and never by counting rows."""

from collections.abc import Hashable
from dataclasses import dataclass
from typing import Generic, TypeVar

Row = TypeVar("Row")


@dataclass(frozen=True)
class Page(Generic[Row]):
    """Rows in order and the key to ask for the next page with, or None at the end."""

    rows: tuple[Row, ...]
    next: Hashable = None
