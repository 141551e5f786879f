"""The shop: its facts, its tools, the figures that it read from makers' documents."""

from dataclasses import replace
from datetime import date

import pytest

from jobbook.core.errors import Refused
from jobbook.core.tools import Tool
from jobbook.services.house import shop
from jobbook.services.sheet.lacking import lacking
from tests.services.workshop import SHEET, SHOP, TOOLS, VARIANT

TODAY = date(2026, 11, 25)


@pytest.fixture
def there(at):
    return at("shop")


def figure(there, **changes):
    told = {"variant": VARIANT, "key": "new", "kind": "torque", "title": "New", "text": "50 N·m", **SHEET}
    return shop.keep_specification(there.book, there.nadia, **(told | changes))


def test_the_workshops_facts_are_changed_and_its_name_is_never_empty(there):
    shop.change_shop(there.book, there.imke, replace(SHOP, phone="5521"))
    assert shop.shop(there.book).phone == "5521"
    with pytest.raises(Refused, match="name prints on every paper"):
        shop.change_shop(there.book, there.imke, replace(SHOP, name=" "))
    with pytest.raises(Refused, match="in mm or in inches"):
        shop.change_shop(there.book, there.imke, replace(SHOP, height_unit="cubit"))


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"number": " "}, "its number and its kind"),
        ({"kind": "hammer"}, "its number and its kind"),
        ({"status": "lost"}, "say how it stands"),
        ({"low": "1e3"}, "its range is not a number: “1e3”"),
        ({"low": "NaN"}, "is not a number"),
        ({"high": "1_00"}, "is not a number"),
        ({"high": "٣"}, "is not a number"),
        ({"low": "60", "high": "10"}, "its range goes from 60 to 10"),
        ({"unit": "bar"}, "bar"),
        ({"due_on": "3/4/2027"}, "is no day. Write it like 14 Mar 2026"),
    ],
)
def test_a_tool_that_nobody_could_reckon_with_is_refused(there, changes, said):
    with pytest.raises(Refused, match=said):
        shop.keep_tool(there.book, there.imke, replace(TOOLS[0], **changes))
    assert shop.tools(there.book) == tuple(sorted(TOOLS, key=lambda tool: tool.number))


def test_a_tools_card_is_kept_anew_under_its_number_and_is_never_gone(there):
    scrapped = replace(TOOLS[0], number=" TW-02 ", status="scrapped")
    assert shop.keep_tool(there.book, there.imke, scrapped).number == "TW-02"
    assert [tool.status for tool in shop.tools(there.book) if tool.number == "TW-02"] == ["scrapped"]


@pytest.mark.parametrize(
    ("tool", "told"),
    [
        (Tool("T", "click wrench", due_on="2026-12-26"), ("disc", "calibrated to 26 Dec 2026")),
        (Tool("T", "click wrench", due_on="2026-12-25"), ("half", "calibrated to 25 Dec 2026, due soon")),
        (Tool("T", "click wrench", due_on="2026-11-25"), ("half", "calibrated to 25 Nov 2026, due soon")),
        (Tool("T", "click wrench", due_on="2026-11-24"), ("bar", "calibration overdue since 24 Nov 2026")),
        (Tool("T", "click wrench", calibrated_on="2026-06-02"), ("disc", "calibrated to 2 Jun 2027")),
        (Tool("T", "click wrench", calibrated_on="2025-11-01"), ("bar", "calibration overdue since 1 Nov 2026")),
        (Tool("T", "click wrench"), ("half", "calibration not recorded")),
        (Tool("T", "click wrench", due_on="2027-03-14", status="quarantined"), ("bar", "quarantined")),
    ],
)
def test_how_a_tool_stands_is_said_alike_in_the_crib_and_at_the_joint(tool, told):
    """Twelve months where no date due is recorded: ISO 6789-2:2017, from memory."""
    assert shop.tool_state(tool, TODAY) == told


def test_a_figure_is_kept_as_typed_with_its_stages_and_where_it_stands(there):
    kept = figure(there, text=" 50 N·m, then +90° ", tolerance="± 10 %")
    assert (kept.text, kept.read_by, kept.second_look_by) == ("50 N·m, then +90°", there.nadia.id, "")
    assert len(kept.stages) == 2
    assert (kept.document, kept.edition) == (SHEET["document"], SHEET["edition"])
    assert kept in shop.specifications(there.book, VARIANT)
    assert shop.variants(there.book) == (VARIANT,)


def test_a_newer_figure_takes_the_place_of_the_older_one(there):
    figure(there, text="50 N·m")
    figure(there, text="55 N·m", edition="4, 2026")
    assert [one.text for one in shop.specifications(there.book, VARIANT) if one.key == "new"] == ["55 N·m"]


def test_a_variant_typed_in_another_form_of_its_letters_is_the_same_variant(there):
    assert figure(there, variant=" Kestelle Bre\u0301vent ").variant == "Kestelle Br\u00e9vent"


@pytest.mark.parametrize(
    "changes",
    [
        {"variant": " "},
        {"document": ""},
        {"edition": " "},
        {"key": ""},
        {"kind": "colour"},
        {"text": "50"},
        {"text": "50 bar"},
        {"text": "90°"},
        {"tolerance": "soon"},
        {"kind": "length", "text": "40 N·m"},
        {"kind": "length", "text": "402 mm", "tolerance": "10 %"},
        {"kind": "length", "text": "402 mm", "tolerance": "± 1 bar"},
        {"kind": "pressure", "text": "3 bar", "tolerance": "± 5 mm"},
    ],
)
def test_a_figure_that_is_not_certain_or_has_no_source_is_refused(there, changes):
    before = shop.specifications(there.book, VARIANT)
    with pytest.raises(Refused):
        figure(there, **changes)
    assert shop.specifications(there.book, VARIANT) == before


@pytest.mark.parametrize(
    "told",
    [
        {"kind": "length", "text": "402 mm", "tolerance": "± 10"},
        {"kind": "pressure", "text": "3 bar", "tolerance": "± 5 %"},
        {"kind": "pressure", "text": "3 bar", "tolerance": "0.2"},
        {"kind": "time", "text": "10 min"},
    ],
)
def test_figures_of_other_kinds_are_kept_with_their_tolerance(there, told):
    assert figure(there, **told).tolerance == told.get("tolerance", "")


def test_a_figure_changed_before_it_was_used_is_the_one_that_counts(at):
    there = at("top nuts")
    shop.keep_specification(
        there.book, there.nadia, variant=VARIANT, key="front_strut_top_torque", kind="torque", title="Top",
        text="45 N·m", tolerance="± 10 %", **(SHEET | {"edition": "4, 2026"}),
    )  # fmt: skip
    assert "45\u202fN·m" in there.choice().label
    there.do(tool="TW-04")
    assert lacking(there.book, there.job).figures == ()


def test_a_figure_changed_after_it_was_used_leaves_the_job_as_it_was(at):
    """Nasty case 15 of the trade notes."""
    there = at("join")
    step = there.step_of("tighten", "strut_top_nuts")
    before = there.card(step).joints
    shop.keep_specification(
        there.book, there.nadia, variant=VARIANT, key="front_strut_top_torque", kind="torque", title="Top",
        text="45 N·m", tolerance="± 10 %", **(SHEET | {"edition": "4, 2026"}),
    )  # fmt: skip
    assert there.card(step).joints == before
