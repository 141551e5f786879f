"""Wheel geometry through the services: kept as typed, judged by sourced limits, beside the heights it was taken at."""

from dataclasses import replace
from datetime import timedelta

import pytest

from jobbook.core.errors import Refused
from jobbook.core.tools import Tool
from jobbook.paperwork.geometry import geometry_block
from jobbook.services import work
from jobbook.services.files import add_files, of_bytes
from jobbook.services.house import shop
from jobbook.services.measured.alignment import before_and_after, excuse_geometry, keep_geometry
from jobbook.services.measured.alignment_asks import geometry_asks
from jobbook.services.measured.alignment_words import angles_words, following_words, judged_angles, rows, verdict_of
from jobbook.services.measured.diagnosing import measure_heights
from jobbook.services.measured.geometry_of_job import geometry_of_job, heights_words
from jobbook.services.office import desk
from jobbook.services.papers.aligned import geometry as geometry_on_paper
from jobbook.services.papers.gathered import gather
from jobbook.services.papers.joint_stories import Sources
from tests.services.workshop import SHEET, VARIANT

LIMITS = {
    "geometry camber front": ("−0°45′", "± 30′"),
    "geometry toe front": ("0°10′", "± 5′"),
    "geometry total toe front": ("0°20′", "± 10′"),
}
FOUND = {"camber FL": "−1°10′", "camber FR": "−0°40′", "toe FL": "0°14′", "toe FR": "0°02′"}
AS_SET = {"camber FL": "−0°45′", "camber FR": "−0°40′", "toe FL": "0°10′", "toe FR": "0°10′"}
HEIGHTS = {"heights FL": "401", "heights FR": "400", "heights RL": "396", "heights RR": "397"}


@pytest.fixture
def limited(at):
    """The job with everything done but the road test, and limits from a document for its variant."""
    there = at("drive")
    for key, (text, tolerance) in LIMITS.items():
        figure = {"key": key, "kind": "angle", "title": key, "text": text, "tolerance": tolerance}
        shop.keep_specification(there.book, there.imke, variant=VARIANT, **figure, **SHEET)
    return there


def geometry(there):
    return geometry_of_job(there.book, desk.get_job(there.book, there.job))


def kept(there, what="set", **given):
    there.clock.on(timedelta(minutes=2))
    return keep_geometry(there.book, there.bram, there.job, what, given)


def test_what_was_found_and_what_was_set_are_kept_as_typed_and_told_apart(limited):
    first = len(geometry(limited).readings)
    kept(limited, "set", **AS_SET)
    reading = geometry(limited).readings[first]
    assert reading.phase == "as set"
    assert dict(reading.act.readings)["camber FL"] == "−0°45′"
    assert angles_words(reading) == "Camber FL −0°45′, FR −0°40′ · Toe FL 0°10′, FR 0°10′"


def test_before_and_after_are_the_reading_before_the_first_setting_and_the_last_one(at):
    there = at("taken in")
    for what, angles in (("measure", FOUND), ("measure", FOUND), ("set", AS_SET), ("measure", AS_SET)):
        kept(there, what, **angles)
    readings = geometry(there).readings
    assert [one.phase for one in readings] == ["before setting"] * 2 + ["as set", "measured after setting"]
    assert before_and_after(readings) == (readings[1], readings[3])
    assert before_and_after(()) == (None, None)


def test_figures_with_a_limit_from_a_document_are_judged_and_the_others_stay_plain(limited):
    kept(limited, **AS_SET | {"camber FR": "−1°20′", "camber RL": "−1°30′"})
    reading = geometry(limited).readings[-1]
    assert {name: one.verdict for name, one in reading.judged.items() if one.verdict} == {
        "camber FL": "conform",
        "camber FR": "not conform",
        "toe FL": "conform",
        "toe FR": "conform",
        "total toe front": "conform",
    }
    assert verdict_of(reading) == "not conform"
    assert reading.sources["camber FR"].document == SHEET["document"]
    assert "Camber FR −1°20′ in −1°15′ to −0°15′: not conform" in judged_angles(reading, whole=False)
    assert "cross" not in following_words(reading)
    assert "Camber front, left less right +0°35′" in following_words(reading)


def test_without_limits_nothing_is_judged(at):
    there = at("taken in")
    kept(there, **AS_SET)
    reading = geometry(there).readings[-1]
    assert verdict_of(reading) == ""
    assert "no limits from a document" in judged_angles(reading)


