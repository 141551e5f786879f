"""What the window relies on in the binding to Qt."""

import sys

from PySide6.QtCore import QObject, Signal

ROUNDS = 200


class Bell(QObject):
    rang = Signal(bool)


def test_a_signal_keeps_the_count_of_references_to_true_and_none():
    """A binding that loses one with every signal ends the program after some ten thousand of them (seen in 6.12.0)."""
    bell = Bell()
    bell.rang.connect(lambda on: None)
    before = sys.getrefcount(True), sys.getrefcount(None)
    for _ in range(ROUNDS):
        bell.rang.emit(True)
    lost = before[0] - sys.getrefcount(True), before[1] - sys.getrefcount(None)
    assert max(lost) < ROUNDS // 2
