"""What a scanner read: the same code twice in a moment, and a code that another keyboard layout made of it.

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
