"""The shop's own rules: common practice where it says nothing, and refused where they contradict each other."""

from decimal import Decimal
from fractions import Fraction

import pytest

from jobbook.core.errors import Refused
from jobbook.core.figures.leakdown import USUAL
from jobbook.core.measured.practice import RULES, practice_of, read_practice


def test_where_the_shop_says_nothing_common_practice_holds():
    practice = practice_of({})
    assert practice.stand == USUAL
    assert (practice.side_ask_mm, practice.side_defect_mm) == (10, 15)


def test_what_the_shop_says_holds_and_only_that_is_kept():
    typed = {rule.key: rule.default for rule in RULES} | {"leak": "12,5", "shortest": "90 min", "single": "1/16 in"}
    kept = read_practice(typed)
    assert kept == {"leak": "12.5", "shortest": "1.5", "single": "1.5875"}
    practice = practice_of(kept)
    assert (practice.stand.leak_mm, practice.stand.shortest_h) == (Fraction("12.5"), Fraction("1.5"))
    assert practice.single_mm == Decimal("1.5875")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"leak": "4"}, "which is less"),
        ({"side_ask": "20 mm"}, "which is less"),
        ({"leak": "soon"}, "more than this is a leak"),
        ({"leak": "10 bar"}, "more than this is a leak"),
        ({"normal": "0"}, "more than nothing"),
        ({"apart": "-3"}, "more than nothing"),
    ],
)
def test_rules_that_cannot_be_are_refused_by_their_words(typed, said):
    with pytest.raises(Refused, match=said) as refused:
        read_practice(typed)
    assert str(refused.value).startswith("Nothing was changed")