def test_the_aligner_on_its_card_gives_the_guard_band_as_it_was_that_day(limited):
    card = Tool("WA-01", "wheel aligner", unit="°", calibrated_on="2026-03-14", uncertainty="0.05")
    shop.keep_tool(limited.book, limited.imke, card)
    kept(limited, **AS_SET | {"toe FL": "0°13′"}, how="WA-01")
    reading = geometry(limited).readings[-1]
    assert reading.judged["toe FL"].verdict == "undecided"
    assert reading.act.tool.calibrated_on == "2026-03-14"
    assert "Toe FL +0°13′ ± 0°03′ in +0°05′ to +0°15′: undecided" in judged_angles(reading)


def test_toe_in_mm_asks_for_the_diameter_and_keeps_it(limited):
    with pytest.raises(Refused, match="diameter of the rim"):
        kept(limited, **{"toe FL": "1.2 mm"})
    kept(limited, **{"toe FL": "1.2 mm", "toe FR": "1.1 mm", "toe diameter": "16 in"})
    reading = geometry(limited).readings[-1]
    assert reading.judged["toe FL"].verdict == "conform"
    assert angles_words(reading) == "Toe FL 1.2 mm, FR 1.1 mm at 16 in"


def test_geometry_stands_beside_the_heights_that_it_was_taken_at(limited):
    kept(limited, **AS_SET)
    reading = geometry(limited).readings[-1]
    assert heights_words(reading, "mm").startswith("at FL 401 · FR 400 · RL 396 · RR 397 mm")
    assert reading.cries == ()


def test_geometry_without_heights_is_kept_and_cried_about(at):
    there = at("taken in")
    kept(there, "measure", **FOUND)
    (reading,) = geometry(there).readings
    assert reading.heights is None
    assert "No heights were read before it" in reading.cries[0]
    assert heights_words(reading, "mm") == ""


def test_heights_that_move_afterwards_speak_against_the_geometry(limited):
    kept(limited, **AS_SET)
    measure_heights(limited.book, limited.bram, limited.job, HEIGHTS | {"heights FL": "404"})
    assert geometry(limited).readings[-1].cries == ()  # 3 mm are within what two readings by hand may be off
    measure_heights(limited.book, limited.bram, limited.job, HEIGHTS | {"heights FL": "406"})
    (cry,) = geometry(limited).readings[-1].cries
    assert "FL +5 mm" in cry
    assert "Measure the geometry again" in cry


def test_heights_from_before_the_lift_do_not_count_for_geometry_after_it(at):
    there = at("put on")
    kept(there, **AS_SET)
    assert "lifted, vented or filled" in geometry(there).readings[-1].cries[0]


def test_geometry_that_was_set_before_the_heights_were_calibrated_is_to_be_set_again(at):
    """Calibration first, geometry after it: common practice, practice notes 3.10."""
    there = at("lower bolt")
    measure_heights(there.book, there.bram, there.job, HEIGHTS)
    kept(there, "measure", **FOUND)
    assert geometry(there).readings[-1].cries == ()
    there.play(("drive", ""))
    assert "calibrated after this" in geometry(there).readings[0].cries[0]


def test_a_thrust_angle_of_the_other_sign_is_named(at):
    there = at("taken in")
    kept(there, "measure", **{"toe RL": "10′", "toe RR": "4′", "thrust": "−3′"})
    assert any("sign rule of the sheet" in cry for cry in geometry(there).readings[-1].cries)


def test_nothing_read_and_nothing_said_is_no_geometry(at):
    there = at("taken in")
    with pytest.raises(Refused, match="enter the angles"):
        kept(there)
    kept(there, text="Sheet G-26-204 in the folder")
    (said,) = geometry(there).answers
    assert (said.act.answer, said.act.text) == ("done", "Sheet G-26-204 in the folder")


def test_case_43_geometry_set_by_another_workshop_is_sublet_with_its_name_paper_and_day(at):
    there = at("taken in")
    with pytest.raises(Refused, match="which workshop"):
        kept(there, **AS_SET, outside_paper="invoice 4471")
    kept(there, **AS_SET, outside_by="Tarn Street Tyres", outside_paper="invoice 4471", outside_on="24 Nov, 128 412 km")
    (reading,) = geometry(there).readings
    assert (reading.phase, reading.act.answer) == ("as set elsewhere", "sublet")
    assert reading.act.reason == "Tarn Street Tyres, invoice 4471, 24 Nov, 128 412 km"
    assert ("done by", "Tarn Street Tyres") in reading.conditions


