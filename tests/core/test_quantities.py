"""Typed text becomes an exact quantity, a question, or a refusal; never a guess."""

from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

from jobbook.core.errors import Refused
from jobbook.core.quantities import KINDS, UNITS, Quantity, Unclear, kept, plausible_height, read_quantity

ROWS = [
    tuple(cell.encode("ascii", "backslashreplace").decode("unicode_escape") for cell in line.split("\t"))
    for line in (Path(__file__).parent / "spellings.tsv").read_text(encoding="utf-8").splitlines()
    if not line.startswith("#")
]


def outcome(text: str, kind: str) -> str:
    """Return what becomes of the text, in the notation of the table; a refusal as its sentence."""
    try:
        quantity = read_quantity(text, kind)
    except Unclear as unclear:
        return "? " + " | ".join(f"{q.exact} {q.unit}" for q in unclear.readings)
    except Refused as refused:
        return f"! {refused}"
    return f"= {quantity.exact} {quantity.unit}"


@pytest.mark.parametrize(("kind", "text", "wanted"), ROWS, ids=[f"{row[0]}: {row[1]!a}" for row in ROWS])
def test_each_spelling_is_read_asked_about_or_refused_as_the_table_says(kind: str, text: str, wanted: str) -> None:
    got = outcome(text, kind)
    assert got == wanted or (wanted.startswith("! ") and got.startswith("! ") and wanted[2:] in got)


def test_the_table_holds_at_least_150_spellings_no_two_alike_and_every_kind() -> None:
    assert len({row[:2] for row in ROWS}) == len(ROWS) >= 150
    assert {row[0] for row in ROWS} == set(KINDS)


def test_every_refusal_is_one_sentence_that_says_what_was_kept_and_what_to_do() -> None:
    sentences = [got[2:] for kind, text, _ in ROWS if (got := outcome(text, kind)).startswith("!")]
    for sentence in sentences:
        assert sentence.endswith(".")
        assert "taken" in sentence
        assert "; " in sentence
        assert sentence.isprintable() or "\u202f" in sentence


def test_what_was_typed_is_kept_as_it_stood() -> None:
    assert read_quantity("  15 ¾″ ", "length").typed == "15 ¾″"


def test_a_bare_number_stands_in_the_unit_of_its_field() -> None:
    quantity = read_quantity("110", "torque", default_unit="N*m")
    assert (quantity.amount, quantity.unit) == (Decimal(110), "N*m")


def test_a_bare_number_with_two_readings_is_asked_about_even_with_a_unit_from_the_field() -> None:
    with pytest.raises(Unclear) as caught:
        read_quantity("1.234", "length", default_unit="mm")
    assert [q.amount for q in caught.value.readings] == [Decimal("1.234"), Decimal(1234)]


def test_a_field_with_a_unit_of_another_kind_is_a_defect_of_ours_and_loud() -> None:
    with pytest.raises(ValueError, match="no unit of torque"):
        read_quantity("110", "torque", default_unit="mm")
    with pytest.raises(ValueError, match="no kind"):
        read_quantity("110", "colour")


def test_a_text_too_long_for_a_figure_is_refused_at_once() -> None:
    with pytest.raises(Refused, match="longer than 60 characters"):
        read_quantity("9" * 1_000_000, "length")


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.name)
def test_every_unit_of_the_list_is_read_from_each_of_its_spellings_and_its_label(unit) -> None:
    for spelling in (*unit.spellings, unit.label):
        if (unit.name, spelling) not in {("m", "m"), ("1", ""), ("pieces", "")}:
            assert read_quantity(f"4 {spelling}", unit.kind).unit == unit.name


def test_figures_are_written_for_people() -> None:
    written = {
        ("110 Nm", "torque"): "110\u202fN·m",
        ("84312 km", "distance"): "84\u202f312\u202fkm",
        ("-5 mm", "length"): "\u22125\u202fmm",
        ("90 deg", "angle"): "90°",
        ("-0°20′", "angle"): "\u22120°20′",
        ("1°0′01″", "angle"): "1°0′1″",
        ("1 2/3 in", "length"): "1 2/3\u202fin",
        ("1 h 20 min", "time"): "1\u202fh 20\u202fmin",
        ("4", "count"): "4",
        ("110.0 Nm", "torque"): "110.0\u202fN·m",
        ("8 kgf/cm2", "pressure"): "8\u202fkgf/cm²",
    }
    assert {key: read_quantity(*key).text() for key in written} == written


def test_three_decimals_are_written_with_a_further_nought_so_that_nobody_reads_thousands() -> None:
    quantity = Quantity("length", Decimal("1.234"), "mm")
    assert quantity.text() == "1.2340\u202fmm"
    assert read_quantity(quantity.text(), "length").amount == Decimal("1.234")


def test_another_unit_is_shown_with_four_digits_or_the_whole_number() -> None:
    torque = read_quantity("110 Nm", "torque")
    assert torque.text("lbf*ft") == "81.13\u202flbf·ft"
    assert torque.text("lbf*in") == "973.6\u202flbf·in"
    assert torque.text("lbf*ft", places=0) == "81\u202flbf·ft"
    assert read_quantity("16 in", "length").text("mm") == "406.4\u202fmm"
    assert read_quantity("0.02 mm", "length").text("in") == "0.0007874\u202fin"
    assert read_quantity("0 mm", "length").text("in") == "0\u202fin"


def test_a_quantity_comes_back_from_the_book_as_it_went_in() -> None:
    for text, kind in (("15 3/4 in", "length"), ("1/3 in", "length"), ("110.0 Nm", "torque"), ("0°20′", "angle")):
        quantity = read_quantity(text, kind)
        assert kept(kind, quantity.exact, quantity.unit, quantity.typed) == quantity
    assert read_quantity("0.0000001 mm", "length").exact == "0.0000001"


def test_a_unit_of_another_kind_is_refused_in_a_conversion() -> None:
    with pytest.raises(Refused, match=r"A torque in N.m cannot be given in mm, which is a length"):
        read_quantity("110 Nm", "torque").to("mm")


@pytest.mark.parametrize("text", ["100 mm", "402 mm", "1200 mm", "15 3/4 in", "40.2 cm"])
def test_a_height_that_a_vehicle_can_stand_at_is_taken(text: str) -> None:
    height = read_quantity(text, "length")
    assert plausible_height(height) == height


@pytest.mark.parametrize("text", ["4000 mm", "0 mm", "-402 mm"])
def test_a_height_that_no_vehicle_can_stand_at_is_refused(text: str) -> None:
    with pytest.raises(Refused) as caught:
        plausible_height(read_quantity(text, "length"))
    assert not isinstance(caught.value, Unclear)


def test_a_height_that_fits_in_another_unit_is_asked_about() -> None:
    with pytest.raises(Unclear, match="nothing was kept") as caught:
        plausible_height(read_quantity("40.2 mm", "length"))
    assert [(q.unit, q.in_unit("mm")) for q in caught.value.readings] == [
        ("cm", Fraction(402)),
        ("in", Fraction("1021.08")),
    ]
