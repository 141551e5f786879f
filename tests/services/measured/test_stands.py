"""Leak-down stands through the services: begun, ended, given up, corrected, judged, shown and printed.

The heights are those of the worked sample of the trade: 36 mm at FL against 4.33 mm on average at the others."""

from datetime import datetime, timedelta
from fractions import Fraction

import pytest

from jobbook.core.errors import Refused
from jobbook.core.jobs import FaultCode
from jobbook.services.measured import stands
from jobbook.services.measured.reckoning import reckon
from jobbook.services.measured.stand_records import (
    cry,
    curves,
    found_words,
    heights_words,
    judged_stands,
    known_of_stand,
    left_words,
    running,
    stands_of,
    state_words,
)
from jobbook.services.office import desk

EVENING = {"heights FL": "402", "heights FR": "404", "heights RL": "398", "heights RR": "399"}
MORNING = {"heights FL": "366", "heights FR": "399", "heights RL": "394", "heights RR": "395"}
LEFT = EVENING | {"temperature": "18", "ignition": "off", "levelling": "off", "how": "fuse pulled", "doors": "shut"}
FOUND = MORNING | {"temperature": "11 °C", "woken": "no", "door": "no", "codes": "no"}
NIGHT = timedelta(hours=13, minutes=30)


def there(shop):
    with shop.book.store.read() as reading:
        return stands_of(reading, shop.job), tuple(reading.fault_codes(shop.job)), reading.shop()


def number(shop):
    return there(shop)[0][-1].number


def stood(shop, **found):
    stands.begin_stand(shop.book, shop.bram, shop.job, LEFT)
    shop.clock.on(NIGHT)
    stands.end_stand(shop.book, shop.bram, shop.job, number(shop), FOUND | found)
    return judged_stands(*there(shop))[-1]


def test_the_corner_that_fell_beyond_the_other_three_is_named(at):
    judged = stood(at("taken in"))
    assert (judged.about, judged.verdict) == ("FL", "leak")
    assert judged.shows.drop_mm["FL"] == 36
    assert judged.shows.relative_drop_mm["FL"] == Fraction(36) - Fraction(5 + 4 + 4, 3)
    assert "36" in judged.sentence
    assert "31.7" in judged.sentence


def test_a_stand_is_handed_to_the_figure_as_it_was_read(at):
    found = reckon("leak-down", dict(known_of_stand(stood(at("taken in")))))
    assert found["drop_mm"]["FL"] == 36
    assert round(found["relative_drop_mm"]["FL"], 1) == 31.7


def test_the_corner_it_is_about_is_drawn_strong(at):
    drawn = curves(stood(at("taken in")))
    assert [curve.label for curve in drawn if curve.strong] == ["FL 36"]
    assert len(drawn) == 4


def test_a_running_stand_is_cried_out_with_how_long_it_has_stood(at):
    shop = at("taken in")
    stands.begin_stand(shop.book, shop.bram, shop.job, LEFT)
    shop.clock.on(timedelta(hours=2))
    with shop.book.store.read() as reading:
        stand = running(reading, shop.job)
    assert "open no door" in cry(stand)
    assert [word.text[-3:] for word in state_words(stand, shop.clock())] == ["2 h"]
    assert (cry(None), state_words(None, shop.clock())) == ("", ())


def test_one_stand_runs_at_a_time(at):
    shop = at("taken in")
    stands.begin_stand(shop.book, shop.bram, shop.job, LEFT)
    with pytest.raises(Refused, match="one runs since"):
        stands.begin_stand(shop.book, shop.bram, shop.job, LEFT)


def test_a_stand_without_all_four_heights_or_its_state_is_refused(at):
    shop = at("taken in")
    for given, said in (
        (LEFT | {"heights RR": ""}, "RR was not measured"),
        (LEFT | {"ignition": ""}, "how ignition"),
        (LEFT | {"how": ""}, "how levelling"),
    ):
        with pytest.raises(Refused, match=said):
            stands.begin_stand(shop.book, shop.bram, shop.job, given)
    assert there(shop)[0] == ()


def test_an_ended_stand_is_neither_ended_nor_given_up_again(at):
    shop = at("taken in")
    stood(shop)
    with pytest.raises(Refused, match="ended already"):
        stands.end_stand(shop.book, shop.bram, shop.job, number(shop), FOUND)
    with pytest.raises(Refused, match="ended already"):
        stands.stop_stand(shop.book, shop.bram, shop.job, number(shop), "needed")
    with pytest.raises(Refused, match="no stand 9999"):
        stands.end_stand(shop.book, shop.bram, shop.job, 9999, FOUND)


