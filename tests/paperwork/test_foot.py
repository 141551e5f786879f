"""The foot's witness: as text on every page, and as a code that a reader reads from the printed page."""

import pypdfium2
import pytest
import zxingcpp

from jobbook.paperwork import handover
from jobbook.paperwork.frame import witness

from . import records
from .reading import close, pages


def test_the_head_of_the_book_stands_in_words_on_every_page():
    for text in pages(handover.to_pdf(records.handover(), head=records.HEAD)):
        assert records.HEAD.head in close(text)
        assert close(f"key {records.HEAD.key}") in close(text)
        assert records.HEAD.book in text


@pytest.mark.parametrize("entry", [0, 1241, 5_000_000])
def test_the_printed_code_reads_back_as_the_witness_at_laser_resolution(entry):
    # Read by zxing-cpp, a decoder that has nothing to do with the library that drew the code.
    head = records.Head("b" * 36, entry, "0f" * 32, "51c2d90a44e7b3f8")
    document = pypdfium2.PdfDocument(handover.to_pdf(records.handover(), head=head))
    picture = document[0].render(scale=300 / 72, grayscale=True).to_pil()
    found = zxingcpp.read_barcodes(picture)
    document.close()
    assert [code.text for code in found] == [witness(head)]
    corners = found[0].position
    assert corners.top_left.x < corners.top_right.x, "the code is mirrored"
    assert corners.top_left.y < corners.bottom_left.y, "the code is mirrored"


def test_a_preview_carries_no_code():
    document = pypdfium2.PdfDocument(handover.to_pdf(records.handover(), head=None))
    picture = document[0].render(scale=300 / 72, grayscale=True).to_pil()
    document.close()
    assert zxingcpp.read_barcodes(picture) == []
