"""Trouble codes by SAE J2012 and ISO 15031-6. Published examples are marked; the others follow from the bit layout."""

import pytest

from jobbook.core.errors import Refused
from jobbook.core.figures.faultcodes import fault_code


@pytest.mark.parametrize(
    ("bytes", "code"),
    [
        *(("0135", "P0135"), ("96A1", "B16A1")),  # published
        *(("0133", "P0133"), ("4320", "C0320"), ("C158", "U0158"), ("5A2B", "C1A2B"), ("FFFF", "U3FFF")),
        *(("4567", "C0567"), ("5A20", "C1A20"), ("C132", "U0132"), ("3400", "P3400"), ("5A2B14", "C1A2B-14")),
    ],
)
def test_two_bytes_and_the_text_say_the_same(bytes: str, code: str) -> None:
    assert fault_code(bytes=bytes).code == code
    assert fault_code(code=code).bytes == bytes
    assert fault_code(bytes=f" 0x{bytes.lower()} ").code == fault_code(code=code.lower()).code


def test_every_pair_of_bytes_comes_back() -> None:
    pairs = [f"{number:04X}" for number in range(0x10000)]
    assert [fault_code(code=fault_code(bytes=pair).code).bytes for pair in pairs] == pairs


@pytest.mark.parametrize(
    ("codes", "kind"),
    [
        ("P0135 P2A00 P3400 P3999 C0320 B0001 U0158", "generic"),
        ("P1234 P3000 P3399 C1A2B C2000 B1234 B2000 U1000 U2000", "maker"),
        ("C3000 B3000 U3FFF P3A00", "reserved"),
        ("P0000", "padding"),
    ],
)
def test_who_defines_a_code_follows_from_its_first_characters(codes: str, kind: str) -> None:
    # Published: control of the code ranges.
    assert {fault_code(code=code).kind for code in codes.split()} == {kind}


@pytest.mark.parametrize(
    ("code", "words"),
    [
        *(("P0O13", "letter O"), ("P4000", "first digit"), ("X0135", "begins with P, C, B or U"), ("P013", "four")),
        *(("P01355", "four"), ("P013G", "four"), ("", "one of"), ("P0135-1", "four")),
    ],
)
def test_what_is_no_code_is_refused_with_the_reason(code: str, words: str) -> None:
    with pytest.raises(Refused, match=words):
        fault_code(code=code)


@pytest.mark.parametrize("bytes", ["135", "01357", "O135", "01 35 1", "GGGG", "01351422"])
def test_what_is_not_two_or_three_bytes_is_refused(bytes: str) -> None:
    with pytest.raises(Refused, match="two or three bytes"):
        fault_code(bytes=bytes)


def test_a_failure_type_is_shown_as_read_and_padding_is_no_code() -> None:
    assert "Failure type 14, as read: short to ground or open." in fault_code(code="C1A2B-14").findings
    assert "Failure type F3, as read: not in the public lists." in fault_code(bytes="5A2BF3").findings
    assert fault_code(bytes="0000").findings == ("It fills empty places in a message and is no code.",)
    assert fault_code(code="P0135").findings == ()
