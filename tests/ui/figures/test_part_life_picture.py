"""The picture beside the reckoner's part life."""

from jobbook.services.measured.reckoning import reckon
from jobbook.ui.figures.pictures import picture


def test_part_life_is_drawn_with_its_limits_and_the_numbers_still_watched():
    given = {"durations": "6 7 10 13", "failed": "1 0 1 0"}
    drawn = picture("part-life", given, reckon("part-life", given))
    assert drawn.words == (
        "Share of parts that still work, in the unit of the durations; they: 4 parts, 38 % still work at the end"
    )


def test_two_suppliers_are_drawn_beside_each_other_and_nothing_before_there_is_a_result():
    given = {"first": "6 7+ 10 13+", "second": "1 2 3+ 9"}
    drawn = picture("part-life-compare", given, reckon("part-life-compare", given))
    assert "first: 4 parts" in drawn.words
    assert "second: 4 parts" in drawn.words
    assert picture("part-life", {"durations": "6", "failed": ""}, {}) is None
    assert picture("part-life-compare", given, {}) is None
