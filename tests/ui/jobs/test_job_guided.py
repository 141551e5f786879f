"""The order of the tests on the Diagnosis tab, findings, and causes, through the presenter and the page."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from jobbook.core.measured.guided import ORDER
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.services.measured.diagnosing import diagnosis
from jobbook.services.measured.findings import findings
from jobbook.services.office import desk
from jobbook.services.office.intake import Arrival, take_in
from jobbook.ui.jobs.tabs import guided
from tests.ui.jobs.presented import at_work, deed

EVENING = {"heights FL": "402", "heights FR": "404", "heights RL": "398", "heights RR": "399"}
LEFT = EVENING | {"temperature": "18", "levelling": "off", "how": "menu", "ignition": "off", "doors": "shut"}
SOAP = {"bubbles": "steady", "corner": "FL", "where": "lower roll", "words": "", "hole": ""}


def block(seen, title):
    return next(one for one in seen.tabs["diagnosis"].blocks if one.title.startswith(title))


def line(seen, words):
    return next(one for one in block(seen, "The order").lines if one.words.startswith(words))


@pytest.fixture
def diagnosing(there):
    presenter, seen = at_work(there)
    presenter.open_tab("diagnosis")
    return presenter, seen


def mains(seen):
    return [one.words for one in block(seen, "The order").lines if any(deed.main for deed in one.deeds)]


def test_every_test_stands_in_its_order_and_the_first_without_an_answer_is_the_next(diagnosing):
    presenter, seen = diagnosing
    assert [one.words for one in block(seen, "The order").lines] == [test.title for test in ORDER]
    assert mains(seen) == ["Fault codes of every module saved"]  # the heights were read when it was taken in
    no_answer = {"answer": "not possible", "reason": "the module does not answer"}
    presenter.do(deed(seen, "diagnosis", "guided", "codes"), no_answer)
    assert mains(seen) == [ORDER[2].title]
    assert line(seen, "Fault codes").mark == "bar"


def test_heights_and_codes_that_were_kept_elsewhere_answer_their_tests(diagnosing):
    presenter, seen = diagnosing
    first = line(seen, "Heights as it stands")
    assert (first.mark, first.beside) == ("disc", "done · FL 366 · FR 399 · RL 394 · RR 395")
    assert line(seen, "Heights after it levelled").mark == "ring"
    presenter.do(deed(seen, "diagnosis", "code", "none"), {"module": "Levelling", "when": "before"})
    assert line(seen, "Fault codes").beside == "done · 1 module read: Levelling"
    presenter.do(deed(seen, "diagnosis", "heights", ""), EVENING | {"heights FL": "360", "stood": "as it stood"})
    assert line(seen, "Heights after it levelled").mark == "ring", "another morning is no levelled vehicle"
    levelled = next(one for one in line(seen, "Heights after it levelled").deeds if one.key == "heights")
    (stood,) = (ask.value for ask in levelled.asks if ask.name == "stood")
    presenter.do(levelled, EVENING | {"heights FL": "399", "stood": stood})
    assert line(seen, "Heights as it stands").beside == "done · FL 366 · FR 399 · RL 394 · RR 395"
    assert line(seen, "Heights after it levelled").beside == "done · FL 399 · FR 404 · RL 398 · RR 399"


def test_while_a_stand_runs_nothing_is_next_but_to_end_it(diagnosing, there):
    presenter, seen = diagnosing
    presenter.do(deed(seen, "diagnosis", "stand", "begin"), LEFT)
    running = line(seen, "Leak-down stand")
    assert (running.mark, running.beside[:9]) == ("half", "it stands")
    assert mains(seen) == ["Leak-down stand"]
    presenter.do(next(one for one in running.deeds if one.of.startswith("stop")), {"reason": "the customer came"})
    assert line(seen, "Leak-down stand").mark == "ring"  # one that was given up answers nothing
    assert mains(seen) == ["Fault codes of every module saved"]


def test_a_vehicle_that_came_with_no_air_has_neither_heights_nor_stand_to_be_read(there):
    """Nasty case 8 of the trade notes."""
    vehicle = Vehicle(0, "", "FL-00-AIR", "Ondry", "van", air="rear")
    flat = Arrival(vehicle, Customer(0, "Pell Marrow"), "88 000", ("Came on a truck",), arrival="no air")
    there.job = take_in(there.book, there.bram, flat)
    lines = {one.words: one for one in guided.block(diagnosis(there.book, there.job), there.book.now()).lines}
    for title in ("Heights as it stands", "Heights after it levelled itself, normal mode", "Leak-down stand"):
        assert (lines[title].mark, lines[title].beside[:12]) == ("bar", "not possible")


def test_an_answer_shows_its_readings_and_can_be_corrected_with_what_was_answered(diagnosing):
    presenter, seen = diagnosing
    presenter.do(deed(seen, "diagnosis", "guided", "soap normal"), SOAP)
    kept = line(seen, "Soap test at normal height")
    assert kept.beside.startswith("done · bubbles: steady; corner: FL; where they rise: lower roll")
    correct = kept.deeds[0]
    assert {ask.name: ask.value for ask in correct.asks} == SOAP | {"limit hole": "", "source": "", "reason": ""}
    presenter.do(correct, SOAP | {"corner": "FR", "reason": "side misread"})
    assert seen.refusals == []
    assert "corner: FR" in line(seen, "Soap test at normal height").beside


def test_what_was_not_done_is_corrected_without_losing_its_reason(diagnosing):
    presenter, seen = diagnosing
    presenter.do(deed(seen, "diagnosis", "guided", "soap droop"), {"answer": "not done", "reason": "found before"})
    correct = line(seen, "Soap test at droop").deeds[0]
    told = {ask.name: ask.value for ask in correct.asks}
    assert told == {"answer": "not done", "why": "found before", "reason": ""}
    presenter.do(correct, told | {"answer": "not possible", "why": "cannot be lifted", "reason": "wrong answer chosen"})
    assert "not possible · cannot be lifted" in line(seen, "Soap test at droop").beside


def test_isolation_says_what_was_seen_points_to(diagnosing):
    presenter, seen = diagnosing
    given = {"sign": "one corner falls, the others hold", "corner": "FL", "changed": "", "drop": "", "time": ""}
    presenter.do(deed(seen, "diagnosis", "guided", "isolation"), given | {"words": ""})
    assert "Points to the spring or strut there" in line(seen, "Corner, line").beside


def test_a_reading_beyond_its_limit_is_loud(diagnosing):
    presenter, seen = diagnosing
    limit = {"run_time": "130", "limit run_time": "at most 120 s", "source": "VH-SUS-12, 3"}
    presenter.do(deed(seen, "diagnosis", "guided", "supply"), limit)
    kept = line(seen, "Supply")
    assert kept.loud
    assert "outside: at most 120 s by VH-SUS-12, 3" in kept.beside


def test_what_was_keyed_from_paper_says_so_with_both_people(diagnosing, there):
    presenter, seen = diagnosing
    late = {"noted": "paper", "done_by": "nop", "done_at": "8:15"}
    presenter.do(deed(seen, "diagnosis", "guided", "soap normal"), SOAP | late)
    beside = line(seen, "Soap test at normal height").beside
    assert "Nadia Oyelaran-Pike · from paper, entered 12 Mar 2026, 09:00 by Bram Ferro" in beside


def test_a_finding_is_added_and_corrected_and_says_that_it_needs_permission(diagnosing, there):
    presenter, seen = diagnosing
    told = {"words": "Tyre RR worn to its wire", "severity": "unsafe to drive", "corner": "RR", "concern": "0"}
    presenter.do(deed(seen, "diagnosis", "finding"), told | {"needs": "yes"})
    shown = block(seen, "Findings").lines[0]
    assert shown.loud
    assert shown.beside == "RR · unsafe to drive · needs permission · Bram Ferro"
    again = {ask.name: ask.value for ask in shown.deeds[0].asks}
    presenter.do(shown.deeds[0], again | {"needs": "no", "reason": "the customer brings new ones"})
    assert seen.refusals == []
    assert [one.needs_permission for one in findings(there.book, there.job)] == [False]


def test_a_weak_cause_is_told_what_it_lacks_and_is_kept_all_the_same(diagnosing):
    presenter, seen = diagnosing
    asked = deed(seen, "diagnosis", "cause", "1")
    hint = next(ask.hint for ask in asked.asks if ask.name == "cause")
    assert "the test that proves it" in hint("Leaking strut")
    assert "“comprssor”: compressor?" in hint("comprssor dead ")
    presenter.do(asked, {"cause": "Leaking strut", "confidence": "probable", "correction": ""})
    assert seen.refusals == []
    assert "Not named yet" in block(seen, "Cause").lines[0].beside


def in_sight(qtbot, tab, name):
    """The button of that name that is shown; those of before may still be on their way out."""

    def found():
        return [made for made in tab.findChildren(QPushButton) if made.accessibleName() == name and made.isVisible()]

    qtbot.waitUntil(lambda: bool(found()))
    return found()[0]


def test_a_test_is_answered_on_the_page_by_keyboard_alone(qtbot, page, there):
    shown = page()
    shown.right.open_tab("diagnosis")
    tab = shown.tabs["diagnosis"]
    name = f"Done… {ORDER[2].title}"
    button = in_sight(qtbot, tab, name)
    button.setFocus()
    qtbot.keyClick(button, Qt.Key.Key_Return)
    form = tab._form.form
    qtbot.waitUntil(form.fields["tyres"].edit.hasFocus)
    qtbot.keyClicks(form.fields["tyres"].edit, "all of one size")
    for field in ("tyres", "load", "mode", "changed"):
        qtbot.keyClick(form.fields[field].edit, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: form.fields["words"].edit.hasFocus())
    tab._form.keep.click()
    qtbot.waitUntil(lambda: any(one.name == ORDER[2].title for one in desk.tests(there.book, there.job)))


def test_tab_goes_from_the_last_question_to_what_is_folded_away_and_then_to_keep(qtbot, page):
    shown = page()
    shown.right.open_tab("diagnosis")
    tab = shown.tabs["diagnosis"]
    name = f"Done… {ORDER[2].title}"
    in_sight(qtbot, tab, name).click()
    form = tab._form.form
    qtbot.waitUntil(form.fields["tyres"].edit.hasFocus)
    following, at = [], form.fields["words"].edit.nextInFocusChain()
    while at is not tab._form.cancel:
        following += [at] if at.isVisible() and at.focusPolicy() & Qt.FocusPolicy.TabFocus else []
        at = at.nextInFocusChain()
    assert following == [form.more, tab._form.keep]
