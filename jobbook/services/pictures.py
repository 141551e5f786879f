"""Looking into pictures: what one says of itself, its small copy, and the copy that may leave the shop.

Exif 2.3 (CIPA DC-008) names the tags. Every copy is painted anew, so that nothing of the camera's own notes goes along,
least of all the place. Pillow is imported when the first picture is looked at, and with it the reader of HEIC, the form
of many telephones (ISO/IEC 23008-12): there the turn is a property of the picture itself, which comes out upright."""

import re
import struct
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache
from io import BytesIO
from types import MappingProxyType
from typing import TYPE_CHECKING

from jobbook.core.errors import Refused
from jobbook.core.record.files import WHOLE, Mark

if TYPE_CHECKING:
    from PIL.Image import Image

MEDIA: Mapping[str, str] = MappingProxyType(
    {
        "JPEG": "image/jpeg",
        "MPO": "image/jpeg",  # a JPEG with further pictures behind the first
        "PNG": "image/png",
        "TIFF": "image/tiff",
        "WEBP": "image/webp",
        "GIF": "image/gif",
        "BMP": "image/bmp",
        "HEIF": "image/heic",
    }
)
FORMATS = tuple(form for form in MEDIA if form != "MPO")  # that one is found by way of JPEG
BEGINNINGS = (b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n")  # what calls itself a picture and must then be a whole one
HEIC = re.compile(rb"....ftyp(heic|heix|heim|heis|mif1)", re.DOTALL)  # the same for that form
MOST_PIXELS = 125_000_000  # more is a mistake or an attack: one row of a kilobyte can unpack to gigabytes
SMALL, PRINTED = 320, 900  # the longer side of a small picture, and of one on paper, in pixels
TURN, TIME, OFFSET, EXIF, CHANGED = 0x0112, 0x9003, 0x9011, 0x8769, 0x0132
LYING = (5, 6, 7, 8)  # the turns that exchange width and height
BROKEN = (OSError, SyntaxError, ValueError, EOFError, LookupError, TypeError, ArithmeticError, RuntimeError,
          struct.error, Warning)  # fmt: skip
LINE, HALO, PAPER = (0, 0, 0), (255, 255, 255), (255, 255, 255)  # readable on any picture and in black and white


@dataclass(frozen=True)
class Looked:
    """What a picture says of itself: its size as it is held upright, when it was taken, its turn, its small copy."""

    media: str
    width: int
    height: int
    taken_at: str
    turn: int
    small: bytes


def look_into(data: bytes, name: str) -> Looked | None:
    """What a picture says of itself; None for what is no picture. Refused where it is damaged or far too large."""
    with _opened(data, name) as image:
        if image is None:
            return None
        taken_at, turn = _told(image)
        lies = turn in LYING and image.format != "HEIF"
        width, height = image.size[::-1] if lies else image.size
        media = MEDIA[image.format or "JPEG"]
        return Looked(media, width, height, taken_at, turn, _jpeg(_upright(image, SMALL), 80))


def upright(data: bytes, name: str, longest: int) -> bytes:
    """The picture as it is held, as a JPEG whose longer side has at most so many pixels."""
    with _opened(data, name) as image:
        if image is None:
            raise Refused(f"“{name}” is no picture that can be shown here; open it with another program.")
        return _jpeg(_upright(image, longest), 88)


def copy_to_leave(data: bytes, name: str, marks: Sequence[Mark], longest: int = 0) -> bytes:
    """A JPEG that may leave the shop: upright, nothing of the camera's notes, covered what is covered, marks drawn.

    `longest`: the pixels of its longer side; 0 keeps the size that it has."""
    with _opened(data, name) as image:
        if image is None:
            raise Refused(f"“{name}” is no picture, so nothing can be taken out of it; nothing was copied.")
        painted = _upright(image, longest or max(image.size))
        _draw(painted, marks)
        return _jpeg(painted, 90)


@contextmanager
def _opened(data: bytes, name: str) -> Iterator["Image | None"]:
    from PIL import Image, UnidentifiedImageError

    _made_ready()
    try:
        with Image.open(BytesIO(data), formats=FORMATS) as image:
            if image.width * image.height > MOST_PIXELS:
                raise Image.DecompressionBombError
            yield image
    except (Image.DecompressionBombError, Image.DecompressionBombWarning, MemoryError) as error:
        raise Refused(
            f"“{name}” was not kept: it would unpack to more than {MOST_PIXELS // 1_000_000} megapixels. "
            "Take a smaller copy of it."
        ) from error
    except UnidentifiedImageError as error:
        if data.startswith(BEGINNINGS) or HEIC.match(data):
            raise _damaged(name) from error
        yield None
    except BROKEN as error:
        raise _damaged(name) from error


@lru_cache(maxsize=1)
def _made_ready() -> None:
    from pi_heif import register_heif_opener  # type: ignore[import-untyped]
    from PIL import Image

    Image.MAX_IMAGE_PIXELS = MOST_PIXELS
    register_heif_opener(thumbnails=False)


def _damaged(name: str) -> Refused:
    return Refused(f"“{name}” was not kept: the picture is damaged or breaks off. Copy it from the camera again.")


def _told(image: "Image") -> tuple[str, int]:
    """When it was taken and its turn, as far as the camera wrote either legibly."""
    try:
        exif = image.getexif()
        inner = exif.get_ifd(EXIF)
        turn = image.info.get("original_orientation") or exif.get(TURN, 0)
        return _time(str(inner.get(TIME) or exif.get(CHANGED) or ""), str(inner.get(OFFSET) or "")), (
            turn if turn in range(1, 9) else 0
        )
    except BROKEN:
        return "", 0


def _time(text: str, offset: str) -> str:
    found = re.match(r"(\d{4}):(\d\d):(\d\d) (\d\d:\d\d:\d\d)", text)
    zone = offset if re.fullmatch(r"[+-]\d\d:\d\d", offset) else ""
    try:
        return datetime.fromisoformat(f"{found[1]}-{found[2]}-{found[3]}T{found[4]}{zone}").isoformat() if found else ""
    except ValueError:
        return ""


def _upright(image: "Image", longest: int) -> "Image":
    """A new picture, painted from this one: it has pixels and nothing else."""
    from PIL import Image, ImageOps

    image.thumbnail((longest, longest), Image.Resampling.LANCZOS if longest > SMALL else Image.Resampling.BICUBIC)
    turned = ImageOps.exif_transpose(image)
    seen = turned.convert("RGBA") if turned.mode in ("P", "LA", "RGBA", "PA") else turned.convert("RGB")
    painted = Image.new("RGB", seen.size, PAPER)
    painted.paste(seen, mask=seen.getchannel("A") if seen.mode == "RGBA" else None)
    return painted


def _jpeg(image: "Image", quality: int) -> bytes:
    out = BytesIO()
    image.save(out, "JPEG", quality=quality)
    return out.getvalue()


def _draw(image: "Image", marks: Sequence[Mark]) -> None:
    from PIL import ImageDraw

    draw, line = ImageDraw.Draw(image), max(2, max(image.size) // 300)
    for mark in sorted(marks, key=lambda one: one.shape != "cover"):
        x1, x2 = (place * (image.width - 1) // WHOLE for place in (mark.x1, mark.x2))
        y1, y2 = (place * (image.height - 1) // WHOLE for place in (mark.y1, mark.y2))
        box = (min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))
        if mark.shape == "cover":
            draw.rectangle(box, fill=LINE)
        for ink, width in ((HALO, line * 2), (LINE, line)) if mark.shape != "cover" else ():
            if mark.shape == "ring":
                draw.ellipse(box, outline=ink, width=width)
            for start, end in arrow_lines(x1, y1, x2, y2) if mark.shape == "arrow" else ():
                draw.line((*start, *end), fill=ink, width=width)


def arrow_lines(x1: float, y1: float, x2: float, y2: float) -> tuple[tuple[tuple[float, float], ...], ...]:
    """The three lines of an arrow that points to the second place."""
    back = 0.25
    dx, dy = (x1 - x2) * back, (y1 - y2) * back
    left, right = (x2 + dx + dy / 2, y2 + dy - dx / 2), (x2 + dx - dy / 2, y2 + dy + dx / 2)
    return (((x1, y1), (x2, y2)), ((x2, y2), left), ((x2, y2), right))
