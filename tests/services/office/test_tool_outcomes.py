"""What comes of a tool whose calibration is due, kept from Today."""

from dataclasses import replace

import pytest

from jobbook.core.errors import NotFound, Refused
from jobbook.services.house.shop import keep_tool, tools
from jobbook.services.office.today import today
from jobbook.services.office.tool_outcomes import close_tool


@pytest.fixture
def there(at):
    """The wrench TW-07 was due the day before."""
    made = at("taken in")
    wrench = next(one for one in tools(made.book) if one.number == "TW-07")
    keep_tool(made.book, made.imke, replace(wrench, calibrated_on="2025-11-24", due_on="2026-11-24"))
    return made


def due(there):
    return [one.key for one in today(there.book).lines if one.kind == "tool"]


def wrench(there):
    return next(one for one in tools(there.book) if one.number == "TW-07")


def test_calibrated_it_is_due_no_more_and_carries_its_new_certificate(there):
    assert due(there) == ["TW-07"]
    close_tool(there.book, there.imke, "TW-07", "calibrated", "today", "", "QC-26-0702")
    assert due(there) == []
    kept = wrench(there)
    assert (kept.calibrated_on, kept.due_on, kept.certificate) == ("2026-11-25", "", "QC-26-0702")


@pytest.mark.parametrize("outcome", ["quarantined", "scrapped"])
def test_set_aside_or_scrapped_it_is_due_no_more_and_nobody_takes_it(there, outcome):
    close_tool(there.book, there.imke, "TW-07", outcome)
    assert due(there) == []
    assert wrench(there).status == outcome


@pytest.mark.parametrize(
    ("told", "said"),
    [
        (("calibrated", "", "", "QC-1"), "its day and the number"),
        (("calibrated", "2026-11-25", "", " "), "its day and the number"),
        (("calibrated", "2025-11-24", "", "QC-1"), "no later"),
        (("calibrated", "soon", "", "QC-1"), "soon"),
        (("lost",), "what came of the tool"),
    ],
)
def test_what_says_too_little_is_not_kept(there, told, said):
    with pytest.raises(Refused, match=said):
        close_tool(there.book, there.imke, "TW-07", *told)
    assert due(there) == ["TW-07"]


def test_who_may_not_keep_tools_and_a_tool_that_is_not_there_are_refused(there):
    with pytest.raises(Refused, match="no permission"):
        close_tool(there.book, there.jonas, "TW-07", "scrapped")
    with pytest.raises(NotFound, match="TW-99"):
        close_tool(there.book, there.imke, "TW-99", "scrapped")


def test_days_are_typed_as_one_says_them_and_what_is_none_is_refused(there):
    for wrong in ("soon", "3/4"):
        with pytest.raises(Refused, match="is no day"):
            close_tool(there.book, there.imke, "TW-07", "calibrated", wrong, "", "QC-26-0702")
    close_tool(there.book, there.imke, "TW-07", "calibrated", "25.11.2026", "1 Jun 2027", "QC-26-0702")
    assert (wrench(there).calibrated_on, wrench(there).due_on) == ("2026-11-25", "2027-06-01")
