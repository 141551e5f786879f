"""Conversions against published factors and an independent library; what is written is read back the same."""

from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from jobbook.core.errors import Refused
from jobbook.core.quantities import KINDS, UNITS, Quantity, Unclear, convert, read_quantity

# Exact by definition: the international yard and pound (1959), the standard acceleration of free fall (CGPM 1901), the
# bar and the standard atmosphere (SI brochure), as collected in NIST SP 811, appendix B.8; written from memory of them.
POUND, FALL, INCH = Fraction("0.45359237"), Fraction("9.80665"), Fraction("25.4")
EXACT = {
    ("lbf*ft", "N*m"): POUND * FALL * INCH * 12 / 1000,
    ("lbf*in", "N*m"): POUND * FALL * INCH / 1000,
    ("kgf*m", "N*m"): FALL,
    ("kgf*cm", "N*m"): FALL / 100,
    ("in", "mm"): INCH,
    ("ft", "mm"): INCH * 12,
    ("mi", "km"): Fraction("1.609344"),
    ("psi", "Pa"): POUND * FALL / (INCH / 1000) ** 2,
    ("bar", "kPa"): Fraction(100),
    ("kgf/cm2", "kPa"): Fraction("98.0665"),
    ("atm", "Pa"): Fraction(101325),
    ("lbf", "N"): Fraction("4.4482216152605"),
    ("lb", "kg"): POUND,
    ("oz", "g"): Fraction("28.349523125"),
    ("deg", "arcmin"): Fraction(60),
    ("h", "s"): Fraction(3600),
    ("d", "min"): Fraction(1440),
}

# scipy.constants is compiled from CODATA and the same definitions, by other hands than pint's.
SCIPY = {
    ("in", "mm"): constants.inch * 1000,
    ("ft", "mm"): constants.foot * 1000,
    ("mi", "km"): constants.mile / 1000,
    ("psi", "Pa"): constants.psi,
    ("bar", "Pa"): constants.bar,
    ("atm", "Pa"): constants.atm,
    ("lbf", "N"): constants.pound_force,
    ("kgf", "N"): constants.kilogram_force,
    ("lb", "kg"): constants.pound,
    ("oz", "kg"): constants.oz,
    ("lbf*ft", "N*m"): constants.pound_force * constants.foot,
    ("lbf*in", "N*m"): constants.pound_force * constants.inch,
}

KIND = {unit.name: unit.kind for unit in UNITS}


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry(cache_folder=None)


def one(unit: str) -> Quantity:
    return Quantity(KIND[unit], Decimal(1), unit)


@pytest.mark.parametrize(("source", "target"), list(EXACT))
def test_a_factor_is_the_defined_one_to_the_last_digit(source: str, target: str) -> None:
    assert one(source).in_unit(target) == EXACT[source, target]


@pytest.mark.parametrize(("source", "target"), list(SCIPY))
def test_a_factor_agrees_with_scipy(source: str, target: str) -> None:
    assert one(source).in_unit(target) == pytest.approx(SCIPY[source, target], rel=1e-14)


def test_a_decimal_that_ends_is_given_whole_and_another_to_28_digits() -> None:
    assert one("lbf*ft").to("N*m") == Decimal("1.3558179483314004")
    assert str(one("N*m").to("lbf*ft")).startswith("0.73756214927726")
    assert len(str(one("N*m").to("lbf*ft")).removeprefix("0.")) == 28


@pytest.mark.parametrize(
    ("celsius", "fahrenheit"), [("-40", "-40"), ("0", "32"), ("100", "212"), ("37", "98.6"), ("-273.15", "-459.67")]
)
def test_temperatures_convert_with_their_offset(celsius: str, fahrenheit: str) -> None:
    # Fixed points of the two scales; NIST SP 811, appendix B.9.
    assert Quantity("temperature", Decimal(celsius), "degC").in_unit("degF") == Fraction(fahrenheit)
    assert Quantity("temperature", Decimal(fahrenheit), "degF").to("degC") == Decimal(celsius)


