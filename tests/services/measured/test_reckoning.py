"""Any figure by its name: readings of what is given, batches, and what a person is told."""

import json
import math
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobbook.core.errors import NotFound, Refused, Unreadable
from jobbook.core.figures.registry import FIGURES
from jobbook.services.measured.reckoning import batch, given_words, listing, reckon, sentences

ADAPTER = {"torque": "110 N*m", "lever": "400 mm", "extension": "50 mm", "angle": "30 deg"}


def adapter(**changed: object) -> float:
    return reckon("adapter", {**ADAPTER, **changed})["setting_nm"]


def test_a_figure_is_computed_by_its_name_from_typed_text() -> None:
    # Computed from the published formula T·L/(L + E·cos α): 99.255 N·m.
    assert adapter() == pytest.approx(99.255, abs=5e-4)
    assert adapter(lever="40 cm", extension="1.968503937 in") == pytest.approx(99.255, abs=5e-4)
    with pytest.raises(NotFound, match="There is no figure “adaptor”"):
        reckon("adaptor", ADAPTER)


def test_the_point_is_a_decimal_point_and_a_comma_before_three_digits_is_asked_about() -> None:
    assert adapter(torque="110.000 N*m", lever="0.400 m") == adapter()
    assert reckon("convert", {"value": "1.234 bar", "to": "kPa"})["value"] == 123.4
    assert adapter(torque="110,5 N*m") == adapter(torque="110.5 N*m")
    with pytest.raises(Refused, match=r"^lever: “1,234 mm” is not certain"):
        adapter(lever="1,234 mm")


@pytest.mark.parametrize("torque", ["1.1e2 N*m", "1100e-1 N*m", "110.00000000000000000000001 N*m"])
def test_powers_of_ten_and_long_decimals_of_programs_are_taken(torque: str) -> None:
    assert adapter(torque=torque) == adapter()


def test_a_slip_in_a_unit_stays_a_question() -> None:
    for torque in ("110 N/m", "110 lb", "110 kg m"):
        with pytest.raises(Refused, match=r"^torque: .* is not certain"):
            adapter(torque=torque)


@pytest.mark.parametrize(
    ("key", "value", "words"),
    [
        *(("torque", 110, "it has no unit"), ("torque", "110", "it has no unit"), ("lever", "-400 mm", "not above 0")),
        *(("lever", "400 bar", "bar is a pressure"), ("angle", "30 mm", "mm is a length"), ("torque", "x", "number")),
        *(("torque", "NaN", "number"), ("torque", "inf N*m", "number"), ("lever", "1e30 mm", "too large")),
    ],
)
def test_bad_input_is_one_sentence_that_begins_with_the_key(key: str, value: object, words: str) -> None:
    with pytest.raises(Refused, match=rf"^{key}: .*{words}.*\.$"):
        adapter(**{key: value})


def test_what_the_formula_does_not_hold_for_is_refused_with_the_keys() -> None:
    with pytest.raises(Refused, match=r"^torque, lever, extension, angle: .*reaches back to the grip"):
        adapter(lever="50 mm", angle="180 deg")
    with pytest.raises(Refused, match=r"^torque, tool_min, tool_max: .*is no range of a tool"):
        reckon("tool-range", {"torque": "5 N*m", "tool_min": "50 N*m", "tool_max": "5 N*m"})
    with pytest.raises(Refused, match=r"^vin: Character 12 is the letter O"):
        reckon("vin", {"vin": "1M8GDM9AXKPO42788"})
    with pytest.raises(Refused, match=r"^code: .*letter O"):
        reckon("fault-code", {"code": "P0O13"})


def test_words_are_keys_with_values_and_lists_may_be_json() -> None:
    assert given_words(["torque=110 N*m", "angle = 30 deg"]) == {"torque": "110 N*m", "angle": " 30 deg"}
    assert reckon("readings", given_words(["values=[402, 404, 403]"]))["mean"] == 403
    assert reckon("readings", given_words(["values=402 mm 404 mm 403 mm"]))["unit"] == "mm"
    for words, said in (
        (["110"], "key=value"),
        (["a=1", "a=2"], "given twice"),
        (["a=[1"], "JSON"),
        (["=1"], "key=value"),
    ):
        with pytest.raises(Refused, match=said):
            given_words(words)


def test_relative_humidity_is_a_share_or_per_cent() -> None:
    dew = [
        reckon("dew-point", {"temperature": "20 degC", "humidity": humidity, "pressure": "8 bar"})["dew_point_c"]
        for humidity in ("50 %", "0.5", 50)
    ]
    assert dew == [pytest.approx(9.26, abs=0.005)] * 3
    for humidity in ("0 %", "101 %", "-5 %", "150"):
        with pytest.raises(Refused, match=r"^humidity: "):
            reckon("dew-point", {"temperature": "20 degC", "humidity": humidity, "pressure": "8 bar"})