@pytest.mark.parametrize("answer", ["declined", "not possible", "not applicable", "sublet"])
def test_case_44_geometry_that_was_not_set_here_is_an_answer_of_its_own_and_never_a_pass(at, answer):
    there = at("taken in")
    excuse_geometry(there.book, there.bram, there.job, {"answer": answer, "reason": "said at the desk by Mr Harrow"})
    (said,) = geometry(there).answers
    assert (said.act.answer, said.act.reason) == (answer, "said at the desk by Mr Harrow")
    assert geometry(there).readings == ()


def test_setting_it_closes_the_loose_end_and_a_correction_keeps_both(at):
    there = at("lower bolt")
    there.play(("align", ""))
    assert "not-aligned" in there.rules()
    written = kept(there, **AS_SET)
    assert "not-aligned" not in there.rules()
    work.correct(there.book, there.bram, written.entry, {"camber FL": "−0°54′"}, "read the wrong column")
    reading = geometry(there).readings[-1]
    assert dict(reading.act.readings) == {**AS_SET, "camber FL": "−0°54′"}
    assert [entry.facts["reason"] for entry in there.journal("act/1") if entry.replaces] == ["read the wrong column"]


def test_the_rows_of_the_drawing_hold_before_after_and_limits_by_axle(limited):
    kept(limited, "measure", **FOUND)
    kept(limited, **AS_SET)
    there = geometry(limited)
    found, left = replace(there.readings[-2], phase="before setting"), there.readings[-1]
    drawn = {row.title: row for row in rows(found, left, there.specifications)}
    assert list(drawn) == ["Camber, front", "Toe, front", "Total toe front"]
    first, second = drawn["Camber, front"].wheels
    assert (first.name, first.before_words, first.after_words) == ("FL", "−1°10′", "−0°45′")
    assert (second.before, second.after) == (pytest.approx(-2 / 3), pytest.approx(-2 / 3))
    assert drawn["Toe, front"].limits_words == "+0°05′ to +0°15′"
    assert drawn["Total toe front"].wheels[0].name == ""


def on_paper(there):
    with there.book.store.read() as reading:
        facts = gather(reading, there.job)
    sources = Sources(facts.names)
    return geometry_on_paper(facts, sources), sources


def test_the_papers_say_found_and_set_with_the_source_of_the_limits(limited):
    kept(limited, **AS_SET, load="empty")
    told, sources = on_paper(limited)
    said = dict(told.said)
    assert "by Bram Ferro with instrument not recorded, at FL 401 · FR 400 · RL 396 · RR 397 mm (read" in said["As set"]
    assert said["As set"].endswith("load empty")
    assert said["Limits"] == "all that are drawn [1]"
    assert SHEET["document"] in sources.all()[0].text
    assert "Look at" not in said
    assert geometry_block(told, 515)
    assert geometry_block(None, 515) == []


def test_the_papers_name_the_guard_band_of_the_aligner_and_what_speaks_against_the_figures(at):
    there = at("taken in")
    shop.keep_tool(there.book, there.imke, Tool("WA-01", "wheel aligner", unit="°", uncertainty="0.05"))
    figure = {"key": "geometry toe front", "kind": "angle", "title": "Toe front", "text": "0°10′", "tolerance": "± 5′"}
    shop.keep_specification(there.book, there.imke, variant=VARIANT, **figure, **SHEET)
    kept(there, **AS_SET, how="WA-01")
    said = dict(on_paper(there)[0].said)
    assert said["As found"] == "not measured"
    assert "guard band ± 0°03′ a reading" in said["Judged"]
    assert "No heights were read before it" in said["Look at"]


def test_a_job_without_geometry_has_no_such_block(at):
    assert on_paper(at("taken in"))[0] is None


def test_a_sheet_among_the_files_of_the_job_is_named_by_the_name_that_it_has_there(at):
    there = at("taken in")
    sheet = of_bytes("G-26-204.txt", b"camber FL -0.75")
    (added,) = add_files(there.book, there.bram, there.job, (sheet,), "alignment sheet").kept
    kept(there, sheet=str(added.entry))
    (said,) = geometry(there).answers
    assert dict(said.act.readings) == {"sheet": str(added.entry)}
    kept(there, **AS_SET, sheet=str(added.entry))
    reading = geometry(there).readings[-1]
    assert geometry(there).sheet_words(reading) == "sheet G-26-204.txt"
    assert [option.label for option in _sheet_ask(there).options] == ["G-26-204.txt"]
    assert dict(on_paper(there)[0].said)["As set"].endswith("sheet G-26-204.txt")


def _sheet_ask(there):
    seen = geometry(there)
    return next(ask for ask in geometry_asks(seen.tools, seen.sheets) if ask.name == "sheet")
