from dataclasses import replace

from jobbook.paperwork import evidence
from jobbook.paperwork.codes import Test

from . import records
from .reading import pages


def text(**changes):
    return " ".join(" ".join(pages(evidence.to_pdf(records.evidence(**changes), head=records.HEAD))).split())


def test_fitting_and_failure_stand_in_two_blocks():
    printed = text()
    fitted, failed = printed.index("When it was fitted"), printed.index("When it failed")
    assert fitted < printed.index("18 Sep 2025 by Bram Ferro") < failed < printed.index("14 months, 21 930 km")


def test_without_a_failure_the_paper_says_that_none_is_recorded():
    printed = text(failure=None)
    assert "no failure of this part is recorded" in printed
    assert "When it failed" not in printed


def test_unknown_facts_print_as_unknown_and_missing_ones_as_not_recorded():
    printed = text(fitting=replace(records.evidence().fitting, serial="unknown", fitting_invoice=""))
    assert "Serial or batch unknown" in printed
    assert "Fitting invoice not recorded" in printed


def test_every_figure_of_the_joint_sheet_leads_to_document_and_edition():
    printed = text()
    for mark in ("1", "2"):
        assert f"N·m ± 5 % [{mark}]" in printed or f"N·m ± 10 % [{mark}]" in printed
    assert "[1] maker's sheet VH-SUS-12, edition 3, 2024, read by Imke Tolland on 20 Nov 2026" in printed


def test_a_test_that_was_not_done_does_not_look_like_one_that_was():
    printed = text(excluded=(Test("Relay, contacts", "not done", "", "no relay tester in the shop", "Bram Ferro"),))
    assert "Relay, contacts not done no relay tester in the shop Bram Ferro" in printed


def test_a_stand_is_charted_and_without_one_there_is_no_chart():
    assert "Leak-down stand, drop in mm" in text()
    assert "FL 36" in text()
    assert "Leak-down" not in text(leak_down=None)


def test_long_words_under_the_chart_stand_beside_it_instead():
    long = "17:40, 18 °C in the yard behind the shop, in the lee of the wall"
    printed = text(leak_down=replace(records.stand(), start=long))
    assert f"First {long}".replace(" ", "") in printed.replace(" ", "")


def test_a_height_that_was_not_possible_says_why_even_at_length():
    why = "not possible: the vehicle came on its stops and no corner could be raised before the strip-down"
    corners = (replace(records.corners()[0], before=None, before_words=why), *records.corners()[1:])
    printed = text(heights=replace(records.heights(), corners=corners))
    assert f"before: {why}".replace(" ", "") in printed.replace(" ", "")


def test_files_within_the_paper_are_named():
    assert "entries.json: 214 entries of the book" in text()
    assert "Files within this paper none" in text(attached=())
