"""VINs against published examples and an independent library."""

import random

import pytest
from vininfo import Vin

from jobbook.core.figures.vin import VALUES, WEIGHTS, YEAR_CODES, check_digit, model_years
from jobbook.services.measured.reckoning import reckon


@pytest.mark.parametrize(
    ("vin", "total"),
    [
        ("1G4AH59H05G118341", 411),  # sample of 49 CFR 565
        ("1J9RP1A30A1644345", 314),  # guide of the agency
        ("1M8GDM9A0KP042788", 351),  # hypothetical, several public sources
        ("11111111111111111", 89),
        ("ZZ9AA1AA0TZ000001", 314),  # computed from the published weights
        ("TST00000000000001", 58),
    ],
)
def test_the_weighted_sum_is_the_printed_one(vin: str, total: int) -> None:
    assert sum(VALUES[character] * weight for character, weight in zip(vin, WEIGHTS, strict=True)) == total
    assert check_digit(vin) == ("X" if total % 11 == 10 else str(total % 11))


def test_one_digit_changed_is_noticed() -> None:
    # 49 CFR 565: the same number with 331 for 341 would need a 1.
    result = reckon("vin", {"vin": "1G4AH59H45G118331"})
    assert (result["check_digit"], result["check_passes"]) == ("1", False)


def test_check_digits_agree_with_an_independent_library() -> None:
    chance = random.Random(3779)
    for _ in range(200):
        vin = "1" + "".join(chance.choices(sorted(VALUES), k=16))
        assert Vin(vin).verify_checksum(check_year=False) == reckon("vin", {"vin": vin})["check_passes"]


def test_model_years_agree_with_an_independent_library() -> None:
    for code in YEAR_CODES:
        vin = f"1M8GDM9AX{code}P042788"
        assert set(model_years(vin)) >= set(Vin(vin).years) != set()
