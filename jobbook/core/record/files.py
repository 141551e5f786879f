"""Pictures and files of a job: what they are, where they belong, and what their camera says of the time."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from jobbook.core.vehicle.ownership import day_words

WHATS = ("picture", "scan report", "alignment sheet", "signature", "document")
SHAPES = ("arrow", "ring", "cover")
WHOLE = 10_000  # a mark's places are counted in so many parts of the upright picture's width and height
AHEAD = timedelta(minutes=10)  # a camera may be so much ahead of this machine before it is said


@dataclass(frozen=True)
class Mark:
    """An arrow (from, to), a ring or a cover (two corners of what it goes round or hides), beside the original."""

    shape: str
    x1: int
    y1: int
    x2: int
    y2: int


@dataclass(frozen=True)
class KeptFile:
    """One file of a job. `entry` names it; `name` is None where it was erased.

    `taken_at`: by its camera, with a zone only where the camera wrote one. `turn`: the camera's own number for how it
    was held (1 to 8, 0 where it says nothing). `to`: what it belongs to, "" while nobody has said."""

    entry: int
    digest: str
    size: int
    name: str | None
    media: str
    what: str
    at: str
    by: str
    job: int = 0
    taken_at: str = ""
    turn: int = 0
    width: int = 0
    height: int = 0
    to: str = ""
    chosen: bool = False  # shown in the evidence
    marks: tuple[Mark, ...] = ()
    erased_at: str = ""  # when its bytes were erased, by whom and why; "" while they are there
    erased_by: str = ""
    erased_why: str = ""

    @property
    def is_picture(self) -> bool:
        return self.width > 0

    @property
    def is_erased(self) -> bool:
        """Whether its bytes are gone for good; the digest and everything said of it stay."""
        return bool(self.erased_at)

    @property
    def called(self) -> str:
        """What people call it: its name, or what it is where the name was erased or never given."""
        return self.name or f"{self.what} {self.entry}"


@dataclass(frozen=True)
class Erasing:
    """That the bytes of a file were erased for good: `by` is a name, `entry` says so in the journal."""

    digest: str
    entry: int
    at: str
    by: str
    why: str

    @property
    def words(self) -> str:
        """“The file 2c40d70ca8d5 was erased on 25 Nov 2026 by Imke Tolland, entry 552: asked for …”."""
        said = f"was erased on {day_words(self.at)} by {self.by}, entry {self.entry}: {self.why}"
        return f"The file {self.digest[:12]} {said}"


def camera_words(taken_at: str, opened_at: str, added_at: str) -> str:
    """What is odd about a camera's time: "" where it fits between the day the job was opened and its arrival here.

    A camera's time is never put right, since it is part of the original."""
    if not taken_at:
        return "no camera time"
    taken, opened, added = (datetime.fromisoformat(text) for text in (taken_at, opened_at, added_at))
    if taken.tzinfo is None:
        taken = taken.replace(tzinfo=added.tzinfo)
    if taken > added + AHEAD:
        return "camera time differs: it is ahead"
    if taken.astimezone(opened.tzinfo).date() < opened.date():
        return "camera time differs: before the job"
    return ""


def look_at_marks(marks: tuple[Mark, ...]) -> bool:
    """Whether every mark has a known shape and lies within the picture."""
    return all(
        one.shape in SHAPES and all(0 <= place <= WHOLE for place in (one.x1, one.y1, one.x2, one.y2)) for one in marks
    )
