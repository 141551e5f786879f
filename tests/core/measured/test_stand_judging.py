"""What may be said of a stand. Limits are common practice; what temperature does is the ideal gas at constant load."""

from dataclasses import replace
from datetime import datetime, timedelta
from decimal import Decimal
from fractions import Fraction

import pytest

from jobbook.core.errors import Refused
from jobbook.core.figures.leakdown import CORNERS, USUAL
from jobbook.core.measured.heights import Sure, height_of
from jobbook.core.measured.stand_judging import hours_words, judged
from jobbook.core.measured.stands import Begun, Ended, Stand, look_at_begin, look_at_end

EVENING = datetime.fromisoformat("2026-11-23T17:40:00+01:00")
LEVEL = dict(zip(CORNERS, (402, 404, 398, 399), strict=True))


def stand(*lost, hours=13.5, begun=None, ended=None):
    """A stand that lost so many mm at the four corners."""
    first = {corner: str(height) for corner, height in LEVEL.items()}
    last = {corner: str(LEVEL[corner] - drop) for corner, drop in zip(CORNERS, lost, strict=True)}
    off = Begun(EVENING.isoformat(), first, first, "18 °C", "off", "", "off", "fuse pulled", "shut")
    end = Ended((EVENING + timedelta(hours=hours)).isoformat(), last, last, "18 °C", "no", "no", "no")
    return Stand(1, replace(off, **(begun or {})), "bf", replace(end, **(ended or {})), "bf", (1, 2))


def shows(there):
    heights = tuple(
        {corner: height_of(corner, text, Sure(Decimal(0))) for corner, text in told.typed.items()}
        for told in (there.begun, there.ended)
    )
    return judged(there, USUAL, heights)


@pytest.mark.parametrize(
    ("lost", "hours", "verdict"),
    [
        ((36, 5, 4, 4), 13.5, "leak"),
        ((8, 1, 0, 0), 12, "repeat"),
        ((4, 4, 3, 4), 12, "even"),
        ((9, 8, 9, 10), 12, "all down"),
        ((36, 5, 4, 4), 0.5, "too short"),
        ((36, -9, 4, 4), 12, "woken"),
    ],
)
def test_a_stand_has_one_word_for_what_it_shows(lost, hours, verdict):
    assert shows(stand(*lost, hours=hours)).verdict == verdict


@pytest.mark.parametrize(
    ("begun", "ended", "said"),
    [
        ({}, {"woken": "yes"}, "woken before the last reading"),
        ({}, {"door": "yes"}, "A door was opened"),
        ({}, {"codes": "yes"}, "Codes were read"),
        ({"ignition": "on"}, {}, "ignition was on"),
        ({"levelling": "active"}, {}, "Levelling was active"),
    ],
)
def test_what_woke_the_system_makes_the_stand_void_and_nothing_is_concluded(begun, ended, said):
    found = shows(stand(36, 5, 4, 4, begun=begun, ended=ended))
    assert found.void
    assert said in found.findings[0]
    assert found.findings[-1] == "Nothing follows from this stand: repeat it."
    assert not any("a leak" in one for one in found.findings)
    assert found.sentence.startswith("FL fell 36 mm")


def test_the_sentence_tells_the_fall_the_others_and_what_is_beyond_them():
    said = "FL fell 36 mm in 13.5 h, the others 4.3 mm on average: 31.7 mm beyond the rest."
    assert shows(stand(36, 5, 4, 4)).sentence == said


def test_all_four_down_asks_to_switch_levelling_off_unless_it_was():
    off, asleep = (shows(stand(9, 8, 9, 10, begun={"levelling": word})).findings for word in ("off", "asleep"))
    assert any("went down with levelling off" in one for one in off)
    assert any("switch levelling off and repeat" in one for one in asleep)


def test_temperatures_far_apart_and_missing_ones_are_said():
    assert any(
        "no leak rate follows" in one for one in shows(stand(36, 5, 4, 4, ended={"temperature": "7 °C"})).findings
    )
    without = shows(stand(36, 5, 4, 4, begun={"temperature": ""}, ended={"temperature": ""}))
    assert any("Without both temperatures" in one for one in without.findings)


def test_with_volume_and_area_temperature_does_one_thing_and_not_a_band():
    # Ideal gas at constant load: 2 L on 100 cm², 20 to 0 °C, sinks 13.64 mm.
    cold = {"temperature": "0 °C", "volume": "2 L", "area": "100 cm²"}
    found = shows(stand(36, 14, 14, 14, begun={"temperature": "20 °C"}, ended=cold))
    assert "Temperature alone lets every corner sink by about 13.6 mm." in found.findings


def test_a_stand_that_no_corner_leaks_in_says_so():
    assert shows(stand(4, 4, 3, 4)).findings[-1].startswith("No corner lost notably more")


@pytest.mark.parametrize(
    ("ended", "said"),
    [
        ({"at": EVENING.isoformat()}, "before it began"),
        ({"at": (EVENING + timedelta(days=61)).isoformat()}, "over 60 days"),
        ({"temperature": ""}, "no temperature at the end"),
        ({"woken": ""}, "yes, no, unknown"),
        ({"volume": "2 L"}, "volume and area"),
        ({"heights": {"FL": "366"}}, "FR and RL and RR was not measured"),
    ],
)
def test_an_end_that_cannot_belong_to_its_beginning_is_refused(ended, said):
    there = stand(36, 5, 4, 4, ended=ended)
    with pytest.raises(Refused, match=said):
        look_at_end(there.begun, there.ended)


@pytest.mark.parametrize(
    "begun", [{"how": ""}, {"levelling": ""}, {"doors": ""}, {"ignition": "perhaps"}, {"heights": {}}]
)
def test_a_beginning_that_proves_nothing_is_refused(begun):
    with pytest.raises(Refused, match="The stand was not begun"):
        look_at_begin(stand(0, 0, 0, 0, begun=begun).begun)


def test_hours_are_told_as_people_say_them():
    assert [hours_words(Fraction(text)) for text in ("2/3", "27/2", "96", "98")] == [
        "40 min",
        "13.5 h",
        "96 h",
        "4 days 2 h",
    ]
