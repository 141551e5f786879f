"""Specifications by variant through the services, the nasty cases by their numbers."""

from dataclasses import replace
from datetime import timedelta

import pytest

from jobbook.core.errors import Conflict, NotFound, Refused
from jobbook.core.vehicle.variants import Variant
from jobbook.services.house import shop
from jobbook.services.job.release import release
from jobbook.services.measured.diagnosing import diagnosis, measure_heights
from jobbook.services.papers.gathered import gather
from jobbook.services.vehicle.variants import (
    choose_variant,
    figures_of,
    jobs_with_older,
    keep_variant,
    known_variant,
    second_look,
    variant_names,
    variant_of,
)
from tests.services.workshop import SHEET, VARIANT

SPORT = "Varnholt estate 2019, lowered by the maker"
HEIGHTS = {"heights FL": "401", "heights FR": "400", "heights RL": "396", "heights RR": "397"}
HEIGHT = {"key": "height FL", "kind": "length", "title": "Height FL", "tolerance": "± 10 mm"}
BOLT = {"key": "front_strut_lower_torque", "kind": "torque", "title": "Lower bolt", "tolerance": "± 5 %"}


def told(there, text="382 mm", variant=VARIANT, **more):
    return shop.keep_specification(there.book, there.imke, variant=variant, text=text, **HEIGHT | SHEET | more)


@pytest.fixture
def two(at):
    """Two variants that the vehicle of the job may be, told apart by an equipment code."""
    there = at("taken in")
    for name, codes in ((VARIANT, "1BA"), (SPORT, "1BL")):
        facts = Variant(name, "Varnholt", "estate", "2019", "2021")
        keep_variant(there.book, there.imke, facts, codes)
    told(there, variant=SPORT)
    return there


def vehicle_of(there):
    return diagnosis(there.book, there.job).job.vehicle_id


def test_what_is_known_of_a_variant_is_kept_and_told_again(two):
    assert known_variant(two.book, SPORT).codes == ("1BL",)
    keep_variant(two.book, two.imke, replace(known_variant(two.book, SPORT), built_to="2020-06"))
    known = known_variant(two.book, SPORT)
    assert (known.built_from, known.built_to, known.codes) == ("2019", "2020-06", ("1BL",))
    assert known_variant(two.book, "a new one") == Variant("a new one")
    assert set(variant_names(two.book)) == {VARIANT, SPORT}


def test_a_variant_needs_a_name_and_a_span_that_can_be(two):
    with pytest.raises(Refused, match="name it as the document does"):
        keep_variant(two.book, two.imke, Variant("  "))
    with pytest.raises(Refused, match="year and month"):
        keep_variant(two.book, two.imke, Variant("v", built_from="spring 2019"))
    with pytest.raises(Refused, match="ends before it begins"):
        keep_variant(two.book, two.imke, Variant("v", built_from="2020", built_to="2019"))


def test_case_14_several_variants_that_match_stand_side_by_side_with_what_differs_first(two):
    seen = variant_of(two.book, vehicle_of(two))
    assert set(seen.compared) == {VARIANT, SPORT}
    assert {fit.word for fit in seen.fits} == {"may fit"}
    height = next(row for row in seen.apart if row.key == "height FL")
    assert height.differs
    assert {one.text for one in height.figures if one} == {"402 mm", "382 mm"}
    assert seen.apart[0].differs


def test_case_14_the_codes_of_the_vehicle_leave_one_variant(two):
    assert variant_of(two.book, vehicle_of(two), "1bl q4h").compared == (SPORT,)
    assert variant_of(two.book, vehicle_of(two), "1bl q4h").apart == ()


def test_case_14_choosing_a_variant_is_signed_with_what_it_was_read_from_and_what_else_fitted(two):
    vehicle = vehicle_of(two)
    choose_variant(two.book, two.bram, vehicle, SPORT, "1BL", "equipment plate")
    seen = variant_of(two.book, vehicle)
    assert seen.vehicle.variant == SPORT
    assert (seen.chosen.by, seen.chosen.read_from, seen.chosen.codes) == (two.bram.id, "equipment plate", ("1BL",))
    assert seen.chosen.others == ()
    choose_variant(two.book, two.nadia, vehicle, VARIANT, "", "maker's parts list")
    assert variant_of(two.book, vehicle).chosen.others == (SPORT,)


