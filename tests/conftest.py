"""What holds for every test: no screen, repeatable chance, and nothing left running."""

import gc
import os
import random
import sys
import threading
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

# The same examples on every run and every machine, so that a failure is seen by everybody and a pass by nobody's luck.
# A shared machine makes a slow example, not a wrong one.
settings.register_profile(
    "house",
    derandomize=True,
    max_examples=60,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
    database=None,
)
settings.load_profile("house")


@pytest.fixture(autouse=True)
def chance_repeats() -> None:
    random.seed(20251)


@pytest.fixture(autouse=True)
def nothing_is_left_running() -> Iterator[None]:
    """Fail the test that started a thread and did not end it. A thread that is ending is given a second."""
    before = set(threading.enumerate())
    yield
    for thread in set(threading.enumerate()) - before:
        thread.join(timeout=1)
    left = [
        thread.name for thread in set(threading.enumerate()) - before if thread.is_alive() and not _of_a_pool(thread)
    ]
    assert not left, f"the test left threads running: {', '.join(left)}"


@pytest.fixture(autouse=True)
def no_timer_is_left_ticking(request: pytest.FixtureRequest) -> Iterator[None]:
    """Fail the test of a window that left a timer running which its widgets did not take with them."""
    yield
    if "qapp" not in request.fixturenames or "PySide6.QtCore" not in sys.modules:
        return
    from PySide6.QtCore import QTimer
    from shiboken6 import isValid

    ticking = [thing for thing in gc.get_objects() if isinstance(thing, QTimer) and isValid(thing) and thing.isActive()]
    for timer in ticking:
        timer.stop()
    assert not ticking, f"the test left timers running: {ticking}"


def _of_a_pool(thread: threading.Thread) -> bool:
    # Qt's own pool keeps its threads for the next task; Python sees them as dummies that it did not start.
    return thread.name.startswith("Dummy-")
