"""The left page: everything known in sight at 1366 × 768, and no loose end cut or lost."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from jobbook.core.work.model import LooseEnd
from jobbook.services.sheet.sheets import Staff, StateWord
from jobbook.ui import look
from jobbook.ui.jobs.left import LeftPage, corner_heights, in_lines, state_runs
from jobbook.ui.jobs.left_loose import LooseRow, MoreRow
from tests.ui.jobs import strut_job as job

TODAY = date(2026, 3, 12)
PHRASE = "Strut lower bolt FL by hand, tighten it at ride height and look at it again after the road test"
HEIGHT = 626  # what a window of 1366 × 768 leaves between its head and its foot


@pytest.fixture
def left(qtbot, dressed):
    page = LeftPage()
    qtbot.addWidget(page)
    page.resize(look.LEFT_PAGE_WIDTH, HEIGHT)
    with qtbot.waitExposed(page):
        page.show()
    page.show_sheet(job.strut_sheet(), TODAY)
    return page


def rows(page) -> list[LooseRow]:
    return [row for row in page.findChildren(LooseRow) if row.isVisible()]


def test_at_the_small_screen_nothing_of_it_has_to_be_scrolled(left):
    inside = left.held.parentWidget()
    assert inside.height() <= HEIGHT
    assert left.held.mapTo(left, left.held.rect().bottomLeft()).y() < HEIGHT


def test_shown_and_counted_loose_ends_are_all_there_are(left):
    more = [row.accessibleName() for row in left.findChildren(MoreRow) if row.isVisible()]
    counted = sum(int(words.split()[1]) for words in more)
    assert len(rows(left)) + counted == len(job.LOOSE_NOW) + len(job.STILL_TO_DO)
    assert len(rows(left)) >= 4


def test_each_sentence_is_as_tall_as_it_needs(left):
    for row in rows(left):
        assert row.words.heightForWidth(row.words.width()) <= row.height() + 1


@pytest.mark.parametrize("first", range(0, 60, 15))
def test_no_length_of_a_sentence_loses_its_last_word(left, first):
    words = PHRASE.split()
    sentences = [" ".join([*words[:n], "i" * m]) for n in range(5, 11) for m in range(1, 11)][first : first + 15]
    ends = tuple(LooseEnd("r", str(n), words, since="2026-03-12T10:20:00+01:00") for n, words in enumerate(sentences))
    left.resize(left.width(), HEIGHT * 2)
    left.show_sheet(replace(job.strut_sheet(), loose_now=ends, still_to_do=()), TODAY)
    assert len(rows(left)) > 10
    for row in rows(left):
        row.layout().activate()
        assert row.words.heightForWidth(row.words.width()) <= row.height() + 1, row.words.text()


def test_more_and_show_all_lead_to_the_whole_list(left, qtbot):
    more = next(row for row in left.findChildren(MoreRow) if row.isVisible())
    with qtbot.waitSignal(left.all_wanted):
        qtbot.mouseClick(more, Qt.MouseButton.LeftButton)
    with qtbot.waitSignal(left.all_wanted):
        qtbot.keyClick(left.held, Qt.Key.Key_Return)


def test_a_very_long_loose_end_wraps_and_pushes_others_into_the_count(left):
    long = LooseEnd("finding-open", "f1", "The sleeve is chafed through beside the clip. " * 6, mark="ring", loud=True)
    left.show_sheet(replace(job.strut_sheet(), loose_now=(*job.LOOSE_NOW, long)), TODAY)
    first = rows(left)[0]
    assert first.words.text() == long.sentence
    assert first.words.heightForWidth(first.words.width()) <= first.height() + 1


def test_without_loose_ends_it_says_so_and_nothing_holds_the_release(left):
    left.show_sheet(replace(job.strut_sheet(), loose_now=(), still_to_do=(), held=""), TODAY)
    words = [shown.text() for shown in left.findChildren(QLabel) if shown.isVisible()]
    assert "Nothing is loose and nothing is left to do." in words
    assert left.held.isHidden()


def test_conditions_break_between_each_other_and_never_inside():
    words = [StateWord(text) for text in ("on the lift", "levelling off", "battery off")]
    lines = in_lines(words, lambda line: len(line) <= 2)
    assert [[word.text for word in line] for line in lines] == [["on the lift", "levelling off"], ["battery off"]]
    assert state_runs(lines[1]) == [("battery\u00a0off", "soft", False)]


def test_a_height_that_is_no_number_is_said_in_words_and_not_drawn():
    row = corner_heights(Staff("FL", "392", "402", "412", "not possible: no air"))
    assert row.before is None
    assert row.before_words == "not possible: no air"
    assert row.target == Decimal("402")


def test_a_height_that_is_not_due_yet_leaves_no_note():
    assert corner_heights(Staff("FL", before="366")).after_words == ""


def test_the_staffs_are_read_aloud(left):
    assert "FL: before 366 mm" in left._staffs.accessibleName()
