"""The page round a document: the shop above, the book's witness below, and bytes that are the same every time."""

from collections.abc import Callable, Sequence
from hashlib import md5
from io import BytesIO
from typing import Any

from reportlab.lib.utils import TimeStamp
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, KeepInFrame, PageTemplate, Paragraph

from jobbook.core.record.heads import in_groups
from jobbook.core.written import thousands
from jobbook.paperwork import sheet
from jobbook.paperwork.code import draw_code
from jobbook.paperwork.issue import Head, Issue
from jobbook.paperwork.typed import shown, told, typed

LEGAL = (
    "Figures were read from the documents named beside them. The maker's instructions and local rules come first; "
    "work on restraints and high voltage belongs to people qualified for it."
)
PREVIEW = "PREVIEW"
SHOP_SHARE = 0.6  # of the width; the document and its page number stand in the rest


def witness(head: Head) -> str:
    """The head of the book as its code on the paper says it; `witness_line` says the same for people."""
    return f"jobbook-head/1 book={head.book} entry={head.entry} head={head.head} key={head.key.replace(' ', '')}"


def witness_line(head: Head) -> str:
    named = f"Book {head.book}, key {in_groups(head.key.replace(' ', ''))}, head at entry {thousands(head.entry)}:"
    return f"{named}\n{in_groups(head.head)} · check with: jobbook verify"


def _moment() -> TimeStamp:
    """A fixed moment for the file's dates: the paper's own dates stand on it in words, and no setting moves them."""
    moment = TimeStamp.__new__(TimeStamp)
    moment.t, moment.lt, moment.tzname = 946684800.0, (2000, 1, 1, 0, 0, 0, 5, 1, 0), "UTC"
    moment.YMDhms, moment.dhh, moment.dmm = (2000, 1, 1, 0, 0, 0), 0, 0
    return moment


class _Pages(Canvas):
    """A canvas that holds its pages back until their number is known, so that each says "page x of y"."""

    def __init__(self, *args: Any, finish: Callable[[Canvas, int, int], None], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        document: Any = self.__dict__["_doc"]
        document._timeStamp = _moment()
        document.signature = md5(b"jobbook paper", usedforsecurity=False)
        self._finish = finish
        self._held: list[dict[str, Any]] = []

    def showPage(self) -> None:
        self._held.append(dict(self.__dict__))
        super()._startPage()  # type: ignore[misc]

    def save(self) -> None:
        for number, held in enumerate(self._held, start=1):
            self.__dict__.update(held)
            self._finish(self, number, len(self._held))
            super().showPage()
        super().save()


class _Surround:
    """Header and foot of one document on one size of paper; it lives for one `bound`."""

    def __init__(self, document: str, issue: Issue, head: Head | None, size: str) -> None:
        self.document, self.issue, self.head = document, issue, head
        self.width, self.height = sheet.SIZES[size]
        self.inner = self.width - 2 * sheet.MARGIN
        self.top = (
            self.height
            - sheet.HEAD_TOP
            - max(26.0, min(_natural(self._shop(), self.inner * SHOP_SHARE), self.height / 5))
            - 8
        )
        self.bottom = sheet.FOOT_BOTTOM + sheet.CODE_SIDE + 8

    def _shop(self) -> list[Flowable]:
        wanted = (self.issue.address, self.issue.contact)
        lines = [Paragraph(typed(line), sheet.style("shop-line")) for line in wanted if line.strip()]
        return [Paragraph(told(self.issue.shop), sheet.style("shop")), *lines]

    def draw(self, canvas: Any, number: int, total: int) -> None:
        said = f"{typed(self.document)}<br/>job {told(self.issue.job)} · page {number} of {total}"
        upper, room = self.height - sheet.HEAD_TOP, self.height - sheet.HEAD_TOP - self.top
        _hang(canvas, self._shop(), sheet.MARGIN, upper, self.inner * SHOP_SHARE, room)
        corner = sheet.MARGIN + self.inner * (SHOP_SHARE + 0.02)
        _hang(canvas, [Paragraph(said, sheet.rightward())], corner, upper, self.inner * (0.98 - SHOP_SHARE), room)
        self._rule(canvas, self.top, sheet.THICK)
        self._rule(canvas, self.bottom, sheet.THIN)
        self._foot(canvas)

    def _rule(self, canvas: Any, y: float, width: float) -> None:
        canvas.setStrokeColor(sheet.colour("ink"))
        canvas.setLineWidth(width)
        canvas.line(sheet.MARGIN, y, self.width - sheet.MARGIN, y)

    def _foot(self, canvas: Any) -> None:
        said = [typed(LEGAL)]
        said += [typed(witness_line(self.head))] if self.head else ["A preview: not a paper that left the shop."]
        lines: list[Flowable] = [Paragraph(line, sheet.style("foot")) for line in said]
        _hang(canvas, lines, sheet.MARGIN, self.bottom - 5, self.inner - sheet.CODE_SIDE - 16, sheet.CODE_SIDE)
        if self.head:
            draw_code(canvas, witness(self.head), self.width - sheet.MARGIN - sheet.CODE_SIDE, sheet.FOOT_BOTTOM)

    def preview(self, canvas: Any, _: object) -> None:
        """The mark of a preview, laid under the page's text."""
        if self.head is None:
            canvas.saveState()
            canvas.translate(self.width / 2, self.height / 2)
            canvas.rotate(52)
            canvas.setFillColor(sheet.colour("watermark"))
            canvas.setFont(sheet.SEMIBOLD, 128)
            canvas.drawCentredString(0, -44, PREVIEW)
            canvas.restoreState()


def _natural(parts: Sequence[Flowable], width: float) -> float:
    return float(sum(part.wrap(width, 0)[1] for part in parts))


def _hang(canvas: Any, parts: list[Flowable], x: float, top: float, width: float, room: float) -> None:
    """Draw the parts downward from `top`. What is too long for its room is set smaller, never cut."""
    block = KeepInFrame(width, room, parts, mode="shrink")
    height = block.wrapOn(canvas, width, room)[1]
    block.drawOn(canvas, x, top - height)


def inner_width(size: str) -> float:
    """The width that a story has on this size of paper, in points."""
    return float(sheet.SIZES[size][0] - 2 * sheet.MARGIN)


def bound(story: Sequence[Flowable], document: str, title: str, issue: Issue, head: Head | None, size: str) -> bytes:
    """The story as a document. Without a head it is a preview and marked so on every page."""
    sheet.fonts()
    around = _Surround(document, issue, head, size)
    frame = Frame(sheet.MARGIN, around.bottom + 6, around.inner, around.top - around.bottom - 14, 0, 0, 0, 0, id="text")
    out = BytesIO()
    template = BaseDocTemplate(out, pagesize=sheet.SIZES[size], invariant=1, title=shown(title), subject=document)
    template.author, template.creator = shown(issue.shop), "jobbook"
    template.addPageTemplates(PageTemplate("page", [frame], onPage=around.preview))

    def pages(*args: Any, **kwargs: Any) -> _Pages:
        return _Pages(*args, finish=around.draw, **kwargs)

    template.build(list(story), canvasmaker=pages)
    return out.getvalue()
