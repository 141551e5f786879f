"""A scanned code told for what it is, before anything is done with it: a badge, or something that the book knows."""

from dataclasses import dataclass

from jobbook.core.errors import BookError
from jobbook.core.labels import Label, read_label
from jobbook.core.people import Person
from jobbook.core.scans import other_layouts
from jobbook.services.house.people import by_badge
from jobbook.services.office.finding import Finds, find_exactly
from jobbook.services.opened import OpenBook

NOTHING = Finds()


@dataclass(frozen=True)
class Scan:
    """What was read. `code` is what the book knows, `read` what arrived; they differ where the keyboards do.

    `person` is whose badge it is; `label` what stands on the label of a part; `finds` what else in the book bears the
    code."""

    code: str
    read: str
    person: Person | None = None
    finds: Finds = NOTHING
    label: Label | None = None

    @property
    def is_known(self) -> bool:
        return self.person is not None or len(self.finds) > 0

    @property
    def is_of_use(self) -> bool:
        return self.is_known or self.label is not None

    @property
    def is_something_else(self) -> bool:
        """Whether the code is the number of something that no field of a part's number or serial means."""
        found = self.finds
        return bool(found.tools or found.jobs or found.vehicles) and not (found.parts or found.pieces)

    @property
    def best(self) -> str:
        """What of it goes into a single field."""
        return self.label.serial or self.label.batch or self.item if self.label is not None else self.code

    @property
    def item(self) -> str:
        """The number of the item on a label, as the shop knows it where it does."""
        return self.finds.parts[0].number if self.finds.parts else self.label.item if self.label else ""

    @property
    def other_keyboard(self) -> bool:
        return self.code != self.read


def read_scan(book: OpenBook, code: str) -> Scan:
    """Look the code up as it arrived, then as another keyboard layout may have changed it."""
    label = read_label(code)
    if label is not None:
        return Scan(label.written, label.written, finds=find_exactly(book, code), label=label)
    ways = (code, *other_layouts(code))
    scans = (_known(book, way, code) for way in ways)
    return next((scan for scan in scans if scan.is_known), Scan(code, code))


def _known(book: OpenBook, code: str, read: str) -> Scan:
    try:
        person = by_badge(book, code)
    except BookError:  # nobody's, or one of somebody who has left
        person = None
    return Scan(code, read, person, NOTHING if person is not None else find_exactly(book, code))


def scan_words(scan: Scan) -> str:
    """What was read, in one sentence."""
    finds = scan.finds
    if scan.label is not None:
        return _label_words(scan.label, finds)
    if scan.person is not None:
        said = f"the badge of {scan.person.name}"
    elif finds.tools:
        said = f"tool {finds.tools[0].number}, {finds.tools[0].kind}"
    elif finds.pieces:
        piece = finds.pieces[0]
        said = f"{scan.code}, {piece.title}, {piece.state} on job {piece.job}"
    elif finds.parts:
        said = f"{finds.parts[0].number}, {finds.parts[0].title}"
    elif finds.vehicles:
        said = f"{finds.vehicles[0].title}, {finds.vehicles[0].plate or 'no plate'}"
    elif finds.jobs:
        said = f"job {finds.jobs[0].number}, {finds.jobs[0].vehicle}"
    else:
        return f"Read: {scan.read}. Nothing in the book bears this code."
    doubt = f" It arrived as “{scan.read}”: set the scanner to this machine's keyboard." if scan.other_keyboard else ""
    return f"Read: {said}.{doubt}"


def _label_words(label: Label, finds: Finds) -> str:
    """All that stands on the label; then what of it the book knows."""
    known = [f"{finds.parts[0].title}, {finds.parts[0].number}"] if finds.parts else []
    pieces = finds.pieces if label.serial else ()
    known += [f"{pieces[0].state} on job {pieces[0].job} already"] if pieces else []
    said = f"Read from the label: {label.words}"
    return " ".join(filter(None, (f"{said} ({'; '.join(known)})." if known else f"{said}.", label.doubt)))
