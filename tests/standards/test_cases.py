"""The figures against the published cases, each by its own name with source and standing beside it."""

import json
from decimal import Decimal
from pathlib import Path

import pytest

from jobbook.core.figures.registry import FIGURES
from jobbook.services.measured.reckoning import reckon

# Numbers are read exactly, as the batch reads them: 101.2 in a case is not the binary number next to it.
CASES = json.loads(
    (Path(__file__).parent / "cases.json").read_text(encoding="utf-8"), parse_float=Decimal, parse_int=Decimal
)

STANDINGS = {
    *("published", "agrees with independent libraries", "computed from the published formula", "from memory"),
}


def within(got: object, wanted: object, tolerance: Decimal) -> bool:
    if isinstance(wanted, (bool, str)):
        return got == wanted and type(got) is type(wanted)
    return abs(float(got) - float(wanted)) <= float(tolerance)


@pytest.mark.parametrize("case", CASES, ids=[f"{case['id']} [{case['source']}; {case['standing']}]" for case in CASES])
def test_a_figure_agrees_with_its_published_value(case) -> None:
    result = reckon(case["reckon"], case["given"])
    assert case["expect"]
    for key, (wanted, tolerance) in case["expect"].items():
        assert within(result[key], wanted, tolerance), (
            f"{key} is {result[key]}, {case['source']} ({case['standing']}) has {wanted}"
        )


def test_every_case_names_a_figure_of_the_list_a_source_and_its_standing() -> None:
    assert len(CASES) == 272
    assert {case["reckon"] for case in CASES} <= set(FIGURES)
    assert all(case["source"] for case in CASES)
    assert {case["standing"] for case in CASES} <= STANDINGS


def test_a_wrong_result_is_noticed() -> None:
    assert not within(1.0, Decimal("1.1"), Decimal("0.05"))
    assert not within("5", "4", Decimal(0))
    assert not within(1, True, Decimal(0))
