"""The list of figures: complete, documented, and computed in the units that the documentation names."""

import inspect
import re
from collections.abc import Mapping
from dataclasses import fields, is_dataclass

import pytest

from jobbook.core.errors import Refused
from jobbook.core.figures.figure import Figure, compute
from jobbook.core.figures.registry import FIGURES
from jobbook.core.quantities import Quantity
from tests.core.figures.examples import EXAMPLES

# The names are a contract: checks outside the project call them.
NAMES = (
    *("convert", "thread", "bolt", "assembly", "plausible", "prevailing", "adapter", "drag", "tool-deviation"),
    *("tool-range", "stages", "vin", "toe", "degrees", "thrust", "caster", "leak-down", "pressure-decay", "cooling"),
    *("sinking", "height-loss", "flow", "hole", "air-spring", "fill-time", "duty", "dew-point", "altitude"),
    *("fault-code", "readings", "decide", "part-life", "part-life-compare", "wear-link"),
)

ALL = pytest.mark.parametrize("figure", FIGURES.values(), ids=lambda figure: figure.name)


class Watched(Quantity):
    """A quantity that remembers the units it was asked for."""

    def in_unit(self, unit: str):
        self.__dict__.setdefault("asked", set()).add(unit)
        return super().in_unit(unit)


def watched(value: object) -> object:
    if isinstance(value, Quantity):
        return Watched(value.kind, value.amount, value.unit, value.typed)
    return {key: watched(one) for key, one in value.items()} if isinstance(value, Mapping) else value


def asked(value: object) -> set[str]:
    if isinstance(value, Mapping):
        return {unit for one in value.values() for unit in asked(one)}
    return value.__dict__.get("asked", set()) if isinstance(value, Watched) else set()


def documented(figure: Figure) -> dict[str, str]:
    """Return the unit in brackets behind each argument in the second paragraph of the formula's docstring."""
    arguments = inspect.getdoc(figure.compute).split("\n\n", 1)[1]
    units = {}
    for one in figure.inputs:
        found = re.search(rf"\b{one.argument or one.key}\b[^\[]*\[([^\],:]+)", arguments)
        units[one.key] = found[1].strip() if found else ""
    return units


def test_the_list_holds_every_name_and_no_other() -> None:
    assert set(FIGURES) == set(NAMES) == set(EXAMPLES)
    assert all(name == figure.name for name, figure in FIGURES.items())


@ALL
def test_the_units_in_the_docstring_are_those_of_the_list(figure: Figure) -> None:
    units = documented(figure)
    assert {one.key: units[one.key] for one in figure.inputs if one.unit} == {
        one.key: one.unit for one in figure.inputs if one.unit
    }


@ALL
def test_the_units_in_the_docstring_are_those_computed_in(figure: Figure) -> None:
    given = EXAMPLES[figure.name]
    arguments = {
        one.argument or one.key: watched(one.read(given[one.key])) for one in figure.inputs if one.key in given
    }
    figure.compute(**arguments)
    units = documented(figure)
    seen = {one.key: asked(arguments[one.argument or one.key]) for one in figure.inputs if one.key in given}
    # The torque of an adapter is computed in whatever unit it is given in.
    measured = {one.key for one in figure.inputs if one.unit not in ("", "1") and one.key in given}
    assert {key: seen[key] for key in measured if seen[key]} == {key: {units[key]} for key in measured if seen[key]}
    assert {key for key in measured if not seen[key]} == ({"torque"} if figure.name == "adapter" else set())


@ALL
def test_a_formula_says_range_errors_and_source(figure: Figure) -> None:
    words = inspect.getdoc(figure.compute)
    assert [word for word in ("Range:", "Errors:", "Source:") if word not in words] == []
    assert figure.source
    assert figure.says


@ALL
def test_the_result_keys_are_what_the_formula_returns(figure: Figure) -> None:
    result = compute(figure, EXAMPLES[figure.name])
    assert result
    assert set(result) <= set(figure.results)
    returned = inspect.get_annotations(inspect.unwrap(figure.compute), eval_str=True)["return"]
    if is_dataclass(returned) and returned is not Quantity:
        assert set(figure.results) <= {one.name for one in fields(returned)}


@ALL
def test_a_missing_key_and_one_too_many_are_named(figure: Figure) -> None:
    given = EXAMPLES[figure.name]
    needed = [one.key for one in figure.inputs if not one.optional]
    for key in needed:
        with pytest.raises(Refused, match=rf"^{key} is missing"):
            compute(figure, {other: value for other, value in given.items() if other != key})
    with pytest.raises(Refused, match=r"^“levre” was not taken"):
        compute(figure, {**given, "levre": "1"})


@ALL
@pytest.mark.parametrize(
    "value", ["NaN", "inf", "-infinity", "no number", "9**9**9 mm", "1e400 mm", "", None, True, [], {}]
)
def test_what_is_no_figure_is_refused_by_its_key(figure: Figure, value: object) -> None:
    given = EXAMPLES[figure.name]
    for one in figure.inputs:
        if one.key in given and one.unit:
            with pytest.raises(Refused, match=rf"^{one.key}: .*\.$"):
                compute(figure, {**given, one.key: value})


@ALL
def test_a_unit_of_another_kind_is_refused_by_its_key(figure: Figure) -> None:
    given = EXAMPLES[figure.name]
    for one in figure.inputs:
        if one.key in given and one.unit:
            with pytest.raises(Refused, match=rf"^{one.key}: "):
                compute(figure, {**given, one.key: "5 kg"})


@ALL
def test_a_number_without_a_unit_is_refused_where_a_unit_is_needed(figure: Figure) -> None:
    given = EXAMPLES[figure.name]
    for one in figure.inputs:
        if one.key in given and one.unit not in ("", "1", "h") and figure.name != "degrees":
            with pytest.raises(Refused, match=rf"^{one.key}: "):
                compute(figure, {**given, one.key: 5})


@pytest.mark.parametrize(("name", "pair"), [("toe", "single_toe"), ("hole", "diameter"), ("fault-code", "code")])
def test_of_two_ways_to_ask_exactly_one_is_given(name: str, pair: str) -> None:
    figure, given = FIGURES[name], EXAMPLES[name]
    (other,) = figure.one_of - {pair}
    for wrong in ({**given, other: given[pair]}, {key: value for key, value in given.items() if key != pair}):
        with pytest.raises(Refused, match=rf"^{name} was not computed: it takes one of .*\b{pair}\b"):
            compute(figure, wrong)
