"""Pictures for tests, drawn here: with a camera's time, turn and place where a test asks for them."""

from functools import lru_cache
from io import BytesIO

from PIL import Image, ImageDraw
from PIL.TiffImagePlugin import IFDRational

MAKE, TURN, CHANGED, EXIF, GPS = 0x010F, 0x0112, 0x0132, 0x8769, 0x8825
TAKEN, OFFSET = 0x9003, 0x9011


@lru_cache(maxsize=64)
def picture(
    colour: str = "grey", size: tuple[int, int] = (320, 240), taken: str = "", turn: int = 0, offset: str = ""
) -> bytes:
    """A JPEG with a white corner at the upper left of its pixels, and the place 51° 30′ N where it has a time."""
    image = Image.new("RGB", size, colour)
    ImageDraw.Draw(image).rectangle((0, 0, size[0] // 4, size[1] // 4), fill="white")
    exif = Image.Exif()
    if turn:
        exif[TURN] = turn
    if taken:
        exif[MAKE] = "a camera"
        inner = exif.get_ifd(EXIF)
        inner[TAKEN] = taken
        if offset:
            inner[OFFSET] = offset
        exif.get_ifd(GPS).update({1: "N", 2: (IFDRational(51), IFDRational(30), IFDRational(0))})
    out = BytesIO()
    image.save(out, "JPEG", exif=exif, quality=90)
    return out.getvalue()


def bomb() -> bytes:
    """A PNG of a few hundred kilobytes that says it has 400 million pixels."""
    out = BytesIO()
    Image.new("1", (20_000, 20_000)).save(out, "PNG")
    return out.getvalue()


def opened(data: bytes) -> Image.Image:
    return Image.open(BytesIO(data))
