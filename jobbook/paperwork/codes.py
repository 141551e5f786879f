"""Fault codes before and after the work, with the module that showed them; and tests with their answers."""

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.platypus import Flowable

from jobbook.paperwork.blocks import answer_mark, ruled


@dataclass(frozen=True)
class CodeRow:
    """One fault code of one module, or a module that showed none: what was there before the work and after it."""

    module: str
    code: str = ""
    text: str = ""
    before: str = ""
    after: str = ""
    cleared: str = ""


@dataclass(frozen=True)
class Test:
    """One test with its answer, result and limit; `why` where the answer is not "done"."""

    __test__ = False

    test: str
    answer: str
    result: str = ""
    why: str = ""
    by: str = ""


def codes_table(codes: Sequence[CodeRow], width: float) -> list[Flowable]:
    rows = [(c.module, c.code, c.text, c.before, c.after, c.cleared) for c in codes]
    heads = ("Module", "Code", "Text as shown", "Before the work", "After the work", "Cleared")
    return ruled("Fault codes", heads, (16, 15, 21, 18, 18, 12), rows, width)


def tests_table(title: str, tests: Sequence[Test], width: float) -> list[Flowable]:
    """Tests with their answers: a test that was not done never looks like one that was passed."""
    rows = [
        (answer_mark(t.answer), t.test, t.answer, "\n".join(x for x in (t.result, t.why) if x.strip()), t.by)
        for t in tests
    ]
    return ruled(title, ("", "Test", "Answer", "Result, or why not", "By"), (3, 25, 13, 41, 18), rows, width)
