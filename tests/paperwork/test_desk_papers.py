"""The arrival paper and the estimate: every word on them, nothing typed harms them, tables break and lose nothing."""

from dataclasses import replace

import pytest

from jobbook.core.desk.signature import drawing, path_of
from jobbook.paperwork import arrival, estimate
from jobbook.paperwork.heights import Heights
from jobbook.paperwork.signed import WIDTH

from . import desk_records as records
from .reading import close, every_text, on_paper, pages, typed_texts
from .records import HEAD
from .test_papers import HOSTILE

BOTH = pytest.mark.parametrize(
    ("paper", "record"), [(arrival, records.arrival()), (estimate, records.estimate())], ids=["arrival", "estimate"]
)
PICTURE = drawing(path_of([[(10, 200), (60, 20), (110, 200)], [(30, 120), (90, 120)]]), WIDTH, "A. Harrow")


@BOTH
def test_every_word_of_the_record_is_on_the_paper(paper, record):
    printed = on_paper(paper.to_pdf(record, head=HEAD))
    assert [text for text in typed_texts(record) if close(text) not in printed] == []
    assert len(typed_texts(record)) > 50


@BOTH
@pytest.mark.parametrize("hostile", HOSTILE)
def test_hostile_text_prints_as_it_was_typed(paper, record, hostile):
    marked = every_text(record, lambda text: f"{hostile} {text}")
    printed = on_paper(paper.to_pdf(marked, head=HEAD))
    assert [text for text in typed_texts(marked) if close(text) not in printed] == []


@BOTH
def test_a_word_of_five_thousand_letters_in_every_place_breaks_no_page(paper, record):
    word = "".join(f"{number:05}" for number in range(1000))
    long = every_text(replace(record, issue=record.issue), lambda text: word)
    long = replace(long, issue=record.issue, title=record.title, identity=record.identity, customer=record.customer)
    if isinstance(long, arrival.Arrival):
        long = replace(long, heights=record.heights)
    assert on_paper(paper.to_pdf(long, head=HEAD)).count(word[:60]) >= 10


@BOTH
@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_the_same_record_is_the_same_file_on_each_size_of_paper(paper, record, size):
    assert paper.to_pdf(record, head=HEAD, size=size) == paper.to_pdf(record, head=HEAD, size=size)


@BOTH
def test_an_empty_record_says_what_is_not_recorded(paper, record):
    empty = type(record)(record.issue, *(("estimate",) if paper is estimate else ()), record.title)
    printed = on_paper(paper.to_pdf(empty, head=None))
    assert close("not recorded") in printed
    assert close("none recorded") in printed


def test_eighty_lines_run_over_pages_with_their_heads_and_none_is_lost():
    many = tuple(replace(records.lines()[0], what=f"Part of the number {n:03}") for n in range(80))
    said = pages(estimate.to_pdf(records.estimate(lines=many), head=HEAD))
    assert len(said) >= 3
    together = close("".join(said))
    assert all(close(one.what) in together for one in many)
    assert sum("Before tax" in page and "Quantity" in page for page in said) >= 3


def test_a_drawn_signature_stands_under_the_very_words_with_their_digest_and_no_line_to_sign_on():
    signed = records.drawn(picture=PICTURE)
    pdf = estimate.to_pdf(records.estimate(drawn=(signed,)), head=HEAD)
    printed = on_paper(pdf)
    assert close(signed.text + "Signed by" + signed.name) in printed
    assert close(signed.digest) in printed
    assert close("name, date, signature") not in printed
    assert pdf != estimate.to_pdf(records.estimate(drawn=(records.drawn(),)), head=HEAD)


def test_without_a_drawn_signature_there_are_lines_to_sign_on():
    assert close("Accepted by the customer: name, date, signature") in on_paper(
        estimate.to_pdf(records.estimate(drawn=()), head=HEAD)
    )
    assert close("Handed over and allowed by the customer: name, date, signature") in on_paper(
        arrival.to_pdf(records.arrival(), head=HEAD)
    )


def test_a_price_that_is_not_known_prints_so_and_never_as_nought():
    unknown = (replace(records.lines()[0], each="", net=""),)
    assert on_paper(estimate.to_pdf(records.estimate(lines=unknown), head=HEAD)).count(close("not known yet")) == 2


def test_an_arrival_without_heights_says_so():
    assert close("none recorded") in on_paper(arrival.to_pdf(records.arrival(heights=Heights()), head=HEAD))