def test_a_batch_answers_each_case_and_a_bad_one_holds_up_no_other() -> None:
    answers = batch(
        json.dumps(
            [
                {"id": "good", "reckon": "duty", "given": {"run": "3 min", "rest": "12 min"}},
                {"id": 2, "reckon": "duty", "given": {"run": "3 min"}},
                {"id": "unknown", "reckon": "dutty", "given": {}},
                {"id": "shapeless", "reckon": "duty"},
                "no case",
            ]
        )
    )
    assert answers[0] == {"id": "good", "result": {"percent": 20}}
    assert [answer["id"] for answer in answers] == ["good", 2, "unknown", "shapeless", None]
    assert answers[1]["error"].startswith("rest is missing")
    assert all(set(answer) == {"id", "error"} for answer in answers[1:])


def test_nan_in_a_batch_is_the_error_of_its_case_and_what_is_no_list_of_the_file() -> None:
    (answer,) = batch('[{"id": 1, "reckon": "duty", "given": {"run": NaN, "rest": "1 s"}}]')
    assert answer["error"].startswith("run: it is no figure but NaN")
    for text in ("{}", "[", "[" * 100_000, "nonsense", ""):
        with pytest.raises(Unreadable):
            batch(text)


def test_numbers_of_a_batch_are_exact() -> None:
    # 118.8 − 4.4 in binary is below 114.4; the batch reads the figures as they are written.
    text = '[{"id": 1, "reckon": "decide", "given": {"value": 114.4, "lower": 101.2, "upper": 118.8, "expanded": 4.4}}]'
    assert batch(text) == [{"id": 1, "result": {"verdict": "conform"}}]


def test_the_listing_has_every_figure_with_units_and_source() -> None:
    lines = {line.name: line for line in listing()}
    assert set(lines) == set(FIGURES)
    assert lines["adapter"].inputs == (
        *("torque (torque, in N*m)", "lever (length, in mm)", "extension (length, in mm)", "angle (angle, in deg)"),
    )
    assert "[head_friction (number)]" in lines["assembly"].inputs
    assert all(line.source and line.results and line.says for line in lines.values())


def test_a_person_is_told_one_line_for_each_result() -> None:
    assert sentences(
        {"value": 0.1 + 0.2, "ok": True, "by": {"FL": 1.0}, "all": ["A.", "B."], "years": [1980, 2010]}
    ) == [
        *("value: 0.3", "ok: yes", "by: FL 1", "all: A. B.", "years: 1980, 2010"),
    ]


FIGURE = st.sampled_from(sorted(FIGURES))
TYPED = st.one_of(
    st.text(max_size=20),
    st.from_regex(
        r"-?[0-9]{1,8}(\.[0-9]{1,6})?(e-?[0-9]{1,3})? ?(N\*m|mm|m|bar|Pa|degC|K|L|deg|s|h|%|km|lbf\*ft)?",
        fullmatch=True,
    ),
    *(st.floats(), st.integers(), st.booleans(), st.none()),
    st.lists(st.one_of(st.integers(-5, 50), st.floats(), st.text(max_size=4)), max_size=6),
    st.dictionaries(st.sampled_from(["FL", "FR", "RL", "RR", "durations", "failed"]), st.just("5 mm"), max_size=6),
)


@given(name=FIGURE, data=st.data())
def test_whatever_is_given_the_answer_is_finite_or_one_sentence_and_comes_at_once(name: str, data) -> None:
    keys = [one.key for one in FIGURES[name].inputs]
    values = {key: data.draw(TYPED, label=key) for key in keys if data.draw(st.integers(0, 9)) > 0}
    start = time.perf_counter()
    (answer,) = batch(json.dumps([{"id": 1, "reckon": name, "given": values}]))
    assert time.perf_counter() - start < 0.5  # a busy machine; alone it takes some milliseconds
    assert ("result" in answer) != ("error" in answer)
    assert answer.get("error", "x.").endswith(".")
    json.dumps(answer, allow_nan=False)


NUMBER = st.decimals(-10, 10**7, allow_nan=False, allow_infinity=False, places=3)


@given(name=FIGURE, data=st.data())
def test_whatever_amounts_are_given_in_the_right_units_the_answer_is_finite_or_one_sentence(name: str, data) -> None:
    values = {}
    for one in FIGURES[name].inputs:
        if one.unit:
            values[one.key] = f"{data.draw(NUMBER)} {'' if one.unit == '1' else one.unit}".strip()
    (answer,) = batch(json.dumps([{"id": 1, "reckon": name, "given": values}]))
    assert answer.get("error", "x.").endswith(".")
    assert all(math.isfinite(value) for value in answer.get("result", {}).values() if isinstance(value, float))


MANY = " ".join(f"{1 + n % 397}.{n % 10}" for n in range(1000))
LONGEST = {
    "readings": {"values": MANY.replace(" ", " mm; ") + " mm", "resolution": "1 mm"},
    "part-life": {"durations": MANY, "failed": "1 0 1 1 0 " * 200},
    "part-life-compare": {"first": MANY, "second": MANY.replace(" 1", "+ 1")},
}


@pytest.mark.parametrize("name", LONGEST)
def test_the_longest_lists_are_answered_within_fifty_milliseconds(name: str) -> None:
    def once() -> float:
        start = time.perf_counter()
        reckon(name, LONGEST[name])
        return time.perf_counter() - start

    assert min(once() for _ in range(5)) < 0.05  # the best of five, since the machine does other things too
