"""Country profiles: each value with its source; tolerances against the rules as they were read."""

import pytest

from jobbook.core.desk.money import read_money
from jobbook.core.desk.profiles import TITLES, least_warranty, read_profile, tolerance, wants_estimate
from jobbook.core.errors import Unreadable
from jobbook.core.people import Shop
from jobbook.services.house.profiles import profile_of, profiles


@pytest.mark.parametrize("key", profiles())
def test_every_value_of_a_profile_names_its_source_and_when_it_was_read(key):
    profile = profiles()[key]
    assert set(profile.told) == set(TITLES)
    assert all(one.source and one.read for one in (*profile.told.values(), *profile.notices))


def test_the_neutral_profile_comes_first_and_stands_in_for_one_that_is_gone():
    assert next(iter(profiles())) == "neutral"
    assert profile_of(Shop("Saltmarsh", profile="atlantis")).key == "neutral"
    assert profile_of(Shop("Saltmarsh")).key == "neutral"


@pytest.mark.parametrize(
    ("place", "limit", "over"),
    [
        ("neutral", "1000", "0.00"),
        ("california", "1000", "0.00"),  # every added amount needs its own permission
        ("ontario", "1480", "148.00"),  # a bill may be 10 % over the estimate
        ("florida", "60", "10.00"),  # 10 or 10 %, whichever is greater
        ("florida", "300", "30.00"),
        ("florida", "900", "50.00"),  # but not over 50
    ],
)
def test_the_tolerance_follows_the_rule_of_the_place(place, limit, over):
    """The rules of these places as their pages were seen; the profile names them."""
    assert tolerance(profiles()[place], read_money(limit, "USD")).text == over


def plain(**changes):
    one = {"source": "a page", "read": "2026"}
    values = {key: one | {"value": ""} for key in TITLES}
    values |= {key: one | {"value": value} for key, value in
               {"parts_back": "ask", "waiver": "none", "word": "estimate"}.items()}  # fmt: skip
    return {"title": "A place", "values": values | changes, "notice": []}


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"word": {"value": "guess", "source": "a", "read": "b"}}, "as “guess”"),
        ({"tolerance_percent": {"value": "ten", "source": "a", "read": "b"}}, "no figure"),
        ({"tolerance_percent": {"value": "-1", "source": "a", "read": "b"}}, "no figure"),
        ({"tolerance_percent": {"value": "10", "source": "", "read": "b"}}, "without its source"),
        ({"tolerance_percent": {"value": "10"}}, "lacks"),
        ({"colour": {"value": "red", "source": "a", "read": "b"}}, "which nothing reads"),
    ],
)
def test_a_profile_with_a_strange_value_is_not_read(changes, said):
    with pytest.raises(Unreadable, match=said):
        read_profile("place", plain(**changes))


def test_a_notice_names_its_papers_and_its_source():
    good = plain() | {"notice": [{"text": "Ask.", "papers": ["arrival"], "source": "a", "read": "b"}]}
    profile = read_profile("place", good)
    assert [one.text for one in profile.notices_on("arrival")] == ["Ask."]
    assert profile.notices_on("estimate") == ()
    bad = plain() | {"notice": [{"text": "Ask.", "papers": ["receipt"], "source": "a", "read": "b"}]}
    with pytest.raises(Unreadable, match="notice"):
        read_profile("place", bad)


def test_a_written_estimate_is_due_above_the_sum_of_the_place():
    """Florida: above 100, the sum seen. No sum was found for the United Kingdom, which is not nought."""
    usd = "USD"
    assert [wants_estimate(profiles()["florida"], read_money(sum_, usd)) for sum_ in ("100", "100.01")] == [False, True]
    assert not wants_estimate(profiles()["united-kingdom"], read_money("9000", usd))


def test_the_least_warranty_is_said_in_words_where_one_was_found():
    """Ontario's guide: 90 days or 5,000 km."""
    assert least_warranty(profiles()["ontario"]).startswith("At least 90 days or 5000 km, whichever comes first")
    assert least_warranty(profiles()["neutral"]) == ""
