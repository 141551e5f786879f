"""The handover paper, beside plain reportlab that draws as many pages with the same lines."""

from io import BytesIO
from pathlib import Path

from pypdf import PdfReader
from reportlab.lib.pagesizes import A4
from reportlab.pdfgen.canvas import Canvas

from jobbook.paperwork import sheet
from jobbook.services import papers
from jobbook.services.opened import open_book
from tests.bench.timing import Measured, Sizes, by_turns

JOB, KIND = 1, "handover"
TYPE, LEADING, LEFT, TOP = 9, 11, 40, 800


def printing(place: Path, sizes: Sizes) -> tuple[Measured, ...]:
    """From the book to the bytes, with the replay of the job; and the bytes of the same words alone."""
    book = open_book(place)
    pages = lines_of(papers.preview(book, JOB, KIND))
    took = by_turns(lambda: papers.preview(book, JOB, KIND), lambda: drawn(pages), sizes.times)
    book.close()
    lines = sum(len(page) for page in pages)
    what = f"handover paper of {len(pages)} pages, {lines} lines, from the book to the bytes"
    return (Measured(what, *took, "plain reportlab: the same pages, lines and type"),)


def lines_of(pdf: bytes) -> list[list[str]]:
    pages = [page.extract_text().splitlines() for page in PdfReader(BytesIO(pdf)).pages]
    if not all(pages):
        raise ValueError("a page of the paper holds no text, so there is nothing to draw beside it")
    return pages


def drawn(pages: list[list[str]]) -> bytes:
    sheet.fonts()
    out = BytesIO()
    canvas = Canvas(out, pagesize=A4, invariant=1)
    for page in pages:
        canvas.setFont(sheet.REGULAR, TYPE)
        for number, words in enumerate(page):
            canvas.drawString(LEFT, TOP - number * LEADING, words)
        canvas.showPage()
    canvas.save()
    return out.getvalue()
