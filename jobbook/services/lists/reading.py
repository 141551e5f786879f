"""A list read from a file: comma-separated text of any common spelling, or the first sheet of a workbook.

What a file is, is seen by its bytes and not by its name. How it was read is said, so that somebody can object."""

import csv
import io
import zipfile
import zlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from jobbook.core.errors import Unreadable

MOST_BYTES = 100_000_000
MOST_UNPACKED = 1_000_000_000
MOST_ROWS = 200_000
MOST_COLUMNS = 200
LONGEST_CELL = 32_767  # that of a spreadsheet
SEPARATORS = {",": "commas", ";": "semicolons", "\t": "tabs"}
MARKS = ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"))
WORKBOOK, OLD_WORKBOOK = b"PK\x03\x04", b"\xd0\xcf\x11\xe0"

Cells = tuple[str, ...]


@dataclass(frozen=True)
class Listed:
    """A list as it stands in its file: each row with its number there, the headings being row `heading_row`."""

    name: str
    digest: str
    how: str
    headings: Cells
    rows: tuple[tuple[int, Cells], ...]


def read_list(file: Path) -> Listed:
    """Read a list. Raises Unreadable."""
    if not file.is_file():
        raise Unreadable(f"{file} is no file that can be read: nothing was taken in. Look at the name.")
    if file.stat().st_size > MOST_BYTES:
        raise Unreadable(f"{file.name} is larger than {MOST_BYTES // 1_000_000} MB: nothing was taken in. Divide it.")
    data = file.read_bytes()
    if data.startswith(OLD_WORKBOOK):
        raise Unreadable(f"{file.name} is a workbook of the old form: nothing was taken in. Save it as XLSX or CSV.")
    how, rows = _from_workbook(file.name, data) if data.startswith(WORKBOOK) else _from_text(file.name, data)
    first = next((place for place, (_, cells) in enumerate(rows) if any(cell.strip() for cell in cells)), None)
    if first is None:
        raise Unreadable(f"{file.name} holds no row: nothing was taken in. Its first row must be the headings.")
    headings = _without_tail(rows[first][1])
    filled = tuple((number, cells) for number, cells in rows[first + 1 :] if any(cell.strip() for cell in cells))
    return Listed(file.name, sha256(data).hexdigest(), how, headings, filled)


def _without_tail(cells: Cells) -> Cells:
    last = max(place for place, cell in enumerate(cells) if cell.strip())
    return tuple(" ".join(cell.split()) for cell in cells[: last + 1])


def _from_text(name: str, data: bytes) -> tuple[str, list[tuple[int, Cells]]]:
    text, spelling = _decoded(name, data)
    separator = _separator(text)
    try:
        # Strict, so that a quotation mark that is never closed does not swallow the rest of the file unseen.
        rows = _looked_at(name, csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True))
    except csv.Error as error:
        raise Unreadable(
            f"{name} is no list that can be read ({error}): nothing was taken in. "
            "Look for a quotation mark that is not closed, or save it again as CSV."
        ) from error
    return f"{spelling}, separated by {SEPARATORS[separator]}", rows


def _decoded(name: str, data: bytes) -> tuple[str, str]:
    """The text and the name of its spelling: by its mark, as UTF-8, or else as Western Windows writes it."""
    marked = next((spelling for mark, spelling in MARKS if data.startswith(mark)), None)
    for spelling in (marked,) if marked else ("utf-8", "cp1252"):
        try:
            text = data.decode(spelling)
        except UnicodeDecodeError:
            continue
        if "\0" not in text:
            return text, {"utf-8-sig": "UTF-8", "utf-8": "UTF-8", "cp1252": "Windows-1252"}.get(spelling, "UTF-16")
    raise Unreadable(f"{name} is no text and no workbook: nothing was taken in. Save the list as CSV or XLSX.")


def _separator(text: str) -> str:
    """Whichever parts the first filled line into most columns."""
    line = next((line for line in text.splitlines() if line.strip()), "")
    return max(SEPARATORS, key=lambda sign: len(next(csv.reader([line], delimiter=sign), [])))


def _looked_at(name: str, rows: Iterable[Sequence[str]]) -> list[tuple[int, Cells]]:
    kept: list[tuple[int, Cells]] = []
    for number, cells in enumerate(rows, 1):
        if len(cells) > MOST_COLUMNS or any(len(cell) > LONGEST_CELL for cell in cells):
            raise Unreadable(f"Row {number} of {name} is too long to be one of a list: nothing was taken in.")
        if len(kept) >= MOST_ROWS:
            raise Unreadable(f"{name} has more than {MOST_ROWS} rows: nothing was taken in. Divide it.")
        kept.append((number, tuple(cells)))
    return kept


def _from_workbook(name: str, data: bytes) -> tuple[str, list[tuple[int, Cells]]]:
    import warnings

    from openpyxl import load_workbook

    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            if sum(one.file_size for one in packed.infolist()) > MOST_UNPACKED:
                raise Unreadable(f"{name} is too large when it is unpacked: nothing was taken in. Save it as CSV.")
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of looks and rules in the sheet, which mean nothing here
            book = load_workbook(io.BytesIO(data), read_only=True, data_only=True)
            sheet = next(one for one in book.worksheets if one.sheet_state == "visible")
            sheet.reset_dimensions()  # what is written there is not always so
            rows = _looked_at(name, (_cells(row) for row in sheet.iter_rows(values_only=True)))
    except (OSError, SyntaxError, ValueError, KeyError, TypeError, AttributeError, IndexError, StopIteration,
            zipfile.BadZipFile, zlib.error, EOFError) as error:  # fmt: skip
        raise Unreadable(f"{name} is no workbook that can be read: nothing was taken in. Save it as CSV.") from error
    others = f", the first of {len(book.worksheets)} sheets" if len(book.worksheets) > 1 else ""
    return f"sheet “{sheet.title}”{others}", rows


def _cells(row: Sequence[object]) -> Cells:
    texts = [_as_text(value) for value in row]
    while texts and not texts[-1]:
        texts.pop()
    return tuple(texts)


def _as_text(value: object) -> str:
    """A cell of a workbook as text; a whole number has no point, a date is a day."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return str(int(value)) if value.is_integer() and abs(value) < 1e15 else repr(value)
    isoformat = getattr(value, "isoformat", None)
    return str(isoformat())[:10] if isoformat is not None else str(value)