def test_a_stand_given_up_keeps_its_reason_and_is_not_judged(at):
    shop = at("taken in")
    stands.begin_stand(shop.book, shop.bram, shop.job, LEFT)
    with pytest.raises(Refused, match="say why"):
        stands.stop_stand(shop.book, shop.bram, shop.job, number(shop), " ")
    stands.stop_stand(shop.book, shop.bram, shop.job, number(shop), "the customer needed it")
    (stand,), codes, facts = there(shop)
    assert stand.ended.stopped == "the customer needed it"
    assert judged_stands((stand,), codes, facts) == ()
    with pytest.raises(Refused, match="no last reading"):
        stands.correct_end(shop.book, shop.bram, shop.job, stand.number, FOUND, "typed wrong")


def test_codes_read_in_the_midst_of_a_stand_make_it_void_whatever_was_answered(at):
    shop = at("taken in")
    stands.begin_stand(shop.book, shop.bram, shop.job, LEFT)
    shop.clock.on(timedelta(hours=6))
    code = FaultCode("Level control", "C1A2B", "", "stored", "before", shop.book.now())
    desk.add_fault_code(shop.book, shop.bram, shop.job, code)
    shop.clock.on(timedelta(hours=7))
    stands.end_stand(shop.book, shop.bram, shop.job, number(shop), FOUND)
    assert judged_stands(*there(shop))[-1].verdict == "void"


def test_a_door_opened_makes_the_stand_void(at):
    assert stood(at("taken in"), door="yes").verdict == "void"


def test_an_end_that_cannot_belong_to_its_beginning_is_refused(at):
    shop = at("taken in")
    stands.begin_stand(shop.book, shop.bram, shop.job, LEFT)
    stand = number(shop)
    with pytest.raises(Refused, match="end before it began"):
        stands.end_stand(shop.book, shop.bram, shop.job, stand, FOUND | {"time": "2026-11-24 07:00"})
    shop.clock.on(NIGHT)
    for change, said in (
        ({"temperature": ""}, "no temperature at the end"),
        ({"volume": "2 L"}, "volume and area"),
        ({"woken": ""}, "yes, no, unknown"),
    ):
        with pytest.raises(Refused, match=said):
            stands.end_stand(shop.book, shop.bram, shop.job, stand, FOUND | change)
    shop.clock.on(timedelta(days=61))
    with pytest.raises(Refused, match="over 60 days"):
        stands.end_stand(shop.book, shop.bram, shop.job, stand, FOUND)


def test_a_corrected_height_stands_in_the_place_of_the_first(at):
    shop = at("taken in")
    stood(shop)
    stand = number(shop)
    with pytest.raises(Refused, match="needs its reason"):
        stands.correct_end(shop.book, shop.bram, shop.job, stand, {"heights FL": "396"}, " ")
    stands.correct_end(shop.book, shop.bram, shop.job, stand, {"heights FL": "396"}, "read 366 for 396")
    stands.correct_begin(shop.book, shop.bram, shop.job, stand, {"parked": "bay 2"}, "where it stood")
    (corrected,), codes, facts = there(shop)
    assert (corrected.ended.heights["FL"], corrected.ended.heights["FR"]) == ("396", "399")
    assert (corrected.begun.parked, corrected.begun.heights["FL"]) == ("bay 2", "402")
    assert judged_stands((corrected,), codes, facts)[0].shows.drop_mm["FL"] == 6


def test_how_it_was_left_and_found_is_told_in_a_line(at):
    shop = at("taken in")
    stands.begin_stand(
        shop.book, shop.bram, shop.job, LEFT | {"mode": "normal", "load": "empty", "instrument": "SR-01"}
    )
    shop.clock.on(NIGHT)
    more = {"volume": "2 L", "area": "100 cm2", "note": "frost on the roof", "woken": "unknown"}
    stands.end_stand(shop.book, shop.bram, shop.job, number(shop), FOUND | more)
    (stand,), _, _ = there(shop)
    left, found = left_words(stand.begun), found_words(stand.ended)
    assert all(word in left for word in ("mode normal", "fuse pulled", "doors shut", "not recorded", "SR-01"))
    assert all(word in found for word in ("woken: not known", "door opened: no", "frost on the roof", "100"))
    assert heights_words(stand.ended.heights).startswith("FL 366, FR 399")


NOW = datetime.fromisoformat("2026-11-25T08:00:00+01:00")


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("", "2026-11-25T08:00:00+01:00"),
        ("07:10", "2026-11-25T07:10:00+01:00"),
        ("17:40", "2026-11-24T17:40:00+01:00"),
        ("2026-11-23 17:40", "2026-11-23T17:40:00+01:00"),
        ("2026-11-23T17:40:00+00:00", "2026-11-23T17:40:00+00:00"),
    ],
)
def test_a_time_is_read_as_the_last_such_time(typed, read):
    assert stands.read_moment(typed, NOW).isoformat() == read


@pytest.mark.parametrize(("typed", "said"), [("soon", "is no time"), ("2026-11-26 09:00", "in the future")])
def test_a_time_that_is_none_or_to_come_is_refused(typed, said):
    with pytest.raises(Refused, match=said):
        stands.read_moment(typed, NOW)
