import random

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


def test_a_damaged_paper_gives_bytes_or_nothing_or_is_unreadable_but_never_brings_the_program_down(paper):
    whole, chance = attach(paper, "entries.json", b"{}"), random.Random(2041)
    seen = set()
    for _ in range(300):
        data = bytearray(whole)
        for _ in range(chance.choice([1, 5, 40])):
            data[chance.randrange(len(data) - 3000, len(data))] = chance.randrange(256)
        try:
            seen.add(type(attachment(bytes(data), "entries.json")))
        except Unreadable:
            seen.add(Unreadable)
    assert seen >= {bytes, Unreadable}
