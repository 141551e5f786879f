"""The files of a job: each with the digest by which it can be told, and small pictures of those that were chosen."""

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO

from reportlab.platypus import Flowable, Image, KeepTogether, Table

from jobbook.paperwork import sheet
from jobbook.paperwork.blocks import ruled, section
from jobbook.paperwork.typed import para

BESIDE = 3  # so many pictures stand side by side
TALLEST = 1.2  # times the width of a picture's place; a taller one is set narrower


@dataclass(frozen=True)
class FileRow:
    """One file: its name, what it is, what it belongs to, when it was taken or kept, and its SHA-256 in hex."""

    name: str
    what: str
    belongs: str = ""
    when: str = ""
    digest: str = ""


@dataclass(frozen=True)
class Picture:
    """A picture to show, as a JPEG that may leave the shop; without one its caption says why."""

    caption: str
    jpeg: bytes = b""


def files_table(files: Sequence[FileRow], width: float) -> list[Flowable]:
    """Nothing where the job has no files."""
    heads = ("File", "What it is", "Belongs to", "Taken, kept", "SHA-256 of the original")
    half = sheet.DIGEST_HALF
    rows = [(f.name, f.what, f.belongs, f.when, f"{f.digest[:half]}\n{f.digest[half:]}") for f in files]
    return ruled("Files kept with this job", heads, (20, 11, 19, 20, 30), rows, width) if rows else []


def pictures_block(pictures: Sequence[Picture], width: float) -> list[Flowable]:
    """The chosen pictures in rows; a row stays whole."""
    each = (width - sheet.GUTTER * (BESIDE - 1)) / BESIDE
    rows = [pictures[start : start + BESIDE] for start in range(0, len(pictures), BESIDE)]
    content = [KeepTogether([_row(row, each)]) for row in rows]
    return section("Pictures", width, content) if content else []


def _row(pictures: Sequence[Picture], each: float) -> Table:
    cells: list[list[Flowable]] = [_cell(one, each) for one in pictures] + [[]] * (BESIDE - len(pictures))
    spread = [cell for pair in zip(cells, [""] * BESIDE, strict=True) for cell in pair][:-1]
    table = Table([spread], colWidths=[each, sheet.GUTTER] * (BESIDE - 1) + [each])
    table.setStyle([("LEFTPADDING", (0, 0), (-1, -1), 0), ("RIGHTPADDING", (0, 0), (-1, -1), 0),
                    ("VALIGN", (0, 0), (-1, -1), "TOP")])  # fmt: skip
    return table


def _cell(picture: Picture, each: float) -> list[Flowable]:
    caption = para(picture.caption, "note")
    if not picture.jpeg:
        return [caption]
    return [Image(BytesIO(picture.jpeg), each, each * TALLEST, kind="proportional", hAlign="LEFT"), caption]
