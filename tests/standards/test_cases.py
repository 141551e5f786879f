"""The figures against published values. Every case names source and standing; what is not yet built is named too."""

import json
from pathlib import Path

import pytest

from jobbook.core.figures.stages import parse_stages
from jobbook.core.figures.torque import adapter_setting, tool_range
from jobbook.core.figures.vin import read_vin
from jobbook.core.quantities import convert, read_quantity

CASES = json.loads((Path(__file__).parent / "cases.json").read_text(encoding="utf-8"))

NOT_YET_BUILT = {
    *("air-spring", "altitude", "assembly", "bolt", "caster", "cooling", "decide", "fault-code", "fill-time", "flow"),
    *("hole", "part-life", "part-life-compare", "pressure-decay", "prevailing", "readings", "thread", "thrust", "toe"),
    "tool-deviation",
}


def reckon_adapter(given: dict[str, str]) -> dict[str, object]:
    kinds = {"torque": "torque", "lever": "length", "extension": "length", "angle": "angle"}
    setting = adapter_setting(**{key: read_quantity(given[key], kind) for key, kind in kinds.items()})
    return {"setting_nm": setting.in_unit("N*m")}


def reckon_tool_range(given: dict[str, str]) -> dict[str, object]:
    verdict = tool_range(*(read_quantity(given[key], "torque") for key in ("torque", "tool_min", "tool_max")))
    return {"usable": verdict.usable, "reason": verdict.reason}


def reckon_stages(given: dict[str, str]) -> dict[str, object]:
    return {"stages": [stage.exact for stage in parse_stages(given["stages"], given.get("tolerance", ""))]}


BUILT = {
    "adapter": reckon_adapter,
    "convert": lambda given: {"value": convert(given["value"], given["to"]).amount},
    "stages": reckon_stages,
    "tool-range": reckon_tool_range,
    "vin": lambda given: vars(read_vin(given["vin"])),
}

RUN = [case for case in CASES if case["reckon"] in BUILT]


def within(got: object, wanted: object, tolerance: float) -> bool:
    if isinstance(wanted, (bool, str)):
        return got == wanted and type(got) is type(wanted)
    return abs(float(got) - wanted) <= tolerance


@pytest.mark.parametrize("case", RUN, ids=[f"{case['id']} [{case['source']}; {case['standing']}]" for case in RUN])
def test_a_figure_agrees_with_its_published_value(case) -> None:
    result = BUILT[case["reckon"]](case["given"])
    for key, (wanted, tolerance) in case["expect"].items():
        assert within(result[key], wanted, tolerance), (
            f"{key} is {result[key]}, {case['source']} ({case['standing']}) has {wanted}"
        )


def test_every_case_is_run_or_stands_among_the_figures_not_yet_built() -> None:
    assert {case["reckon"] for case in CASES} - set(BUILT) == NOT_YET_BUILT
    assert len(CASES) == 272
    assert len(RUN) == 20


def test_a_wrong_result_is_noticed() -> None:
    assert not within(1.0, 1.1, 0.05)
    assert not within("5", "4", 0)
    assert not within(1, True, 0)
