"""Part life from a book's own parts, against an independent library on the same parts counted by hand."""

import csv
import random
from io import StringIO

import pytest
from lifelines import KaplanMeierFitter
from lifelines.statistics import logrank_test

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.vehicle.life_curves import sample
from jobbook.services.vehicle.part_life import as_csv, kinds, life, name_of, part_came_off, parts_before
from tests.services.part_book import PartBook, part_book

BRAM = Person("bf", "Bram Ferro", frozenset({"work"}))


@pytest.fixture
def there(tmp_path):
    made = part_book(tmp_path / "book")
    yield made
    made.book.close()


def only(book, by="supplier"):
    (one,) = kinds(book, by)
    return one


def came_off(there, job):
    return [part.piece for part in parts_before(there.book, job)[0]]


def still_on(there, job):
    return [part.piece for part in parts_before(there.book, job)[1]]


def lengths(found):
    return [(one.days, one.km, one.part.failed) for one in found.parts]


def test_a_part_that_failed_was_watched_until_then_and_one_still_on_until_its_vehicle_was_last_seen(there: PartBook):
    first = there.visit("a", 0, 100_000)
    piece = there.fit(first, 0)
    second = there.visit("a", 400, 125_000)
    there.fit(second, 401)
    there.off(second, 401, piece, "failed")
    there.visit("a", 900, 160_000)
    found = life(there.book, only(there.book), None, "days")
    assert lengths(found) == [(401, 25_000, True), (499, 35_000, False)]
    assert "2 fitted, 1 failed, 1 still on when last seen." in found.words


def test_a_part_that_came_off_in_good_order_is_no_failure_and_one_without_a_reason_is_told(there: PartBook):
    for car, reason in (("a", "in good order"), ("b", "")):
        piece = there.fit(there.visit(car, 0), 0)
        again = there.visit(car, 300)
        there.fit(again, 300)
        if reason:
            there.off(again, 300, piece, reason)
    found = life(there.book, only(there.book), None, "days")
    assert [failed for _, _, failed in lengths(found)] == [False] * 4
    assert "4 fitted, 0 failed, 2 still on when last seen, 2 came off otherwise." in found.words
    assert any(words.startswith("1 came off and nobody said why") for words in found.words)


def test_a_fitting_that_is_taken_back_lets_the_part_before_stand_again(there: PartBook):
    first = there.fit(there.visit("a", 0), 0)
    again = there.visit("a", 300)
    second = there.fit(again, 300)
    assert came_off(there, again) == [first]
    there.keep("piece-state/1", again, 300, piece=second, state="issued", reason="wrong side")
    assert came_off(there, again) == []
    assert still_on(there, again) == [first]


def test_the_other_corner_is_another_place_and_a_new_number_there_is_still_the_same_place(there: PartBook):
    """A supplier changes a part's number: history goes on by function and corner (nasty case 26)."""
    job = there.visit("a", 0)
    left, right = there.fit(job, 0, "FL"), there.fit(job, 0, "FR")
    again = there.visit("a", 200)
    there.fit(again, 200, "FL", number="A-1/B")
    assert came_off(there, again) == [left]
    assert still_on(there, again) == [right]


def test_front_and_rear_are_different_kinds_and_are_counted_by_supplier_and_by_number(there: PartBook):
    job = there.visit("a", 0)
    there.fit(job, 0, "FL", supplier="Quillhaven", number="A-1")
    there.fit(job, 0, "FR", supplier="Quillhaven", number="A-2")
    there.fit(job, 0, "RL", supplier="", number="R-1")
    assert {name_of(one): one.fitted for one in kinds(there.book, "kind")} == {
        "Air strut, front": 2,
        "Air strut, rear": 1,
    }
    by_number = {name_of(one) for one in kinds(there.book, "number")}
    assert by_number == {
        "Air strut, front · A-1 · Quillhaven",
        "Air strut, front · A-2 · Quillhaven",
        "Air strut, rear · R-1 · supplier not recorded",
    }


def test_distance_runs_on_over_a_replaced_cluster_and_is_left_out_where_a_reading_fell(there: PartBook):
    there.fit(there.visit("a", 0, 190_000), 0)
    there.visit("a", 300, 5_000, reset="cluster replaced", old_end="205000", new_start="0")
    there.fit(there.visit("b", 0, 90_000), 0)
    there.visit("b", 300, 70_000)
    found = life(there.book, only(there.book), None, "km")
    assert lengths(found) == [(300, 20_000, False), (300, None, False)]
    assert "1 left out: how far they ran is not known for certain." in found.words


def filled(there: PartBook, chance: random.Random, supplier: str, count: int, hazard: float) -> None:
    """Vehicles whose strut failed some day, or that were last seen with it."""
    for one in range(count):
        car = f"{supplier} {one}"
        piece = there.fit(there.visit(car, 0, 50_000), 0, supplier=supplier)
        day = chance.randint(30, 1500)
        again = there.visit(car, day, 50_000 + day * 40)
        if chance.random() < hazard:
            there.off(again, day, piece, "failed")


