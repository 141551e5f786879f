"""Life of parts against an independent library and a published data set."""

import random

import pytest
from lifelines import KaplanMeierFitter
from lifelines.statistics import logrank_test
from lifelines.utils import median_survival_times

from jobbook.core.errors import Refused
from jobbook.services.measured.reckoning import reckon

# Freireich et al. 1963, weeks of remission, in three independent copies. A plus: still well when last seen.
TREATED = "6 6 6 7 10 13 16 22 23 6+ 9+ 10+ 11+ 17+ 19+ 20+ 25+ 32+ 32+ 34+ 35+"
UNTREATED = "1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23"


def lists(text: str) -> dict[str, list]:
    words = text.split()
    return {"durations": [int(w.strip("+")) for w in words], "failed": [int(not w.endswith("+")) for w in words]}


def at(text: str, time: int) -> float:
    return reckon("part-life", lists(text) | {"at": time})["survival"]


def test_survival_is_the_printed_one_and_a_part_seen_alive_at_a_failure_counts_as_alive() -> None:
    printed = {6: 0.8571, 7: 0.8067, 10: 0.7529, 13: 0.6902, 16: 0.6275, 22: 0.5378, 23: 0.4482, 35: 0.4482}
    assert {time: at(TREATED, time) for time in printed} == pytest.approx(printed, abs=5e-5)
    printed = {1: 0.9048, 2: 0.8095, 3: 0.7619, 4: 0.6667, 5: 0.5714, 8: 0.3810, 11: 0.2857, 12: 0.1905, 23: 0}
    assert {time: at(UNTREATED, time) for time in printed} == pytest.approx(printed, abs=5e-5)


def test_limits_and_medians_are_the_printed_ones() -> None:
    life = reckon("part-life", lists(TREATED) | {"at": 6})
    assert (life["low"], life["high"], life["median"]) == pytest.approx((0.6197, 0.9516, 23), abs=1e-4)
    life = reckon("part-life", lists(TREATED) | {"at": 23})
    assert (life["low"], life["high"]) == pytest.approx((0.1881, 0.6801), abs=1e-4)
    assert reckon("part-life", lists(UNTREATED))["median"] == 8


def drawn(chance: random.Random) -> dict[str, list]:
    count = chance.randint(3, 40)
    return {
        "durations": [chance.randint(1, 30) for _ in range(count)],
        "failed": [1, *(int(chance.random() < 0.6) for _ in range(count - 1))],
    }


def test_survival_its_limits_and_the_median_agree_with_an_independent_library() -> None:
    chance = random.Random(1958)
    for _ in range(12):
        sample = drawn(chance)
        fitted = KaplanMeierFitter().fit(sample["durations"], sample["failed"])
        time = chance.randint(0, max(sample["durations"]))
        life = reckon("part-life", sample | {"at": time})
        assert life["survival"] == pytest.approx(fitted.survival_function_at_times(time).iloc[0], abs=1e-9)
        if 0 < life["survival"] < 1:
            limits = fitted.confidence_interval_survival_function_.loc[:time].iloc[-1]
            assert (life["low"], life["high"]) == pytest.approx(tuple(limits), abs=1e-9)
        ours, theirs = life.get("median", float("inf")), median_survival_times(fitted)
        # Their product of binary numbers can miss a half that ours, of fractions, meets exactly.
        assert ours == theirs or reckon("part-life", sample | {"at": int(ours)})["survival"] == 0.5


def test_the_comparison_agrees_with_an_independent_library() -> None:
    chance = random.Random(1966)
    for first, second in [(lists(TREATED), lists(UNTREATED)), *((drawn(chance), drawn(chance)) for _ in range(8))]:
        theirs = logrank_test(first["durations"], second["durations"], first["failed"], second["failed"])
        ours = reckon("part-life-compare", {"first": first, "second": second})
        assert ours["chi_square"] == pytest.approx(theirs.test_statistic, rel=1e-9)
        assert ours["p"] == pytest.approx(theirs.p_value, rel=1e-7)


def test_where_more_than_half_live_there_is_no_median_and_beyond_the_last_nothing_is_said() -> None:
    life = reckon("part-life", {"durations": "5 6 7 8", "failed": "1 0 0 0"})
    assert "median" not in life
    assert life["survival"] == 0.75
    with pytest.raises(Refused, match=r"^at was not taken: nothing is known beyond 8"):
        reckon("part-life", {"durations": "5 6 7 8", "failed": "1 0 0 0", "at": "9"})


def test_before_the_first_failure_all_live_and_after_the_last_of_all_no_limits_are_made_up() -> None:
    assert reckon("part-life", lists(UNTREATED) | {"at": 0})["survival"] == 1
    assert set(reckon("part-life", lists(UNTREATED) | {"at": 23})) == {"survival", "median"}
