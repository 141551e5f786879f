"""Fault codes before and after the work, with the module that showed them; and tests with their answers."""

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.platypus import Flowable

from jobbook.paperwork.blocks import answer_mark, ruled
from jobbook.paperwork.typed import NOT_RECORDED


@dataclass(frozen=True)
class CodeRow:
    """One fault code as shown, or with `code` "none" a module that was read and showed none."""

    module: str
    when: str
    at: str = ""
    odometer: str = ""
    code: str = ""
    text: str = ""
    status: str = ""
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
    rows = [(_read(c), c.module, c.code, c.text, c.status, c.cleared) for c in codes]
    heads = ("Read", "Module", "Code", "Text as shown", "Status", "Cleared")
    return ruled("Fault codes", heads, (21, 18, 11, 22, 12, 16), rows, width)


def _read(row: CodeRow) -> str:
    return "\n".join([row.when or NOT_RECORDED, ", ".join(t for t in (row.at, row.odometer) if t.strip())])


def tests_table(title: str, tests: Sequence[Test], width: float) -> list[Flowable]:
    """Tests with their answers: a test that was not done never looks like one that was passed."""
    rows = [
        (answer_mark(t.answer), t.test, t.answer, "\n".join(x for x in (t.result, t.why) if x.strip()), t.by)
        for t in tests
    ]
    return ruled(title, ("", "Test", "Answer", "Result, or why not", "By"), (3, 25, 13, 41, 18), rows, width)
