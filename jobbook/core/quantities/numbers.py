"""Typed numbers, read exactly: decimal comma or point, thousands, fractions. Where two people differ, both readings."""

import re
from decimal import Decimal
from fractions import Fraction

from jobbook.core.quantities.typed import turned_away

Number = Decimal | Fraction

MOST_DIGITS = 20

VULGAR = {
    mark: (top, bottom)
    for bottom, marks in ((2, "½"), (3, "⅓⅔"), (4, "¼ ¾"), (5, "⅕⅖⅗⅘"), (6, "⅙   ⅚"), (8, "⅛ ⅜ ⅝ ⅞"))
    for top, mark in enumerate(marks, 1)
    if mark != " "
}

_VULGAR = "".join(VULGAR)

# A space, an apostrophe or a slash belongs to the number only when a digit follows it: 5' is a unit, 1'234 is not.
HEAD = re.compile(rf"[+-]? ?(?:[0-9{_VULGAR}.,]|[ '/](?=[0-9])| (?=[{_VULGAR}]))+")

_SIGNED = re.compile(r"([+-]?) ?(.+)")
_WHOLE = re.compile(r"[0-9]+")
_DECIMAL = re.compile(r"([0-9]+)[.,]([0-9]+)")
_GROUPED = re.compile(r"([1-9][0-9]{0,2}(?:([ '.,])[0-9]{3})(?:\2[0-9]{3})*)(?:([.,])([0-9]+))?")
_FRACTION = re.compile(r"(?:([0-9]+) )?([0-9]+)/([0-9]+)")
_WITH_VULGAR = re.compile(rf"([0-9]+)? ?([{_VULGAR}])")


def readings(text: str) -> tuple[Number, ...]:
    """Return what a tidied number can mean: one value where it is certain, two where it must be asked about.

    A value is a Decimal where it terminates and a Fraction where it does not. Refused: what is no number.
    """
    if sum(c.isdigit() for c in text) > MOST_DIGITS:
        raise turned_away(text, f"it has more than {MOST_DIGITS} digits", "write the figure as the instrument shows it")
    sign, body = _parts(text)
    for read in (_whole, _with_vulgar, _fraction, _grouped_or_decimal):
        found = read(body)
        if found:
            return tuple(_signed(value, sign) for value in found)
    raise turned_away(text, "it cannot be read as one number", "write it like 1234.5, 1234,5 or 15 3/4")


def exact(value: Fraction) -> Number:
    """Return the same value as a Decimal where it terminates, unchanged where it does not."""
    rest, twos, fives = value.denominator, 0, 0
    while rest % 2 == 0:
        rest, twos = rest // 2, twos + 1
    while rest % 5 == 0:
        rest, fives = rest // 5, fives + 1
    if rest != 1:
        return value
    places = max(twos, fives)
    return Decimal(f"{(value * 10**places).numerator}E-{places}")


def _parts(text: str) -> tuple[str, str]:
    match = _SIGNED.fullmatch(text)
    return (match[1], match[2]) if match else ("", text)


def _signed(value: Number, sign: str) -> Number:
    # Decimal arithmetic rounds to the context; copy_negate does not, and a nought keeps no sign.
    if sign != "-" or not value:
        return value
    return value.copy_negate() if isinstance(value, Decimal) else -value


def _whole(body: str) -> tuple[Number, ...]:
    return (Decimal(body),) if _WHOLE.fullmatch(body) else ()


def _with_vulgar(body: str) -> tuple[Number, ...]:
    match = _WITH_VULGAR.fullmatch(body)
    if not match:
        return ()
    return (exact(int(match[1] or 0) + Fraction(*VULGAR[match[2]])),)


def _fraction(body: str) -> tuple[Number, ...]:
    match = _FRACTION.fullmatch(body)
    if not match or not int(match[3]):
        return ()
    top, bottom = int(match[2]), int(match[3])
    if match[1]:
        return (exact(int(match[1]) + Fraction(top, bottom)),) if top < bottom else ()
    return (exact(Fraction(top, bottom)), *_with_the_space_forgotten(match[2], bottom))


def _with_the_space_forgotten(top: str, bottom: int) -> tuple[Number, ...]:
    # 153/4 is 15 3/4 with its space lost more often than it is thirty-eight and a quarter.
    splits = ((int(top[:at]), int(top[at:])) for at in range(len(top) - 1, 0, -1) if top[at] != "0")
    return tuple(exact(whole + Fraction(part, bottom)) for whole, part in splits if whole and part < bottom)[:1]


def _grouped_or_decimal(body: str) -> tuple[Number, ...]:
    grouped, plain = _GROUPED.fullmatch(body), _DECIMAL.fullmatch(body)
    as_decimal = (Decimal(f"{plain[1]}.{plain[2]}"),) if plain else ()
    if not grouped or grouped[3] == grouped[2]:
        return as_decimal
    whole = re.sub(r"[^0-9]", "", grouped[1])
    return (*as_decimal, Decimal(f"{whole}.{grouped[4]}" if grouped[4] else whole))
