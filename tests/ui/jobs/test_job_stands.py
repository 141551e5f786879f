"""Heights and leak-down stands on the Diagnosis tab, through the presenter and the page, on a real book."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from jobbook.services.measured import stands
from jobbook.services.measured.diagnosing import diagnosis
from jobbook.ui.paint import DrawingWidget
from tests.ui.jobs.presented import at_work, deed

EVENING = {"heights FL": "402", "heights FR": "404", "heights RL": "398", "heights RR": "399"}
MORNING = {"heights FL": "366", "heights FR": "399", "heights RL": "394", "heights RR": "395"}
LEFT = EVENING | {"temperature": "18", "levelling": "off", "how": "menu", "ignition": "off", "doors": "shut"}
FOUND = MORNING | {"temperature": "11", "woken": "no", "door": "no", "codes": "no"}


def block(seen, title):
    return next(one for one in seen.tabs["diagnosis"].blocks if one.title.startswith(title))


@pytest.fixture
def diagnosing(there):
    presenter, seen = at_work(there)
    presenter.open_tab("diagnosis")
    return presenter, seen


def test_a_reading_is_kept_and_corrected_on_the_tab(diagnosing):
    presenter, seen = diagnosing
    presenter.do(deed(seen, "diagnosis", "heights", ""), MORNING | {"heights FL": "366 367 366", "temperature": "11"})
    newest = block(seen, "Heights").lines[0]
    assert newest.words == "before the work: FL 366.3 · FR 399 · RL 394 · RR 395"
    assert "read FL 366 367 366" in newest.beside
    assert "not judged: no limits from a document" in newest.beside
    correct = newest.deeds[0]
    assert next(ask.value for ask in correct.asks if ask.name == "heights").startswith("FL 366 367 366; FR 399")
    presenter.do(correct, {"heights FL": "368", "reason": "rule misread"})
    assert seen.refusals == []
    assert "FL 368" in block(seen, "Heights").lines[0].words


def test_a_stand_runs_on_the_left_page_until_it_is_ended_and_then_shows_its_chart(diagnosing, there):
    presenter, seen = diagnosing
    presenter.do(deed(seen, "diagnosis", "stand", "begin"), LEFT)
    there.clock.later(hours=13.5)
    presenter.refresh()
    assert seen.sheet.state[0].text == "stand since 09:00, 13.5 h"
    assert seen.sheet.cry.startswith("Leak-down stand since 09:00: open no door")
    running = block(seen, "Leak-down stand")
    assert (running.drawing, running.deeds) == (None, ())
    presenter.do(running.lines[0].deeds[0], FOUND)
    assert seen.refusals == []
    ended = block(seen, "Leak-down stand")
    assert ended.lines[0].words == "FL fell 36 mm in 13.5 h, the others 4.3 mm on average: 31.7 mm beyond the rest."
    assert "FL 36" in ended.drawing.words
    assert not any("stand since" in word.text for word in seen.sheet.state)
    told = next(line for line in block(seen, "The order").lines if line.words == "Leak-down stand")
    assert (told.mark, told.beside) == ("disc", f"done · {ended.lines[0].words}")


def test_how_it_was_left_and_found_are_corrected_each_with_a_reason(diagnosing, there):
    presenter, seen = diagnosing
    presenter.do(deed(seen, "diagnosis", "stand", "begin"), LEFT)
    there.clock.later(hours=12)
    presenter.do(block(seen, "Leak-down stand").lines[0].deeds[0], FOUND)
    _, left, found = block(seen, "Leak-down stand").lines
    presenter.do(found.deeds[0], {"door": "yes", "reason": ""})
    assert "needs its reason" in seen.refusals[-1]
    presenter.do(found.deeds[0], {"door": "yes", "reason": "the clerk fetched a coat"})
    shows = block(seen, "Leak-down stand").lines[0]
    assert (shows.mark, shows.loud) == ("bar", False)
    assert "A door was opened" in shows.beside
    presenter.do(left.deeds[0], {"parked": "outside", "reason": "left out"})
    assert "parked: outside" in block(seen, "Leak-down stand").lines[1].beside


def test_a_stand_given_up_keeps_its_reason(diagnosing):
    presenter, seen = diagnosing
    presenter.do(deed(seen, "diagnosis", "stand", "begin"), LEFT)
    presenter.do(block(seen, "Leak-down stand").lines[0].deeds[1], {"reason": "the bay was needed"})
    assert "the bay was needed" in block(seen, "Leak-down stand").lines[0].beside
    assert [one.of for one in block(seen, "Leak-down stand").deeds] == ["begin"]


def test_pressure_and_compressor_are_reckoned_into_tests(diagnosing):
    presenter, seen = diagnosing
    told = {"where": "FL", "volume": "5", "start": "7", "end": "6", "duration": "1"}
    presenter.do(deed(seen, "diagnosis", "pressure"), told | {"start_temperature": "20", "end_temperature": ""})
    assert "the temperature at the end is missing" in seen.refusals[-1]
    presenter.do(deed(seen, "diagnosis", "pressure"), told | {"start_temperature": "20", "end_temperature": "20"})
    presenter.do(deed(seen, "diagnosis", "compressor"), {"run": "3", "rest": "12"})
    tests = {line.words: line.beside for line in block(seen, "Further tests").lines}
    assert "like a hole of 0.32 mm" in tests["Pressure test, FL"]
    assert "on for 20 % of the time" in tests["Compressor"]


def test_what_most_people_leave_out_is_folded_away_until_it_is_asked_for(qtbot, page):
    tab = page().tabs["diagnosis"]
    qtbot.mouseClick(shown(qtbot, tab, "Measure the heights…"), Qt.MouseButton.LeftButton)
    more = shown(qtbot, tab, "More: load")
    form = more.parentWidget()
    assert not form.fields["load"].isVisible()
    qtbot.mouseClick(more, Qt.MouseButton.LeftButton)
    assert form.fields["load"].isVisible()
    assert form.fields["load"].has_focus()
    assert more.isHidden()


def test_enter_leaves_out_what_is_folded_away(qtbot, page, there):
    tab = page().tabs["diagnosis"]
    qtbot.mouseClick(shown(qtbot, tab, "Measure the heights…"), Qt.MouseButton.LeftButton)
    form = shown(qtbot, tab, "More: load").parentWidget()
    form.show_answers({"heights": "FL 366; FR 399; RL 394; RR 395", "temperature": "11"})
    form.fields["temperature"].setFocus()
    qtbot.keyClick(form.fields["temperature"].edit, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: len(diagnosis(there.book, there.job).readings) == 2)


def test_the_chart_of_a_stand_is_shown_and_read_aloud(qtbot, page, there):
    begun = stands.begin_stand(there.book, there.bram, there.job, LEFT)
    there.clock.later(hours=13.5)
    stands.end_stand(there.book, there.bram, there.job, begun.entry, FOUND)
    tab = page().tabs["diagnosis"]
    drawn = [one for one in tab.findChildren(DrawingWidget) if one.accessibleName().startswith("Drop in mm from")]
    assert "FL 36" in drawn[0].accessibleName()
    qtbot.waitUntil(drawn[0].isVisible)


def shown(qtbot, tab, text):
    """The button that begins with this text, once it is laid out."""
    button = next(one for one in tab.findChildren(QPushButton) if one.text().startswith(text) and not one.isHidden())
    qtbot.waitUntil(lambda: button.isVisible() and button.height() > 0)
    return button