def test_curve_limits_and_comparison_are_those_of_an_independent_library(there: PartBook):
    """lifelines 0.30 on the durations counted by hand: Kaplan–Meier, log-log limits, log-rank."""
    chance = random.Random(7)
    filled(there, chance, "Quillhaven", 24, 0.3)
    filled(there, chance, "Brackwater", 22, 0.9)
    by_name = {one.kind.supplier: one for one in kinds(there.book, "supplier")}
    first, second = by_name["Quillhaven"], by_name["Brackwater"]
    both = life(there.book, first, second, "days")
    one, other = (sample(life(there.book, each, None, "days").parts, "days") for each in (first, second))
    theirs = logrank_test(*(list(map(int, each.durations)) for each in (one, other)), one.failed, other.failed)
    assert theirs.p_value < 0.05
    assert both.words[0].startswith("They do not live alike: those of Brackwater fail earlier.")
    fitted = KaplanMeierFitter().fit(list(map(int, other.durations)), other.failed)
    share = fitted.survival_function_at_times(730.5).iloc[0] * 100
    limits = fitted.confidence_interval_survival_function_.loc[:730.5].iloc[-1] * 100
    said = f"After 2 years {share:.0f} % still work (95 % limits {limits.iloc[0]:.0f} % to {limits.iloc[1]:.0f} %); "
    said += f"{sum(length >= 730.5 for length in other.durations)} watched that long."
    assert said in life(there.book, second, None, "days").words


def test_small_numbers_are_warned_about(there: PartBook):
    filled(there, random.Random(1), "Quillhaven", 5, 0.5)
    filled(there, random.Random(2), "Brackwater", 4, 0.9)
    first, second = kinds(there.book, "supplier")
    words = life(there.book, first, second, "km").words
    assert any(words_.startswith("Few parts:") for words_ in words)


def test_one_failure_among_three_parts_is_called_a_hint_and_no_limits_are_made_up(there: PartBook):
    for car, last in (("a", 800), ("b", 500), ("c", 10)):
        piece = there.fit(there.visit(car, 0), 0)
        again = there.visit(car, last)
        if car == "a":
            there.off(again, last, piece, "failed")
    words = life(there.book, only(there.book), None, "days").words
    assert words[1:] == (
        "Few failures (1): what is reckoned from them is a hint, not a finding.",
        "None had failed after 1 year; 2 were watched that long.",
        "None had failed after 2 years; 1 was watched that long.",
        "Half fail within 2.2 years.",
    )


def test_the_plot_says_its_unit_its_parts_and_how_many_were_still_watched(there: PartBook):
    filled(there, random.Random(7), "Quillhaven", 12, 0.5)
    found = life(there.book, only(there.book), None, "days")
    assert found.plot is not None
    texts = [shape.text for shape in found.plot.shapes if hasattr(shape, "text")]
    assert {"still working, %", "years since fitting", "still watched", "12", "100"} <= set(texts)
    assert found.plot.words.startswith("Share of parts that still work, years since fitting; Quillhaven: 12 parts")
    by_km = life(there.book, only(there.book), None, "km").plot
    assert "thousand km since fitting" in [shape.text for shape in by_km.shapes if hasattr(shape, "text")]


def test_the_export_has_a_row_for_each_part_and_nothing_that_a_spreadsheet_runs(there: PartBook):
    there.fit(there.visit("a", 0, 10_000), 0, supplier='=HYPERLINK("x")', serial="S,1")
    table = list(csv.reader(StringIO(as_csv(life(there.book, only(there.book), None, "days").parts))))
    row = dict(zip(*table, strict=True))
    assert (row["supplier"], row["serial"], row["why"]) == ('\'=HYPERLINK("x")', "S,1", "still on")
    assert (row["days watched"], row["km watched"]) == ("0", "0")


def test_why_a_part_came_off_is_kept_once_it_is_known_and_can_be_taken_back(there: PartBook):
    piece = there.fit(there.visit("a", 0), 0)
    again = there.visit("a", 300)
    part_came_off(there.book, BRAM, again, piece, "failed", "sleeve cracked")
    assert only(there.book).failed == 1
    part_came_off(there.book, BRAM, again, piece, "still on")
    assert (only(there.book).failed, only(there.book).still_on) == (0, 1)


def test_a_reason_that_is_none_a_part_of_another_vehicle_and_another_job_are_refused(there: PartBook):
    piece = there.fit(there.visit("a", 0), 0)
    again, later, other = there.visit("a", 300), there.visit("a", 400), there.visit("b", 400)
    with pytest.raises(Refused, match=r"^Nothing was kept: say why it came off"):
        part_came_off(there.book, BRAM, again, piece, "old")
    with pytest.raises(Refused, match="not fitted to this vehicle"):
        part_came_off(there.book, BRAM, other, piece, "failed")
    part_came_off(there.book, BRAM, again, piece, "failed")
    with pytest.raises(Refused, match=f"came off in job {again}"):
        part_came_off(there.book, BRAM, later, piece, "in good order")
