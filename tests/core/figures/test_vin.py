"""VINs: worked examples of 49 CFR part 565 and its agency's guide, and the vininfo library beside ours."""

import pytest
import vininfo
from hypothesis import given
from hypothesis import strategies as st

from jobbook.core.errors import Refused
from jobbook.core.figures.vin import VALUES, WEIGHTS, YEAR_CODES, look_at_vin, read_vin

SAMPLE = "1G4AH59H45G118341"  # the sample of 49 CFR 565, sum 411, check digit 4

vins = st.text(alphabet=sorted(VALUES), min_size=17, max_size=17).filter(lambda vin: set(vin) != {"0"})


def test_the_sum_of_the_regulations_sample_is_411() -> None:
    assert sum(VALUES[c] * w for c, w in zip(SAMPLE, WEIGHTS, strict=True)) == 411
    assert read_vin(SAMPLE).check_digit == "4"


def test_one_digit_mistyped_is_a_warning_and_no_refusal() -> None:
    report = read_vin("1G4AH59H45G118331")
    assert (report.check_digit, report.check_passes, report.well_formed) == ("1", False, True)
    assert report.findings[0].startswith(
        "The check digit would be 1 and position 9 holds 4; it is required for this one"
    )


def test_a_vin_from_outside_north_america_is_told_that_the_digit_is_no_rule_there() -> None:
    assert "in North America alone" in read_vin("ZZ9AA1AA0TZ000001").findings[0]


@given(vins)
def test_check_digit_agrees_with_an_independent_library(vin: str) -> None:
    assert read_vin(vin).check_passes == vininfo.Vin(vin).verify_checksum()


@given(vins)
def test_putting_the_computed_digit_in_its_place_makes_the_vin_pass(vin: str) -> None:
    digit = read_vin(vin).check_digit
    mended = vin[:8] + digit + vin[9:]
    assert set(mended) == {"0"} or read_vin(mended).check_passes


@given(vins)
def test_model_years_agree_with_an_independent_library(vin: str) -> None:
    # The library leaves out years that lie in the future of its clock; ours has none and gives both.
    theirs, ours = vininfo.Vin(vin).years, read_vin(vin).model_years
    assert set(theirs) <= set(ours)
    assert bool(theirs) == bool(ours)


@pytest.mark.parametrize(
    "pair", ["AJ", "BK", "BS", "CL", "CT", "DM", "DU", "EN", "EV", "FW", "GP", "GX", "HY", "RZ", "A1"]
)
def test_a_swap_of_two_characters_of_equal_value_is_not_seen_by_the_digit(pair: str) -> None:
    # The arithmetic cannot see these, so nobody may take a passing digit for proof.
    one, other = (read_vin(f"1G4{c}H59H45G118341") for c in pair)
    assert one.check_digit == other.check_digit


def test_model_year_codes_repeat_after_thirty_years() -> None:
    years = {code: read_vin(f"ZZ9AA1AA0{code}Z000001").model_years for code in "AHY19"}
    assert years == {
        "A": (1980, 2010),
        "H": (1987, 2017),
        "Y": (2000, 2030),
        "1": (2001, 2031),
        "9": (2009, 2039),
    }
    assert len(YEAR_CODES) == 30
    assert [read_vin(f"ZZ9AA1AA0{code}Z000001").model_years for code in "UZ0"] == [(), (), ()]


def test_position_seven_tells_the_year_only_where_its_rule_holds() -> None:
    assert any("model year is 2005" in finding for finding in read_vin(SAMPLE).findings)
    assert any("model year is 2035" in finding for finding in read_vin("1G4AH5AH45G118341").findings)
    assert not any("model year is" in finding for finding in read_vin("ZZ9AA1AA0TZ000001").findings)


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("1G4AH59H45G11834O", "Character 17 is the letter O, which no VIN holds; it may be the digit 0."),
        ("IG4AH59H45G118341", "Character 1 is the letter I, which no VIN holds; it may be the digit 1."),
        ("1G4AHQ9H45G118341", "Character 6 is the letter Q"),
        ("1G4AH59H45G11834", "A VIN has 17 characters and this has 16."),
        ("1G4AH59H45G1183411", "and this has 18."),
        ("", "and this has 0."),
        ("1G4\u0410H59H45G118341", r"Character 4 is '\u0410'"),
        ("1G4AH59H45G11834\uff11", "Character 17 is"),
        ("0" * 17, "nothing but noughts"),
    ],
)
def test_what_is_no_vin_is_refused_in_a_sentence_that_names_the_place(typed: str, words: str) -> None:
    with pytest.raises(Refused) as caught:
        read_vin(typed)
    assert words in str(caught.value)
    assert "Nothing was kept" in str(caught.value)
    assert look_at_vin(typed).findings == (
        str(caught.value).removesuffix(" Nothing was kept; read it from the vehicle again."),
    )


def test_capitals_spaces_hyphens_and_the_stars_of_a_plate_do_not_matter() -> None:
    assert read_vin(" *1g4ah59h4-5g 118341* ").vin == SAMPLE


def test_small_makers_and_unusual_serials_are_findings() -> None:
    report = read_vin("ZZ9AA1AA0TZ00A0A1")
    assert any("few vehicles" in finding for finding in report.findings)
    assert any("last four characters" in finding for finding in report.findings)


def test_the_published_test_vin_of_ones_passes_and_is_named_as_one() -> None:
    report = read_vin("1" * 17)
    assert report.check_passes
    assert any("one character repeated" in finding for finding in report.findings)
