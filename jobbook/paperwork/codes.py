"""Fault codes before and after the work, with the module that showed them; and tests with their answers."""

from dataclasses import dataclass


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
