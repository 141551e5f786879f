"""The look at typed text before anything is read from it, and the sentences that turn it away."""

import unicodedata

from jobbook.core.errors import Refused

LONGEST = 60

SPACES = "\u00a0\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u3000"
MINUSES = "\u2010\u2011\u2012\u2013\u2212\ufe63\uff0d"
APOSTROPHES = "\u2019\u02bc"
SLASHES = "\u2044\u2215"

_ALIKE = str.maketrans(
    {
        **dict.fromkeys(SPACES, " "),
        **dict.fromkeys(MINUSES, "-"),
        **dict.fromkeys(APOSTROPHES, "'"),
        **dict.fromkeys(SLASHES, "/"),
        "\u201d": '"',
        "\u00b5": "\u03bc",
        "\u00ba": "°",
        "\u02da": "°",
    }
)


def turned_away(text: str, why: str, do: str) -> Refused:
    """Return the refusal of a typed text: it was not taken, why, and what to do instead."""
    return Refused(f"“{shown(text)}” was not taken: {why}; {do}.")


def shown(text: str) -> str:
    """Return the text fit for a sentence: short, and without characters that cannot be seen."""
    plain = "".join(" " if c in SPACES else c if c.isprintable() else "□" for c in text[: LONGEST + 1])
    return plain if len(plain) <= 24 else plain[:23] + "…"


def tidy(text: str) -> str:
    """Return the text with look-alike spaces, minus signs, apostrophes, slashes made one of each.

    Refused: nothing typed, too long, unseen characters, digits of another script. Compatibility forms are never
    folded as a whole, since that turns 15¾ into 153/4.
    """
    stripped = unicodedata.normalize("NFC", text[: LONGEST * 4]).strip(" \t\r\n" + SPACES)
    if not stripped:
        raise Refused("No figure was typed, so none was taken; type a number and its unit.")
    if len(stripped) > LONGEST:
        raise turned_away(stripped, f"it is longer than {LONGEST} characters", "type one figure and its unit")
    for character in stripped:
        _look_at(character, stripped)
    return " ".join(stripped.translate(_ALIKE).split())


def _look_at(character: str, text: str) -> None:
    category = unicodedata.category(character)
    if category in ("Cc", "Cf", "Co", "Cs", "Cn", "Zl", "Zp"):
        raise turned_away(text, "it holds a character that cannot be seen", "type the figure by hand")
    if category == "Nd" and not character.isascii():
        raise turned_away(text, f"“{character}” is a digit of another script", "use the digits 0 to 9")
