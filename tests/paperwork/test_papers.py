"""What holds for every paper: each word of its record is on it, nothing typed harms it, and its bytes come again."""

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from jobbook.paperwork import evidence, handover

from . import records
from .reading import close, every_text, on_paper, pages, typed_texts

BOTH = pytest.mark.parametrize(
    ("paper", "record"), [(handover, records.handover()), (evidence, records.evidence())], ids=["handover", "evidence"]
)
HOSTILE = [
    "<b>",
    "a & b &amp; &lt;",
    '<img src="http://nowhere.invalid/x.png"/>',
    "<para><font size=400>big</font>",
    "</para>",
    "<a href='javascript:1'>x</a>",
    "%PDF-1.7 ) endstream endobj (",
    "\\(\\n\\000",
    "{0} %s $HOME",
    "Öl, Łódź, Ωμέγα, Ключ",
]


@BOTH
def test_every_word_of_the_record_is_on_the_paper(paper, record):
    printed = on_paper(paper.to_pdf(record, head=records.HEAD))
    missing = [text for text in typed_texts(record) if close(text) not in printed]
    assert missing == []
    assert len(typed_texts(record)) > 60


@BOTH
@pytest.mark.parametrize("hostile", HOSTILE)
def test_hostile_text_prints_as_it_was_typed(paper, record, hostile):
    marked = every_text(record, lambda text: f"{hostile} {text}")
    printed = on_paper(paper.to_pdf(marked, head=records.HEAD))
    assert [text for text in typed_texts(marked) if close(text) not in printed] == []


@BOTH
@pytest.mark.parametrize(
    ("typed", "box"),
    [
        ("tight\x00seal", "tight[U+0000]seal"),
        ("בדיקה", "[U+05D1U+05D3U+05D9U+05E7U+05D4]"),
        ("wet 💧 sleeve", "wet[U+1F4A7]sleeve"),
        ("turned \u202eround", "turned[U+202E]round"),
        ("hidden\u200bgap", "hidden[U+200B]gap"),
        ("bell\x07", "bell[U+0007]"),
        ("lone \ud800 half", "lone[U+D800]half"),
    ],
)
def test_what_the_type_lacks_prints_as_a_named_box(paper, record, typed, box):
    printed = on_paper(paper.to_pdf(every_text(record, lambda text: typed), head=records.HEAD))
    assert printed.count(box) >= 50


@BOTH
def test_five_thousand_letters_without_a_space_run_on_over_lines_and_pages(paper, record):
    word = "".join(f"{number:05}" for number in range(1000))
    concerns = (replace(records.concern(), cause=word),)
    pdf = paper.to_pdf(replace(record, concerns=concerns), head=records.HEAD)
    assert word in _flow(pdf)


def _flow(pdf: bytes) -> str:
    """The text of all pages without head and foot, which follow the page's own text in the file."""
    ends = close("Saltmarsh Lane Suspension 4 Saltmarsh Lane, Quillhaven telephone")
    return "".join(close(page).rpartition(ends)[0] for page in pages(pdf))


def _numbered(count: int) -> str:
    return " ".join(f"w{number:04}" for number in range(count))


@BOTH
def test_ten_thousand_letters_flow_over_pages_in_their_order(paper, record):
    concerns = (replace(records.concern(), correction=_numbered(1700)),)
    pdf = paper.to_pdf(replace(record, concerns=concerns), head=records.HEAD)
    assert close(_numbered(1700)) in _flow(pdf)
    assert len(pages(pdf)) > len(pages(paper.to_pdf(record, head=records.HEAD)))


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_a_cell_longer_than_a_page_stands_in_full_below_its_table(size):
    first = replace(records.joints()[0], tool=_numbered(1700))
    pdf = evidence.to_pdf(records.evidence(joints=(first, *records.joints()[1:])), head=records.HEAD, size=size)
    printed = _flow(pdf)
    assert close(f"in full below [n1] {first.by}") in printed
    assert close("[n1]" + _numbered(1700)) in printed


def test_a_row_that_fills_most_of_a_page_with_wide_letters_keeps_them_all():
    row = replace(records.declined(), by="W" * 330, why="M" * 700)
    pdf = handover.to_pdf(records.handover(answers=(row,) * 5), head=records.HEAD)
    printed = on_paper(pdf)
    assert printed.count("W") >= 5 * 330
    assert printed.count("M") >= 5 * 700


