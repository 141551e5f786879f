"""How answers become part of an act."""

from datetime import date

import pytest

from jobbook.core.errors import Refused
from jobbook.core.work.model import Act, Part
from jobbook.core.work.state import State
from jobbook.services.sheet.asks import answered, asks_of, unanswered
from jobbook.services.sheet.bay import Bay
from jobbook.services.sheet.sheets import Ask

BAY = Bay(State(), (), (), date(2026, 11, 25))


@pytest.mark.parametrize(
    ("what", "typed", "kept"),
    [
        ("pressure", "9,5 bar", "9.5\u202fbar"),
        ("voltage", "12.4 V", "12.4\u202fV"),
        ("current", "31 A", "31\u202fA"),
        ("temperature", "-3 °C", "−3\u202f°C"),
        ("run_time", "95 s", "95\u202fs"),
    ],
)
def test_a_reading_is_kept_with_its_unit(what, typed, kept):
    act = Act("measure", what=what)
    assert answered(act, {asks_of(act, BAY)[0].name: typed}, BAY).readings == ((what, kept),)


@pytest.mark.parametrize(("what", "typed"), [("pressure", "9.5"), ("pressure", "40 mm"), ("voltage", "12.4 bar")])
def test_a_reading_without_a_unit_or_with_one_of_another_kind_is_refused(what, typed):
    with pytest.raises(Refused):
        answered(Act("measure", what=what), {"reading": typed}, BAY)


@pytest.mark.parametrize("typed", ["-1", "100", "two", "1.5", "²"])
def test_plugs_are_counted_in_whole_numbers(typed):
    with pytest.raises(Refused, match="is not a number of plugs"):
        answered(Act("plug", on="line"), {"plugs": typed}, BAY)


def test_a_bare_temperature_is_in_degrees_celsius_and_a_bare_distance_in_kilometres():
    assert answered(Act("drive"), {"distance": "7"}, BAY).readings == (("distance", "7\u202fkm"),)
    heights = answered(Act("measure", what="heights"), {"heights FL": "401", "temperature": "12"}, BAY)
    assert dict(heights.readings)["temperature"] == "12\u202f°C"


def test_heights_without_a_single_corner_are_not_a_reading():
    with pytest.raises(Refused, match="enter at least one corner"):
        answered(Act("measure", what="heights"), {"heights FL": " ", "temperature": "12"}, BAY)


def test_a_form_that_asks_what_no_act_knows_is_a_defect_of_ours():
    with pytest.raises(KeyError, match="shoe size"):
        answered(Act("note"), {"shoe size": "44"}, BAY)


def test_after_the_customer_stopped_the_job_it_is_asked_which_part_goes_on():
    state = State(stopped=True, things={"strut@FL": Part("strut@FL", "Strut", renewed=True, serial=True, corner="FL")})
    bay = Bay(state, (), (), date(2026, 11, 25))
    assert [ask.name for ask in asks_of(Act("put_on", on="strut@FL"), bay)] == ["piece", "serial"]
    assert asks_of(Act("put_on", on="strut@FL", piece="same"), bay) == ()


def test_what_is_asked_and_not_answered_is_named_but_for_what_may_be_left_out():
    asks = (Ask("tool", "Tool"), Ask("reason", "Why", required=False), Ask("heights", "Heights", "heights"))
    assert unanswered(asks, {"tool": "  "}) == ("Tool",)
    assert unanswered(asks, {"tool": "TW-04"}) == ()
