"""Which variants a vehicle may be. The cases are common practice: codes of equipment and the build date decide."""

import pytest

from jobbook.core.errors import Refused
from jobbook.core.vehicle.variants import Fit, Seen, Variant, fits, look_at_span, read_built, read_codes, span_words

STEEL = Variant("estate, standard dampers", "Varnholt", "estate", "2019", "2021-06", ("1BA",))
SPORT = Variant("estate, adaptive dampers", "Varnholt", "estate", "2019", "2021-06", ("1BL", "2MH"))
LATER = Variant("estate from mid 2021", "Varnholt", "estate", "2021-07")
VAN = Variant("van", "Ondry", "van", built_to="2018")
BARE = Variant("only a name")
ALL = (STEEL, SPORT, LATER, VAN, BARE)


def names(found: tuple[Fit, ...]) -> list[tuple[str, str]]:
    return [(fit.variant.name, fit.word) for fit in found]


def test_codes_and_build_date_leave_one_variant() -> None:
    seen = Seen("varnholt", "Estate", "2020-03", ("1BL", "2MH", "Q4H"))
    assert names(fits(ALL, seen)) == [("estate, adaptive dampers", "fits")]


def test_codes_that_nobody_has_read_leave_both_open_and_are_named() -> None:
    found = fits(ALL, Seen("Varnholt", "estate", "2020"))
    assert [fit.variant.name for fit in found] == ["estate, adaptive dampers", "estate, standard dampers"]
    assert found[0].open == ("equipment codes not read: 1BL, 2MH",)


def test_codes_that_were_read_and_are_not_there_exclude_a_variant() -> None:
    assert fits(ALL, Seen("Varnholt", "estate", "2020", ())) == ()
    assert names(fits(ALL, Seen("Varnholt", "estate", "2020", ("1BA",)))) == [("estate, standard dampers", "fits")]


def test_a_year_that_lies_on_the_production_split_leaves_the_month_open() -> None:
    found = fits((STEEL, LATER), Seen("Varnholt", "estate", "2021", ("1BA",)))
    assert {fit.variant.name: fit.open for fit in found} == {
        "estate, standard dampers": ("month of build not known",),
        "estate from mid 2021": ("month of build not known",),
    }
    assert names(fits((STEEL, LATER), Seen("Varnholt", "estate", "2021-07", ("1BA",)))) == [
        ("estate from mid 2021", "fits")
    ]


@pytest.mark.parametrize(
    ("built", "word"),
    [("2018-12", "fits"), ("2019-01", ""), ("", "may fit"), ("about 2015", "may fit"), ("2018", "fits")],
)
def test_the_ends_of_a_span_are_included(built: str, word: str) -> None:
    found = fits((VAN,), Seen("Ondry", "van", built))
    assert [fit.word for fit in found] == ([word] if word else [])


def test_a_make_or_model_that_is_not_known_leaves_it_open_and_another_one_excludes_it() -> None:
    (fit,) = fits((VAN,), Seen("", "van", "2016"))
    assert fit.open == ("make not known",)
    assert fits((VAN,), Seen("Kestelle", "van", "2016")) == ()


def test_a_variant_of_which_only_the_name_is_known_is_never_offered_by_itself() -> None:
    assert fits((BARE,), Seen("Varnholt", "estate", "2020", ())) == ()


@pytest.mark.parametrize("typed", ["", "2019", " 2019-05 "])
def test_a_date_of_build_is_a_year_or_a_year_with_its_month(typed: str) -> None:
    assert read_built(typed) == typed.strip()


@pytest.mark.parametrize("typed", ["19", "2019-13", "05/2019", "2019-5", "May 2019"])
def test_another_spelling_of_the_date_of_build_is_refused(typed: str) -> None:
    with pytest.raises(Refused, match="year and month like 2019-05"):
        read_built(typed)


def test_codes_are_read_as_they_stand_on_a_plate() -> None:
    assert read_codes(" 1bl, 2MH\n1BL;q4h ") == ("1BL", "2MH", "Q4H")
    assert read_codes("  ") == ()


def test_a_span_that_ends_before_it_begins_is_refused() -> None:
    look_at_span(Variant("v", built_from="2021-06", built_to="2021"))
    with pytest.raises(Refused, match="ends before it begins"):
        look_at_span(Variant("v", built_from="2021-07", built_to="2021-06"))


def test_spans_in_words() -> None:
    assert [span_words(one) for one in (STEEL, LATER, VAN, BARE)] == [
        "built 2019 to 2021-06",
        "built from 2021-07",
        "built to 2018",
        "",
    ]
