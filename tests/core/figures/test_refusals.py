"""What a formula does not hold for: each is refused in one sentence that begins with the key."""

import pytest

from jobbook.core.errors import Refused
from jobbook.core.figures.figure import compute
from jobbook.core.figures.registry import FIGURES
from tests.core.figures.examples import EXAMPLES


def changed(name: str, **values: object) -> dict[str, object]:
    """Return what a figure computes for its example with some keys changed."""
    return compute(FIGURES[name], {**EXAMPLES[name], **values})


@pytest.mark.parametrize(
    ("name", "values", "begins"),
    [
        ("convert", {"to": "furlong"}, "to was not taken: “furlong” is no unit"),
        ("convert", {"to": "N*m"}, "value: “1 psi” was not taken: psi is a pressure"),
        ("convert", {"value": True}, "value: it is no text"),
        ("readings", {"values": "402 mm"}, "values was not taken: a spread takes two"),
        ("readings", {"values": "402 mm, 404 bar"}, "values was not taken: 404\u202fbar and 402\u202fmm are not"),
        ("readings", {"resolution": "-1 mm"}, "resolution: it is below nought"),
        ("readings", {"values": ["1"] * 1001}, "values: it is a list of 1001 values"),
        ("decide", {"lower": "406 mm"}, "lower was not taken: it lies above upper"),
        ("decide", {"value": "20 degC", "lower": "1 degC", "upper": "99 degF", "expanded": "1 degC"}, "upper was not"),
        ("flow", {"downstream": "8 bar"}, "downstream was not taken: 8\u202fbar is more than"),
        ("hole", {"upstream": "1 bar"}, "upstream was not taken: 1\u202fbar absolute is not above"),
        ("hole", {"discharge": "1.1"}, "discharge: 1.1 is above 1"),
        ("toe", {"single_toe": "400 mm"}, "single_toe was not taken: 400\u202fmm turns a wheel"),
        ("toe", {"single_toe": "300 deg"}, "single_toe was not taken: 300° turns a wheel"),
        ("air-spring", {"area_gradient": "-1 metre"}, "area_gradient was not taken: it leaves the spring no"),
        ("fill-time", {"end": "4 bar"}, "end was not taken: 4\u202fbar is below the start"),
        ("duty", {"run": "0 s", "rest": "0 s"}, "run was not taken: run and rest are both nought"),
        ("tool-deviation", {"set": "201 N*m"}, "set was not taken: 201\u202fN·m is more than"),
        ("tool-deviation", {"tool": "III A"}, "tool: “III A” was not taken"),
        ("part-life", {"failed": "1 0"}, "failed was not taken: it has 2 answers for 4 durations"),
        ("part-life", {"failed": "1 0 2 0"}, "failed: it holds something that is neither 1 nor 0"),
        ("part-life", {"durations": "-1 2 3 4"}, "durations: it holds a number below nought"),
        ("part-life-compare", {"second": "1+ 2+"}, "first was not taken: no part failed while"),
        ("part-life-compare", {"first": {"durations": [1]}}, "first: it is not an object of durations and failed"),
        ("wear-link", {"months": "1.5"}, "months: it is no whole number"),
        ("wear-link", {"fit_date": "2023-02-29"}, "fit_date: “2023-02-29” is no date"),
        ("wear-link", {"fit_date": "29.2.2024"}, "fit_date: “29.2.2024” is no date"),
        ("altitude", {"height": "12 km"}, "height: "),
        ("altitude", {"height": "-5 m"}, "height: -5 m is below 0"),
    ],
)
def test_what_a_formula_does_not_hold_for_is_refused_by_its_key(name: str, values: dict, begins: str) -> None:
    with pytest.raises(Refused) as caught:
        changed(name, **values)
    assert str(caught.value).startswith(begins)
    assert str(caught.value).endswith(".")


def test_readings_and_limits_may_come_in_any_unit_of_one_kind() -> None:
    assert changed("decide", lower="39.5 cm", upper="15.94488189 in", expanded="0.0018 metre") == {"verdict": "conform"}
    assert changed("readings", values="402 404 403", resolution="1", gauge_expanded="0.5").keys() >= {
        "mean",
        "expanded",
    }


def test_readings_that_are_all_alike_have_no_end_of_freedom() -> None:
    result = changed("readings", values="402 mm, 402 mm")
    assert "freedom" not in result
    assert result["deviation"] == 0
