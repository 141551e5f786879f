"""Every figure can be asked in words, and what comes out has its name, its unit and its standing."""

import json
from pathlib import Path

import pytest

from jobbook.core.figures.registry import FIGURES
from jobbook.services.measured.figure_notes import STANDING, notes
from jobbook.services.measured.reckoning import reckon
from jobbook.ui.figures.results import RESULTS, TOLD_ELSEWHERE, number, results
from jobbook.ui.figures.words import EXAMPLES, input_words

CASES = Path(__file__).resolve().parents[2] / "standards" / "cases.json"
ALL = pytest.mark.parametrize("name", FIGURES)


def example(name: str) -> dict[str, str]:
    """The example of a figure; where one of two inputs is given, the first of them."""
    figure = FIGURES[name]
    left_out = [one.key for one in figure.inputs if one.key in figure.one_of][1:]
    return {key: text for key, text in EXAMPLES[name].items() if key not in left_out}


@ALL
def test_every_input_has_an_example_that_can_be_computed_with(name):
    assert set(EXAMPLES[name]) == {one.key for one in FIGURES[name].inputs}
    given = example(name)
    shown = results(reckon(name, given), given)
    assert shown
    assert all(one.value and "{" not in one.line for one in shown)


@ALL
def test_the_second_way_to_ask_has_an_example_too(name):
    figure = FIGURES[name]
    for key in figure.one_of:
        given = {other: text for other, text in EXAMPLES[name].items() if other not in figure.one_of - {key}}
        assert reckon(name, given)


@ALL
def test_every_result_has_a_name_in_words(name):
    assert set(FIGURES[name].results) <= set(RESULTS) | set(TOLD_ELSEWHERE)


@ALL
def test_formula_range_and_source_are_said(name):
    told = notes(name)
    assert all((told.formula, told.holds_for, told.source, told.standing))
    assert "Return" not in told.formula
    assert [word for word in ("Errors:", "Source:", "N*m", "`") if word in told.formula + told.where] == []


def test_the_standing_that_is_shown_is_that_of_the_cases():
    """The standings beside the cases: tests/standards/cases.json."""
    stood: dict[str, set[str]] = {}
    for case in json.loads(CASES.read_text(encoding="utf-8")):
        stood.setdefault(case["reckon"], set()).add(case["standing"])
    assert set(STANDING) == set(FIGURES)
    for name, standings in stood.items():
        assert standings <= set(STANDING[name]), name


def test_a_label_names_the_unit_by_an_example():
    assert input_words("adapter", "lever") == "Lever L, drive centre to middle of the grip, like 400 mm"


@pytest.mark.parametrize(
    ("value", "shown"),
    [(99.25504, "99.255"), (73123.4, "73 123"), (-0.0106984, "−0.010698"), (0, "0"), (1e-7, "0.0000001"), (4, "4")],
)
def test_a_figure_is_written_without_a_power_of_ten(value, shown):
    assert number(value).replace("\u202f", " ") == shown
