"""The label of a part, against a code that another library painted and read (zxing), and the check digit by hand."""

import pytest
import zxingcpp

from jobbook.core.labels import read_label

# The item number is one that GS1 keeps for examples (prefix 950).
WRITTEN = "(01)09501101530003(10)ABC-12(21)SN0042"
SENT = "010950110153000310ABC-12\x1d21SN0042"


def test_the_example_has_the_check_digit_of_the_general_specifications():
    """Section 7.9: digits before the last are weighed 3 and 1 in turn from the right; from memory."""
    *digits, last = map(int, "09501101530003")
    weighed = sum(digit * (3 if place % 2 == 0 else 1) for place, digit in enumerate(reversed(digits)))
    assert (10 - weighed % 10) % 10 == last


@pytest.mark.parametrize("form", ["DataMatrix", "QRCode", "Code128"])
def test_what_is_painted_on_a_label_and_read_from_it_is_taken_apart(form):
    painted = zxingcpp.create_barcode(WRITTEN, getattr(zxingcpp.BarcodeFormat, form), gs1=True).to_image(scale=3)
    (read,) = zxingcpp.read_barcodes(painted)
    for sent in (bytes(read.bytes).decode(), read.symbology_identifier + bytes(read.bytes).decode(), read.text):
        label = read_label(sent)
        assert (label.item, label.batch, label.serial) == ("9501101530003", "ABC-12", "SN0042")
        assert (label.written, label.doubt) == (WRITTEN, "")


def test_an_item_is_known_by_each_of_its_numbers():
    label = read_label(f"{SENT}\x1d241VR-4471-0093")
    assert label.numbers == ("VR-4471-0093", "9501101530003", "09501101530003")
    assert read_label("(241)VR-4471(10)77").item == "VR-4471"


def test_a_scanner_that_sends_no_sign_between_the_fields_is_doubted():
    label = read_label("010950110153000310ABC1221SN0042")
    assert (label.batch, label.serial) == ("ABC1221SN0042", "")
    assert "look whether “ABC1221SN0042” is one or two of them" in label.doubt
    assert read_label("010950110153000321SN0042").doubt == ""


@pytest.mark.parametrize(
    "code", ["", "VR-4471-0093", "0109501101530004", "9501101530003", "(x)", "(17)261125", "]C1", "\x1d\x1d", "12345"]
)
def test_what_is_no_label_or_has_a_wrong_check_digit_is_left_a_code(code):
    assert read_label(code) is None
