import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.platypus import Paragraph

from jobbook.paperwork import sheet
from jobbook.paperwork.typed import missing_in, shown, told, typed

from . import records


@pytest.mark.parametrize(
    ("text", "markup"),
    [
        ("a < b & c", "a &lt; b &amp; c"),
        ("one\ntwo\r\nthree", "one<br/>two<br/>three"),
        ("128\u202f410 km", "128\u00a0410 km"),
        ("tab\there", "tab here"),
    ],
)
def test_typed_text_is_escaped_and_its_lines_are_kept(text, markup):
    assert typed(text) == markup


def test_blank_text_is_told_as_not_recorded():
    assert "not recorded" in told("")
    assert "not recorded" in told("  \n")
    assert told("0") == "0"


def test_neighbouring_characters_that_are_missing_share_one_box():
    assert shown("a中文b") == "a[U+4E2D U+6587]b"


def test_a_record_reports_the_characters_that_it_prints_as_boxes():
    assert missing_in(records.handover()) == ()
    assert missing_in(records.handover(title="strut 中 💧", warranty="中")) == ("中", "💧")


@given(st.text(max_size=60))
def test_any_text_at_all_sets_as_a_paragraph_that_holds_it(text):
    paragraph = Paragraph(typed(text), sheet.style("body"))
    assert paragraph.wrap(300, 1000)[1] >= 0
    held = paragraph.getPlainText(identify=False)
    assert "".join(held.split()) == "".join(shown(text).split())
