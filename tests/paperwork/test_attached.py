import pytest

from jobbook.core.errors import Unreadable
from jobbook.paperwork import evidence
from jobbook.paperwork.attached import attach, attachment

from . import records
from .reading import pages


@pytest.fixture(scope="module")
def paper():
    return evidence.to_pdf(records.evidence(), head=records.HEAD)


@pytest.mark.parametrize("data", [b"", b"{}", bytes(range(256)) * 500])
def test_what_was_attached_comes_out_byte_for_byte(paper, data):
    assert attachment(attach(paper, "entries.json", data), "entries.json") == data


def test_attaching_gives_the_same_bytes_every_time_and_leaves_the_pages(paper):
    made = attach(paper, "entries.json", b"{}")
    assert made == attach(paper, "entries.json", b"{}")
    assert pages(made) == pages(paper)


def test_a_name_that_is_not_there_is_none(paper):
    assert attachment(paper, "entries.json") is None


@pytest.mark.parametrize("data", [b"", b"no paper at all", b"%PDF-1.4\n%%EOF\n"])
def test_what_is_no_pdf_is_unreadable(data):
    with pytest.raises(Unreadable, match="cannot be read as a PDF"):
        attachment(data, "entries.json")
