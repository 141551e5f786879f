"""What a scanner or an eye read: the same code twice in a moment, and what it was before it was read otherwise.

A scanner is a keyboard. Where it is set to the American layout and the machine to the German one, Y arrives as Z, a
dash as ß, a slash as a dash, and so on; which signs change place follows from the two layouts (ANSI INCITS 154 and DIN
2137, from memory)."""

from dataclasses import dataclass

TWICE_SECONDS = 2.0
# The signs of codes that change place between the two layouts: what the scanner means, and what arrives.
MEANT = "yzYZ-_/+:;"
ARRIVED = "zyZYß?-`Öö"
TO_GERMAN = dict(zip(MEANT, ARRIVED, strict=True))
FROM_GERMAN = dict(zip(ARRIVED, MEANT, strict=True))
TAKEN_FOR = [str.maketrans(one, other) for one, other in (("OoQ", "000"), ("Il", "11"), ("OoQIl", "00011"), ("0", "O"),
             ("1", "I"), ("01", "OI"))]  # fmt: skip


@dataclass
class Repeats:
    """Drops a code that is read again within two seconds, as a trembling hand does."""

    _code: str = ""
    _at: float = -TWICE_SECONDS

    def is_again(self, code: str, at: float) -> bool:
        """Whether this is the code before, read once more; `at` in seconds of any clock that only goes forward."""
        again = code == self._code and at - self._at < TWICE_SECONDS
        self._code, self._at = code, at
        return again


def other_layouts(code: str) -> tuple[str, ...]:
    """What the code may have been before another keyboard layout changed it, without the code itself."""
    ways = ("".join(table.get(sign, sign) for sign in code) for table in (FROM_GERMAN, TO_GERMAN))
    return tuple(dict.fromkeys(way for way in ways if way != code))


def misread(text: str) -> tuple[str, ...]:
    """What a number may be that was read off a worn label: O for nought, I for one, and the other way round. Only where
    letters and digits stand together, so that no name is changed."""
    mixed = any(sign.isdigit() for sign in text) and any(sign.isalpha() for sign in text)
    ways = (text.translate(table) for table in TAKEN_FOR) if mixed else ()
    return tuple(way for way in dict.fromkeys(ways) if way != text)
