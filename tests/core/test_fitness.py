"""Whether a tool is fit: in use, calibrated that day, and of a range that holds the stage.

ISO 6789 gives twelve months between calibrations where no other procedure is laid down; its lowest calibration point is
20 % of the largest value (from memory of the standard, not seen)."""

from dataclasses import replace
from datetime import date

import pytest

from jobbook.core.figures.stages import parse_stages
from jobbook.core.fitness import due_on, tool_use, uses_of
from jobbook.core.tools import Tool

TODAY = date(2026, 11, 25)
WRENCH = Tool("TW-07", "click wrench", "20", "100", "N·m", "2026-03-14", "2027-03-14", "QC-26-0307")
GAUGE = Tool("AG-01", "angle gauge", "0", "360", "°", "2026-03-14", "2027-03-14", "QC-26-0309")
(FIFTY,) = parse_stages("50 N·m")
(ANGLE,) = parse_stages("+90°")


def unfit(tool, stage=FIFTY, today=TODAY):
    return tool_use(tool, stage, today).unfit


def test_a_calibrated_wrench_is_fit_within_its_range():
    assert unfit(WRENCH) == ""
    assert unfit(WRENCH, today=date(2027, 3, 14)) == ""


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"status": "quarantined"}, "quarantined"),
        ({"status": "scrapped"}, "scrapped"),
        ({"calibrated_on": "", "due_on": ""}, "No calibration of TW-07"),
        ({"due_on": "2026-11-24"}, "ended on 24 Nov 2026"),
        ({"high": ""}, "no torque wrench with a range"),
        ({"kind": "scan tool"}, "no torque wrench"),
        ({"low": "60"}, "below"),
    ],
)
def test_what_makes_it_unfit_is_said(changed, said):
    assert said in unfit(replace(WRENCH, **changed))


def test_without_a_recorded_end_a_calibration_holds_twelve_months():
    assert due_on(replace(WRENCH, due_on="")) == date(2027, 3, 14)
    assert due_on(replace(WRENCH, due_on="", calibrated_on="")) is None


def test_an_angle_wants_a_tool_that_shows_one():
    assert unfit(GAUGE, ANGLE) == ""
    assert "angle gauge" in unfit(WRENCH, ANGLE)


def test_the_fit_ones_come_first_and_scrapped_ones_not_at_all():
    overdue = replace(WRENCH, number="TW-01", due_on="2026-01-01")
    gone = replace(WRENCH, number="TW-02", status="scrapped")
    uses = uses_of((overdue, gone, WRENCH, GAUGE), FIFTY, ("click wrench",), TODAY)
    assert [use.number for use in uses] == ["TW-07", "TW-01"]
