"""Units as `reckon convert` gives them, against an independent library."""

import pytest
from scipy import constants

from jobbook.services.measured.reckoning import reckon

# Published values of NIST SP 811 and of its derivation, through another library than the one that is used.
FACTORS = {
    ("1 lbf", "N"): constants.lbf,
    ("1 psi", "Pa"): constants.psi,
    ("1 atm", "Pa"): constants.atm,
    ("1 bar", "psi"): constants.bar / constants.psi,
    ("1 kgf/cm**2", "kPa"): constants.g * 10,
    ("1 mile", "km"): constants.mile / 1000,
    ("1 inch", "mm"): constants.inch * 1000,
    ("1 lbf*in", "N*m"): constants.lbf * constants.inch,
    ("1 deg", "arcmin"): constants.degree / constants.arcminute,
    ("1 US gal", "L"): constants.gallon * 1000,
    ("1 imp gal", "L"): constants.gallon_imp * 1000,
    ("1 cfm", "L/min"): constants.foot**3 * 1000,
    ("1 in2", "mm2"): constants.inch**2 * 1e6,
    ("20 degC", "K"): constants.convert_temperature(20, "C", "K"),
    ("68 degF", "degC"): constants.convert_temperature(68, "F", "C"),
}


@pytest.mark.parametrize(("value", "to"), list(FACTORS), ids=" to ".join)
def test_a_conversion_agrees_with_scipy(value: str, to: str) -> None:
    assert reckon("convert", {"value": value, "to": to})["value"] == pytest.approx(FACTORS[value, to], rel=1e-14)


def test_inches_of_mercury_are_the_conventional_ones_as_printed() -> None:
    # NIST SP 811 prints 3386.389 Pa, rounded.
    assert reckon("convert", {"value": "1 inHg", "to": "Pa"})["value"] == pytest.approx(3386.389, abs=5e-4)
