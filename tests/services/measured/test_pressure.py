"""Pressure tests and the compressor: what the figures amount to, in words, kept as a test with the figures as typed.

Where a number is compared it is worked out here from the gas law (p·V = n·R·T) by hand, apart from the code."""

from decimal import Decimal
from fractions import Fraction

import pytest

from jobbook.core.errors import Refused
from jobbook.services.measured.compressor import compressor_words, keep_compressor_test
from jobbook.services.measured.pressure import figures_as_typed, hole_words, keep_pressure_test, pressure_words, two
from jobbook.services.office import desk

FALL = {
    "volume": "5 L", "start": "8 bar", "end": "7.9 bar", "start_temperature": "20 °C", "end_temperature": "20 °C",
    "duration": "10 min",
}  # fmt: skip


def test_a_fall_at_one_temperature_is_volume_times_fall_by_time():
    # 5 L · 0.1 bar / 600 s = 0.833 mbar·L/s
    assert "loses 0.83 mbar·L/s" in pressure_words(FALL)
    assert "like a hole of" in pressure_words(FALL)


def test_a_fall_that_the_cold_explains_is_no_loss():
    # 9.013 bar absolute at 293 K is 8.706 bar at 283 K: the gauge falls by 0.31 bar with nothing lost.
    said = pressure_words(FALL | {"end": "7.8 bar", "end_temperature": "10 °C"})
    assert "the change of temperature explains the whole fall" in said


def test_a_rise_is_no_loss():
    assert pressure_words(FALL | {"end": "8.1 bar"}).endswith("no loss.")


def test_what_it_would_seem_without_the_temperatures_is_told_apart():
    assert "Without the temperatures it would seem" in pressure_words(
        FALL | {"end": "7.5 bar", "end_temperature": "10 °C"}
    )


def test_a_loss_smaller_than_a_division_of_the_gauge_is_said_to_be_so():
    assert "no more than one division of the gauge" in pressure_words(FALL | {"step": "0.2 bar"})
    assert "division" not in pressure_words(FALL | {"step": "0.01 bar"})


def test_no_pressure_drives_nothing_through_a_hole():
    said = pressure_words(FALL | {"start": "0 bar", "end": "-0.1 bar"})
    assert "hole" not in said
    assert "loses" in said


def test_holes_are_pictured_beside_a_hair():
    assert "finer than a hair" in hole_words(Decimal("0.02"))
    assert "about as wide as a hair" in hole_words(Decimal("0.07"))
    assert hole_words(Decimal("0.5")) == "like a hole of 0.5 mm"


def test_two_digits_count_and_nothing_has_an_exponent():
    assert [two(Fraction(1, 3)), two(Decimal("0.000012")), two(-1.26)] == ["0.33", "0.000012", "−1.3"]


def test_a_bare_number_gets_the_unit_of_its_field():
    assert figures_as_typed({"volume": " 5 ", "start": "8 bar", "end": ""}, ("volume", "start", "end")) == {
        "volume": "5 L", "start": "8 bar",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"volume": ""}, "the volume is missing"),
        ({"duration": "0 min"}, "how long it took"),
        ({"end": "7.9 mm"}, "at the end"),
    ],
)
def test_what_cannot_be_reckoned_is_refused_in_words_of_the_bench(change, said):
    figures = {key: text for key, text in (FALL | change).items() if text}
    with pytest.raises(Refused, match=said):
        pressure_words(figures)


def test_a_pressure_test_is_kept_as_a_test_of_the_job(at):
    shop = at("taken in")
    said = keep_pressure_test(shop.book, shop.bram, shop.job, FALL | {"where": "front circuit"})
    kept = [test for test in desk.tests(shop.book, shop.job) if test.name == "Pressure test, front circuit"]
    assert [(test.answer, test.result) for test in kept] == [("done", said)]


FILL = {"volume": "10 L", "start": "0 bar", "end": "6 bar", "free_air": "60 L/min"}
SLOW = Fraction(20)


def test_filling_takes_free_air_times_pressure():
    # 10 L raised by 6 bar takes about 60 L of free air; at 60 L/min that is about a minute.
    said = compressor_words(FILL, SLOW)
    assert "not measured" in said
    assert any(f"reckoned {seconds} s" in said for seconds in range(57, 64))


def test_a_slow_filling_says_what_to_look_at_and_a_quick_one_does_not():
    assert "look at leaks" in compressor_words(FILL | {"measured": "90 s"}, SLOW)
    assert "look at" not in compressor_words(FILL | {"measured": "65 s"}, SLOW)
    assert "shorter" in compressor_words(FILL | {"measured": "40 s"}, SLOW)
    assert "2 min 30 s" in compressor_words(FILL | {"measured": "150 s"}, SLOW)


def test_a_cycle_is_on_for_its_share_of_the_time():
    assert "on for 25 % of the time" in compressor_words({"run": "2 min", "rest": "6 min"}, SLOW)


def test_moist_air_gives_water_where_the_system_is_colder_than_its_dew_point():
    # Dew point of 20 °C at 50 % is 9.3 °C by the Magnus formula.
    said = compressor_words({"temperature": "20 °C", "humidity": "50 %", "pressure": "8 bar"}, SLOW)
    assert "dew point 9 °C" in said


def test_nothing_given_is_refused():
    with pytest.raises(Refused, match="give the figures"):
        compressor_words({}, SLOW)


def test_a_compressor_test_is_kept_as_a_test_of_the_job(at):
    shop = at("taken in")
    said = keep_compressor_test(shop.book, shop.bram, shop.job, {"run": "2", "rest": "6"})
    assert [test.result for test in desk.tests(shop.book, shop.job) if test.name == "Compressor"] == [said]
