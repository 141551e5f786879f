"""Heights through the services: kept as typed, judged against sourced figures, and placed in the job."""

from dataclasses import replace
from decimal import Decimal

import pytest

from jobbook.core.errors import Refused
from jobbook.core.tools import Tool
from jobbook.services import work
from jobbook.services.house import shop
from jobbook.services.measured.diagnosing import diagnosis, measure_heights
from jobbook.services.papers.gathered import gather
from jobbook.services.papers.joint_stories import Sources
from jobbook.services.papers.measured import heights

RULE = Tool(
    "SR-02", "rule or tape", "0", "1000", "mm", "2026-03-14", "2027-03-14", "QC-26-0311", "", "in use", "1", "0.5"
)
AGAIN = {"heights FL": "402 404 403 403 405", "heights FR": "401", "heights RL": "396", "heights RR": "397"}


def measured(there, **given):
    measure_heights(there.book, there.bram, there.job, AGAIN | given)
    return diagnosis(there.book, there.job).readings[-1]


def test_readings_are_kept_as_typed_beside_their_mean(at):
    there = at("taken in")
    reading = measured(there, temperature="12", load="driver only", tyres="235/55, 2.4 bar", mode="normal", how="SR-01")
    told = dict(reading.act.readings)
    assert (told["FL"], told["typed FL"], told["FR"]) == ("403.4", "402 404 403 403 405", "401")
    assert "typed FR" not in told
    assert dict(reading.conditions) == {
        "air temperature": "12\u202f°C",
        "load": "driver only",
        "tyres": "235/55, 2.4 bar",
        "ride mode": "normal",
    }


def test_the_rule_gives_its_division_and_its_certificate_as_its_card_says_then(at):
    there = at("taken in")
    shop.keep_tool(there.book, there.imke, RULE)
    reading = measured(there, how="SR-02")
    assert round(reading.judged["FL"].height.expanded_mm, 3) == Decimal("1.274")
    shop.keep_tool(there.book, there.imke, replace(RULE, calibrated_on="2026-11-30", certificate="QC-26-0999"))
    kept = diagnosis(there.book, there.job).readings[-1].act.tool
    assert (kept.calibrated_on, kept.certificate) == ("2026-03-14", "QC-26-0311")


def test_a_corner_with_limits_from_a_document_is_judged_and_the_others_stay_plain(at):
    there = at("taken in")
    reading = measured(there, **{"heights FR": "380"})
    assert {corner: one.verdict for corner, one in reading.judged.items()} == {
        "FL": "conform",
        "FR": "not conform",
        "RL": "",
        "RR": "",
    }
    assert reading.specifications["FL"].document == "maker's sheet VH-SUS-12"
    staffs = {staff.corner: staff for staff in there.sheet().staffs}
    assert (staffs["FR"].verdict, staffs["FR"].guard, staffs["RL"].verdict) == ("not conform", "2", "")


def test_the_shops_figure_for_one_reading_is_the_guard_band_of_one_reading(at):
    there = at("taken in")
    facts = shop.shop(there.book)
    on_the_edge = {"heights FR": "393"}
    assert measured(there, **on_the_edge).judged["FR"].verdict == "undecided"
    shop.change_shop(there.book, there.imke, replace(facts, practice={"single": "1"}))
    assert measured(there, **on_the_edge).judged["FR"].verdict == "conform"


def test_inches_are_typed_and_shown_where_the_shop_works_in_inches(at):
    there = at("taken in")
    shop.change_shop(there.book, there.imke, replace(shop.shop(there.book), height_unit="in"))
    reading = measured(
        there, **{"heights FL": "15 3/4", "heights FR": "15.75 15.75 in", "heights RL": "400 mm", "heights RR": ""}
    )
    told = dict(reading.act.readings)
    assert (told["FL"], told["typed FL"]) == ("400.05", "15 3/4 in")
    assert (told["RL"], told["typed RL"]) == ("400", "400 mm")
    assert there.sheet().heights_from == "hub centre to arch edge, in"


def test_bare_figures_that_no_wheel_stands_at_are_refused_and_nothing_is_kept(at):
    there = at("taken in")
    with pytest.raises(Refused, match="at FL was not kept"):
        measured(there, **{"heights FL": "401 40"})
    assert diagnosis(there.book, there.job).readings == ()


def test_each_reading_has_its_place_before_the_work_before_and_after_calibration(at):
    there = at("done")
    phases = [reading.phase for reading in diagnosis(there.book, there.job).readings]
    assert phases[0] == "before the work"
    assert phases[-1] == "after calibration"
    assert "before calibration" in phases


def test_before_any_calibration_what_is_read_after_the_work_is_as_left(at):
    there = at("lower bolt")
    assert diagnosis(there.book, there.job).readings[-1].phase == "as left"


def test_a_correction_takes_the_place_of_what_was_typed_and_keeps_the_rest(at):
    there = at("taken in")
    reading = measured(there, load="empty")
    work.correct(there.book, there.bram, reading.entry, {"heights FL": "401"}, "rule misread")
    told = dict(diagnosis(there.book, there.job).readings[-1].act.readings)
    assert (told["FL"], "typed FL" in told, told["FR"], told["load"]) == ("401", False, "401", "empty")


def test_the_paper_names_limits_with_their_source_guard_band_instrument_and_what_was_typed(at):
    there = at("taken in")
    shop.keep_tool(there.book, there.imke, RULE)
    measured(there, how="SR-02", load="empty")
    with there.book.store.read() as reading:
        facts = gather(reading, there.job)
    sources = Sources(facts.names)
    said = heights(facts, sources)
    assert "FL 403.4 ± 1.3 mm in 392 to 412: conform" in said.judged
    assert "SR-02 (calibrated 14 Mar 2026, QC-26-0311)" in said.before
    assert "load empty" in said.before
    assert "FL 402 404 403 403 405" in said.before
    assert said.corners[0].guard == facts_guard(there)
    assert "[1]" in said.limits
    assert "front axle against rear" in said.apart


def facts_guard(there):
    return diagnosis(there.book, there.job).readings[-1].judged["FL"].height.expanded_mm


def test_a_vehicle_without_a_variant_is_not_judged_and_the_paper_says_so(at):
    """Nasty case 14 of the trade notes."""
    there = at("taken in")
    measured(there)
    with there.book.store.read() as reading:
        facts = replace(gather(reading, there.job), specifications=())
    said = heights(facts, Sources(facts.names))
    assert said.judged.startswith("not judged: no limits from a document")
    assert [corner.verdict for corner in said.corners] == [""] * 4
