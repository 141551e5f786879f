"""How many loose ends of each group fit on the left page; what does not fit is counted, never cut."""

from collections.abc import Callable, Sequence

from jobbook.core.work.model import LooseEnd


def loudest_first(ends: Sequence[LooseEnd]) -> tuple[LooseEnd, ...]:
    """The same loose ends with those to shout about on top, otherwise in their order."""
    return tuple(sorted(ends, key=lambda end: not end.loud))


def fitting(now: Sequence[int], later: Sequence[int], room: int, more: int) -> tuple[int, int]:
    """How many lines of "loose now" and of "still to do" fit into `room` pixels.

    `now` and `later` are the heights of the lines, `more` that of the line "and 5 more". Each group shows at least its
    first line; the first group is filled before the second goes beyond it."""
    least = min(1, len(later))
    loose = _most(len(now), lambda count: _height(now, count, more) + _height(later, least, more) <= room)
    rest = room - _height(now, loose, more)
    return loose, _most(len(later), lambda count: _height(later, count, more) <= rest)


def _height(lines: Sequence[int], count: int, more: int) -> int:
    return sum(lines[:count]) + (more if count < len(lines) else 0)


def _most(length: int, fits: Callable[[int], bool]) -> int:
    return next((count for count in range(length, 0, -1) if fits(count)), min(1, length))