def test_a_long_table_has_its_heads_on_every_page_and_loses_no_row():
    deeds = tuple(replace(records.evidence().deeds[0], what=f"deed {number:03}") for number in range(200))
    texts = pages(evidence.to_pdf(records.evidence(deeds=deeds), head=records.HEAD))
    carrying = [text for text in texts if "deed" in text]
    assert len(carrying) >= 5
    assert all("Who did what, when" in text and "Signed as" in text for text in carrying)
    assert sum(text.count(f"deed {number:03}\n") for text in texts for number in range(200)) == 200


def test_no_row_of_a_few_lines_is_torn_between_two_pages():
    row = replace(records.declined(), why="first line\nsecond\nthird\nfourth\nfifth\nlast line")
    texts = pages(handover.to_pdf(records.handover(answers=(row,) * 40), head=records.HEAD))
    assert sum("first line" in text for text in texts) >= 4
    assert all(text.count("first line") == text.count("last line") for text in texts)


@pytest.mark.parametrize("lines", range(0, 60, 5))
def test_no_title_stands_alone_at_the_foot_of_a_page(lines):
    warranty = "\n".join(["covered"] * lines)
    record = records.handover(warranty=warranty + "\nend", concerns=(replace(records.concern(), cause="x\n" * lines),))
    for text in pages(handover.to_pdf(record, head=records.HEAD)):
        body = text.rpartition("Saltmarsh Lane Suspension\n4 Saltmarsh Lane")[0].strip().split("\n")
        assert body[-1] not in ("Warranty", "Old parts", "From now on", "Parts fitted", "Heights, mm", "By", "Is")


@BOTH
def test_an_empty_record_says_not_recorded_and_never_nought(paper, record):
    bare = type(record)(records.issue(), "")
    printed = " ".join(" ".join(pages(paper.to_pdf(bare, head=records.HEAD))).split())
    assert printed.count("not recorded") >= 15
    assert printed.count("none recorded") >= 6
    assert "None" not in printed.replace("None recorded", "")


@BOTH
@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_the_same_record_gives_the_same_bytes(paper, record, size, monkeypatch):
    first = paper.to_pdf(record, head=records.HEAD, size=size)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1234567890")
    monkeypatch.setenv("TZ", "Pacific/Auckland")
    assert paper.to_pdf(record, head=records.HEAD, size=size) == first
    changed = replace(record, title=record.title + ".")
    assert paper.to_pdf(changed, head=records.HEAD, size=size) != first


_ELSEWHERE = """
import hashlib
from tests_of_paper import records
from jobbook.paperwork import evidence, handover
print(hashlib.sha256(evidence.to_pdf(records.evidence(), head=records.HEAD)).hexdigest())
print(hashlib.sha256(handover.to_pdf(records.handover(), head=records.HEAD)).hexdigest())
"""


def test_another_process_with_another_hash_seed_prints_the_same_bytes(tmp_path):
    (tmp_path / "tests_of_paper").symlink_to(Path(__file__).parent, target_is_directory=True)
    root = str(Path(__file__).parents[2])
    seen = set()
    for seed in ("1", "2"):
        env = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join([str(tmp_path), root])}
        run = subprocess.run([sys.executable, "-c", _ELSEWHERE], env=env, capture_output=True, text=True, check=True)
        seen.add(run.stdout)
    assert len(seen) == 1
    assert len(seen.pop().split()) == 2


@BOTH
def test_a_preview_says_so_on_every_page_and_a_paper_that_left_does_not(paper, record):
    assert all("PREVIEW" in text and "not a paper that left" in text for text in pages(paper.to_pdf(record, head=None)))
    assert not any("PREVIEW" in text for text in pages(paper.to_pdf(record, head=records.HEAD)))


@BOTH
def test_every_page_names_shop_document_job_and_its_place_among_the_pages(paper, record):
    texts = pages(paper.to_pdf(record, head=records.HEAD))
    for number, text in enumerate(texts, start=1):
        assert "Saltmarsh Lane Suspension" in text
        assert f"job 2041 · page {number} of {len(texts)}" in text
        assert paper.DOCUMENT in text


def test_an_unknown_size_of_paper_is_a_key_error():
    with pytest.raises(KeyError):
        handover.to_pdf(records.handover(), head=None, size="A3")
