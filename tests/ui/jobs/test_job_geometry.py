"""Wheel geometry on the Final checks tab, through the presenter, on a real book; and its field."""

import pytest
from PySide6.QtCore import Qt

from jobbook.services import files
from jobbook.services.measured.alignment_asks import geometry_asks
from jobbook.ui.forms import Form, field_for
from tests.ui.jobs.presented import at_work, deed

FOUND = {"camber FL": "−1°10′", "camber FR": "−0°40′", "toe FL": "0°14′", "toe FR": "0°02′"}
AS_SET = {"camber FL": "−0°45′", "camber FR": "−0°40′", "toe FL": "1.2 mm", "toe FR": "1.1 mm", "toe diameter": "16 in"}


def block(seen):
    return next(one for one in seen.tabs["checks"].blocks if one.title == "Wheel geometry")


@pytest.fixture
def checking(there):
    presenter, seen = at_work(there)
    presenter.open_tab("checks")
    return presenter, seen


def test_an_empty_block_says_what_comes_first_and_offers_three_ways(checking):
    _, seen = checking
    assert "Read the heights first" in block(seen).nothing
    assert [one.label for one in block(seen).deeds] == ["As found…", "As set…", "Not set here…", "Attach the sheet…"]
    assert block(seen).drawing is None


def test_found_and_set_are_kept_drawn_and_corrected_on_the_tab(checking):
    presenter, seen = checking
    presenter.do(deed(seen, "checks", "geometry", "measure"), FOUND)
    assert block(seen).deeds[0].label == "Measure again…"
    presenter.do(deed(seen, "checks", "geometry", "set"), AS_SET)
    assert seen.refusals == []
    newest, first = block(seen).lines
    assert (newest.words, first.words) == ("As set", "Before setting")
    assert "at FL 366 · FR 399 · RL 394 · RR 395 mm (read before the work)" in newest.beside
    assert "no limits from a document" in newest.beside
    assert "FL before −1°10′, after −0°45′" in block(seen).drawing.words
    correct = newest.deeds[0]
    assert next(ask.value for ask in correct.asks if ask.name == "toe") == "FL 1.2 mm; FR 1.1 mm; diameter 16 in"
    presenter.do(correct, {"camber FL": "−0°54′", "reason": "wrong column"})
    assert seen.refusals == []
    assert "after −0°54′" in block(seen).drawing.words


def test_what_cannot_be_read_is_said_and_nothing_is_kept(checking):
    presenter, seen = checking
    presenter.do(deed(seen, "checks", "geometry", "set"), {"toe FL": "1.2 mm"})
    assert "diameter of the rim" in seen.refusals[-1]
    assert block(seen).lines == ()


def test_an_answer_in_place_of_a_reading_keeps_its_mark_and_its_reason(checking):
    presenter, seen = checking
    presenter.do(
        deed(seen, "checks", "geometry", "excuse"), {"answer": "declined", "reason": "by telephone, Mr Harrow"}
    )
    (line,) = block(seen).lines
    assert (line.words, line.mark) == ("declined: by telephone, Mr Harrow", "bar")


def test_the_diameter_is_asked_only_where_toe_is_typed_in_mm(qtbot, dressed):
    toe = field_for(next(ask for ask in geometry_asks(()) if ask.name == "toe"))
    qtbot.addWidget(toe)
    across = toe.edits["diameter"]
    qtbot.keyClicks(toe.edits["FL"], "0.15")
    assert across.isHidden()
    qtbot.keyClicks(toe.edits["FR"], "1,5 mm")
    assert not across.isHidden()
    qtbot.keyClicks(across, "16 in")
    assert toe.answers() == {"toe FL": "0.15", "toe FR": "1,5 mm", "toe RL": "", "toe RR": "", "toe diameter": "16 in"}


def test_enter_goes_from_wheel_to_wheel_and_on_to_the_next_angle(qtbot, dressed):
    form = Form(geometry_asks(()), 2)
    qtbot.addWidget(form)
    with qtbot.waitActive(form):
        form.show()
        form.activateWindow()
    form.focus_first()
    camber, caster = form.fields["camber"], form.fields["caster"]
    for wheel in ("FL", "FR", "RL", "RR"):
        assert camber.edits[wheel].hasFocus()
        qtbot.keyClick(camber.edits[wheel], Qt.Key.Key_Return)
    assert caster.edits["FL"].hasFocus()


def test_the_sheet_of_the_aligner_is_attached_and_can_be_opened(checking, tmp_path):
    presenter, seen = checking
    sheet = tmp_path / "G-26-204.pdf"
    sheet.write_bytes(b"%PDF-1.4 as the aligner saved it")
    presenter.do(deed(seen, "checks", "geometry", "sheet"), {"path": str(sheet)})
    assert seen.refusals == []
    (line,) = block(seen).lines
    assert line.words == "Sheet: G-26-204.pdf"
    presenter.do(line.deeds[0], {})
    assert seen.files[-1][1] == sheet.read_bytes()


def test_a_file_that_was_said_to_belong_to_the_geometry_where_it_arrived_is_its_sheet(checking, there, tmp_path):
    presenter, seen = checking
    scan = tmp_path / "scan 0412.pdf"
    scan.write_bytes(b"%PDF-1.4 laid into the folder of pictures")
    files.add_files(there.book, there.bram, there.job, [scan])
    (kept,) = files.files_of(there.book, there.job)
    presenter.open_tab("checks")
    sheet = next(ask for ask in deed(seen, "checks", "geometry", "measure").asks if ask.name == "sheet")
    assert (sheet.value, [one.label for one in sheet.options]) == ("", ["scan 0412.pdf"])
    files.assign(there.book, there.bram, there.job, [kept.entry], "geometry")
    presenter.open_tab("checks")
    asked = deed(seen, "checks", "geometry", "measure")
    presenter.do(asked, FOUND)
    assert next(ask.value for ask in asked.asks if ask.name == "sheet") == str(kept.entry)
    assert "sheet scan 0412.pdf" in block(seen).lines[0].beside
    assert [one.words for one in block(seen).lines][-1] == "Sheet: scan 0412.pdf"
