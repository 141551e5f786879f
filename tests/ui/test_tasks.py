"""The lanes: work leaves the window's thread, its outcome comes back on it."""

import threading

import pytest

from jobbook.core.errors import Refused
from jobbook.ui.tasks import FAILED, STOPPED


class Outcomes:
    """Where outcomes are noted with the thread on which they came."""

    def __init__(self):
        self.done, self.refused, self.threads = [], [], []

    def take(self, result):
        self.done.append(result)
        self.threads.append(threading.current_thread())

    def refuse(self, error):
        self.refused.append(str(error))
        self.threads.append(threading.current_thread())


@pytest.fixture
def outcomes():
    return Outcomes()


def test_what_was_kept_is_told_on_the_windows_thread(qtbot, lanes, outcomes):
    lanes.keep(threading.current_thread, outcomes.take, outcomes.refuse)
    qtbot.waitUntil(lambda: bool(outcomes.done))
    assert outcomes.done[0] is not threading.main_thread()
    assert outcomes.threads == [threading.main_thread()]


def test_writing_is_done_one_after_the_other_in_the_order_given(qtbot, lanes, outcomes):
    order, gate = [], threading.Event()
    lanes.keep(lambda: (gate.wait(5), order.append("first")), outcomes.take, outcomes.refuse)
    lanes.keep(lambda: order.append("second"), outcomes.take, outcomes.refuse)
    assert order == []
    gate.set()
    qtbot.waitUntil(lambda: len(outcomes.done) == 2)
    assert order == ["first", "second"]


def test_an_expected_error_becomes_the_pages_sentence(qtbot, lanes, outcomes):
    def refuse():
        raise Refused("Nothing was kept: the line is open.")

    lanes.keep(refuse, outcomes.take, outcomes.refuse)
    qtbot.waitUntil(lambda: bool(outcomes.refused))
    assert outcomes.refused == ["Nothing was kept: the line is open."]
    assert outcomes.done == []


def test_a_defect_of_ours_is_raised_on_the_windows_thread(qtbot, lanes, outcomes):
    with qtbot.captureExceptions() as caught:
        lanes.keep(lambda: 1 // 0, outcomes.take, outcomes.refuse)
        qtbot.waitUntil(lambda: bool(caught))
    assert caught[0][0] is ZeroDivisionError
    assert outcomes.done == []
    assert outcomes.refused == [FAILED]  # whoever waited is free again


def test_slow_work_says_how_far_it_is(qtbot, lanes, outcomes):
    gate, seen = threading.Event(), []
    lanes.begun.connect(lambda task: task.progress.connect(lambda done, total: seen.append((done, total))))

    def work(progress):
        gate.wait(5)
        progress.report(3, 8)
        return "paper"

    lanes.slow("Making the paper", work, outcomes.take, outcomes.refuse)
    gate.set()
    qtbot.waitUntil(lambda: bool(outcomes.done and seen))
    assert seen == [(3, 8)]
    assert outcomes.done == ["paper"]
    assert lanes.tasks == frozenset()


def test_cancelled_work_hears_of_it_and_its_outcome_is_not_shown(qtbot, lanes, outcomes):
    begun, gate, heard = [], threading.Event(), []
    lanes.begun.connect(begun.append)

    def work(progress):
        gate.wait(5)
        heard.append(progress.cancelled)

    lanes.slow("Making the paper", work, outcomes.take, outcomes.refuse)
    begun[0].cancel()
    with qtbot.waitSignal(begun[0].ended):
        gate.set()
    assert heard == [True]
    assert outcomes.done == []
    assert outcomes.refused == [STOPPED.format("Making the paper")]


def test_slow_work_that_breaks_leaves_no_task_behind(qtbot, lanes, outcomes):
    with qtbot.captureExceptions() as caught:
        lanes.slow("Making the paper", lambda progress: [][1], outcomes.take, outcomes.refuse)
        qtbot.waitUntil(lambda: bool(caught))
    assert caught[0][0] is IndexError
    assert lanes.tasks == frozenset()


def test_closing_waits_for_what_is_being_written(lanes, outcomes):
    written = []
    lanes.keep(lambda: written.append("entry"), outcomes.take, outcomes.refuse)
    lanes.close()
    assert written == ["entry"]
