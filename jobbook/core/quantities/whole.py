"""Whole numbers of things that are counted or numbered, as they are typed."""

MOST_DIGITS = 18


def whole_number(typed: str, most: int = 10**9, least: int = 0) -> int | None:
    """The number that was typed in plain digits, within its bounds; None for everything else, nothing typed too."""
    text = typed.strip()
    if not (text.isascii() and text.isdigit() and len(text) <= MOST_DIGITS):
        return None
    number = int(text)
    return number if least <= number <= most else None
