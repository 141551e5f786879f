"""Plain figures are read by a short way; it comes to the same as the long one, which asks where it must."""

from fractions import Fraction

from hypothesis import example, given
from hypothesis import strategies as st

from jobbook.core.errors import Refused
from jobbook.core.figures.given import measured
from jobbook.core.figures.partlife import part_life
from jobbook.core.figures.written import asked, certain, measured_plainly
from jobbook.core.quantities import KINDS
from jobbook.core.quantities.units import SPELLED

SPELLINGS = sorted({spelling for kind in KINDS for spelling in SPELLED[kind]} | {"", "m", "F", "lb", "kg", "x", "MM"})
NUMBERS = st.from_regex(r"[+-]?[0-9]{1,12}([.,][0-9]{1,6})?", fullmatch=True)
TYPED = st.builds("{}{}{}".format, NUMBERS, st.sampled_from(["", " ", "  "]), st.sampled_from(SPELLINGS))


def said(read, *given):
    """What a reader makes of it, with the unit and the text it stood in; or why not."""
    try:
        found = read(*given)
    except Refused as refused:
        return str(refused)
    return found.kind, found.amount, found.unit, found.typed


@given(TYPED, st.sampled_from(KINDS))
@example("1.234 mm", "length")
@example("007.50 bar", "pressure")
@example("0.4", "ratio")
def test_the_short_way_comes_to_the_same_as_the_long_one(text, kind):
    default = "1" if kind == "ratio" else None
    assert said(certain, text, kind, default) == said(asked, text, kind, default)


@given(TYPED)
def test_a_figure_of_whatever_kind_is_the_first_kind_that_the_long_way_finds(text):
    plain = measured_plainly(text)
    if plain is not None:
        found = (said(asked, text, kind, "1" if kind == "ratio" else None) for kind in ("ratio", *KINDS))
        assert next(one for one in found if isinstance(one, tuple)) == said(measured, text)


def test_durations_of_unlike_fractions_are_ordered_exactly():
    # 1/3 lies above 0.333 333 333 and below 0.333 333 334: with a death at each, a third lives on past the second.
    durations = (Fraction(333_333_333, 10**9), Fraction(1, 3), Fraction(333_333_334, 10**9))
    assert part_life(durations, (True, True, True), Fraction(1, 3)).survival == Fraction(1, 3)