@pytest.mark.parametrize("unit", [unit for unit in UNITS if unit.pint], ids=lambda unit: unit.name)
def test_every_unit_of_a_kind_has_the_dimension_of_its_kind(unit, registry) -> None:
    first = next(other for other in UNITS if other.kind == unit.kind)
    assert registry.Unit(unit.pint).dimensionality == registry.Unit(first.pint).dimensionality


@pytest.mark.parametrize(
    ("text", "to", "wanted"),
    [
        ("50 N*m", "lbf*ft", "36.878107"),
        ("110 N*m", "lbf*ft", "81.131836"),
        ("110 N*m", "kgf*m", "11.216878"),
        ("180 N*m", "lbf*ft", "132.761187"),
        ("25 ft-lb", "N*m", "33.895449"),
        ("85 lbf·ft", "Nm", "115.244526"),
        ("150 lbf ft", "N·m", "203.372692"),
        ("30 min", "arcmin", "30"),
        ("30 min", "h", "0.5"),
        ("1 h", "min", "60"),
        ("1 deg", "min", "60"),
        ("50 %", "1", "0.5"),
        ("0.4 metres", "m", "0.4"),
    ],
)
def test_a_typed_figure_converts_to_a_typed_unit(text: str, to: str, wanted: str) -> None:
    # The torques are worked examples of the definitions in NIST SP 811; tolerance 1e-6 as they are printed.
    result = convert(text, to)
    assert abs(Fraction(result.amount) - Fraction(wanted)) <= Fraction("1e-6")


def test_a_conversion_to_no_unit_or_to_another_kind_is_a_sentence() -> None:
    with pytest.raises(Refused, match="no unit of the list"):
        convert("5 bar", "furlong")
    with pytest.raises(Refused, match="bar is a pressure, a torque is wanted"):
        convert("5 bar", "N*m")


def amounts() -> st.SearchStrategy[Decimal]:
    return st.decimals(min_value=0, max_value=10**9, allow_nan=False, allow_infinity=False, places=4)


@given(
    amount=amounts(), unit=st.sampled_from([u for u in UNITS if u.label and u.name not in ("m", "degC", "degF", "K")])
)
def test_what_is_written_for_people_is_read_back_to_the_same_amount(amount: Decimal, unit) -> None:
    written = Quantity(unit.kind, amount, unit.name).text()
    read = read_quantity(written, unit.kind)
    assert (read.amount, read.unit) == (amount, unit.name)


@given(top=st.integers(-10_000, 10_000), bottom=st.sampled_from([2, 3, 4, 6, 7, 8, 9, 16, 32, 64]))
def test_a_fraction_is_read_back_to_the_same_amount(top: int, bottom: int) -> None:
    quantity = Quantity("length", Fraction(top, bottom), "in")
    try:
        assert read_quantity(quantity.text(), "length").amount == Fraction(top, bottom)
    except Unclear as unclear:
        raise AssertionError(f"{quantity.text()} was written and is not clear") from unclear


@given(seconds=st.integers(-3600 * 360, 3600 * 360))
def test_an_angle_is_read_back_to_the_same_second(seconds: int) -> None:
    quantity = Quantity("angle", Fraction(seconds, 3600), "deg")
    assert read_quantity(quantity.text(), "angle").amount == Fraction(seconds, 3600)


def sentence(text: str, kind: str) -> str:
    """Return what a person is told about the text; nothing where it was read."""
    try:
        read_quantity(text, kind)
    except Refused as refused:
        return str(refused)
    return ""


@given(text=st.text(max_size=70), kind=st.sampled_from(KINDS))
def test_no_text_brings_about_anything_but_a_quantity_or_a_sentence(text: str, kind: str) -> None:
    said = sentence(text, kind)
    assert not said or said.endswith(".")


@given(text=st.text(alphabet="0123456789.,'/ ¾-+e×NmtlbifknO°′\"", max_size=14), kind=st.sampled_from(KINDS))
def test_no_text_made_of_figures_and_units_brings_about_anything_else(text: str, kind: str) -> None:
    said = sentence(text, kind)
    assert not said or said.endswith(".")