def test_case_14_a_choice_says_from_what_and_an_unknown_variant_says_why(two):
    vehicle = vehicle_of(two)
    with pytest.raises(Refused, match="from what it was read"):
        choose_variant(two.book, two.bram, vehicle, SPORT)
    with pytest.raises(Refused, match="no figures are known"):
        choose_variant(two.book, two.bram, vehicle, "Varnholt van", read_from="seen on the vehicle")
    with pytest.raises(Refused, match="why the variant is not known"):
        choose_variant(two.book, two.bram, vehicle, "")


def test_case_14_an_unknown_variant_leaves_readings_plain_and_never_within_limits(two):
    choose_variant(two.book, two.bram, vehicle_of(two), "", reason="plate painted over; the maker was asked")
    measure_heights(two.book, two.bram, two.job, HEIGHTS)
    reading = diagnosis(two.book, two.job).readings[-1]
    assert {one.verdict for one in reading.judged.values()} == {""}
    assert variant_of(two.book, vehicle_of(two)).chosen.reason == "plate painted over; the maker was asked"


def test_case_15_a_new_figure_begins_on_its_day_and_new_work_takes_it(at):
    there = at("taken in")
    day = (there.book.today() + timedelta(days=3)).isoformat()
    told(there, text="392 mm", edition="4, 2026", valid_from=day)
    figures = figures_of(there.book, VARIANT)
    assert next(one for one in figures.today if one.key == "height FL").text == "402 mm"
    assert [(one.text, one.valid_from) for one in figures.to_come] == [("392 mm", day)]
    there.clock.on(timedelta(days=3))
    now = next(one for one in figures_of(there.book, VARIANT).today if one.key == "height FL")
    assert (now.text, now.edition) == ("392 mm", "4, 2026")
    assert [one.text for one in figures_of(there.book, VARIANT).before(now)] == ["402 mm"]


def test_case_15_a_released_job_keeps_the_figures_that_it_was_done_with(at):
    there = at("done")
    release(there.book, there.imke, there.job, "128 420", "km")
    before = diagnosis(there.book, there.job).readings[-1].judged["FL"]
    there.clock.on(timedelta(days=1))
    told(there, text="382 mm", edition="4, 2026")
    choose_variant(there.book, there.imke, vehicle_of(there), "", reason="doubtful since the bulletin")
    assert diagnosis(there.book, there.job).readings[-1].judged["FL"] == before
    with there.book.store.read() as reading:
        facts = gather(reading, there.job)
    assert {one.key: one.text for one in facts.specifications}["height FL"] == "402 mm"
    assert facts.vehicle.variant == VARIANT


def test_case_15_the_jobs_that_were_done_with_an_older_figure_are_listed(at):
    there = at("done")
    assert jobs_with_older(there.book, _bolt(there)) == ()
    shop.keep_specification(there.book, there.imke, variant=VARIANT, text="75 N·m, then +90°", **BOLT | SHEET)
    (use,) = jobs_with_older(there.book, _bolt(there))
    assert (use.job, use.text, use.edition) == (there.job, "70 N·m, then +90°", SHEET["edition"])


def _bolt(there):
    return next(one for one in figures_of(there.book, VARIANT).today if one.key == BOLT["key"])


def test_a_second_look_is_another_persons_and_is_kept_with_what_they_read(at):
    there = at("taken in")
    figure = told(there)
    with pytest.raises(Refused, match="another person's"):
        second_look(there.book, there.imke, figure)
    assert second_look(there.book, there.nadia, figure).second_look_by == there.nadia.id
    doubted = second_look(there.book, there.bram, figure, "the sheet has 392 mm for this code")
    assert (doubted.second_look_by, doubted.doubt) == ("", "the sheet has 392 mm for this code")


def test_a_second_look_at_a_figure_that_has_been_overtaken_is_a_conflict(at):
    there = at("taken in")
    figure = told(there)
    told(there, text="392 mm")
    with pytest.raises(Conflict, match="took its place"):
        second_look(there.book, there.nadia, figure)
    with pytest.raises(NotFound):
        second_look(there.book, there.nadia, replace(figure, entry=1))


def test_a_day_that_is_none_is_refused_and_a_figure_begins_today_where_none_is_named(at):
    there = at("taken in")
    with pytest.raises(Refused, match="not a day"):
        told(there, valid_from="next week")
    assert told(there).valid_from == there.book.today().isoformat()


def test_a_figure_that_changes_in_the_middle_of_the_work_is_taken_until_it_was_used(at):
    there = at("lower bolt")
    shop.keep_specification(there.book, there.imke, variant=VARIANT, text="75 N·m, then +90°", **BOLT | SHEET)
    assert any("75" in choice.label for choice in there.card().choices)
