"""One flawed method for each rule that a file can break: the rule alone catches it, at the step that is wrong."""

from pathlib import Path

import pytest

from jobbook.core.work.checker import check

FLAWED = sorted((Path(__file__).parents[2] / "data" / "methods" / "flawed").glob("*.toml"))
MARK = "# the flaw"
ACT_RULES = [
    "out-of-state",
    "lift-with-levelling-active",
    "levelling-woken",
    "weight-on-empty-spring",
    "promise-to-fill",
    "half-built",
    "under-load",
    "under-pressure",
    "open-line-left",
    "filled-while-open",
    "still-held",
    "restraints-live",
    "single-use-again",
    "hand-first",
    "tightened-hanging",
    "not-fit-to-drive",
]
END_RULES = [
    "joint-left-loose",
    "line-left-open",
    "left-off",
    "left-out",
    "left-behind",
    "condition-left",
    "heights-missing",
    "not-calibrated",
    "not-aligned",
    "not-driven",
    "codes-not-read",
]
TEXT_RULES = ["unknown-name", "unused-name", "impossible-value", "no-caution"]


def rule_of(path: Path) -> str:
    return path.name.split(".")[0]


def where(text: str) -> tuple[int | str, int]:
    """The number and the line of the step that carries the mark; a marked declaration is step 0."""
    number = 0
    for line, words in enumerate(text.splitlines(), start=1):
        number += words.startswith("[[step]]")
        if MARK in words:
            return (number, line) if words.startswith("[[step]]") else (0, line)
    return "end", 0


def test_there_is_a_flawed_method_for_every_rule_that_a_file_can_break() -> None:
    assert {rule_of(path) for path in FLAWED} == {*ACT_RULES, *END_RULES, *TEXT_RULES}


@pytest.mark.parametrize("path", FLAWED, ids=lambda path: path.stem)
def test_a_flawed_method_is_caught_by_its_rule_alone(path: Path) -> None:
    findings = check(path.read_bytes())
    assert {finding.rule for finding in findings} == {rule_of(path)}, [f.message for f in findings]


@pytest.mark.parametrize("path", FLAWED, ids=lambda path: path.stem)
def test_a_finding_names_the_step_that_is_wrong_and_its_line(path: Path) -> None:
    step, line = where(path.read_text("utf-8"))
    findings = check(path.read_bytes())
    if rule_of(path) in TEXT_RULES and step in (0, "end"):
        assert {finding.step for finding in findings} <= {0, "end"}
    else:
        assert {finding.step for finding in findings} == {step}
    if isinstance(step, int) and step > 0:
        assert {finding.line for finding in findings} == {line}
        assert len(findings) == 1


@pytest.mark.parametrize("path", FLAWED, ids=lambda path: path.stem)
def test_a_finding_says_in_a_whole_sentence_what_is_wrong(path: Path) -> None:
    for finding in check(path.read_bytes()):
        assert finding.message[0].isupper() or not finding.message[0].isalpha()
        assert finding.message.endswith(".")
        assert len(finding.message.split()) > 3
