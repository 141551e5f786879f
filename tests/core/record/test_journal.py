"""Entries: their text against RFC 8785 (rfc8785, an independent library), and which of them count."""

import hashlib
import json

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from jobbook.core.record.canonical import LARGEST
from jobbook.core.record.heads import fingerprint, from_hex
from jobbook.core.record.journal import (
    Draft,
    Entry,
    Head,
    as_it_stands,
    body_of,
    canonical,
    clean,
    commitment,
    leaf_hash,
)

TEXTS = st.text(st.characters(exclude_categories=("Cs",)), max_size=30)
KEYS = st.text(st.characters(min_codepoint=32, max_codepoint=126), max_size=8)
PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers(-LARGEST, LARGEST) | TEXTS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(KEYS, inner, max_size=4),
    max_leaves=12,
)


@given(PLAIN)
def test_the_canonical_text_is_that_of_rfc_8785(value):
    assert canonical(value).encode() == rfc8785.dumps(value)


@pytest.mark.parametrize("value", [1.5, float("nan"), {1: "a"}, {"ä": 1}, (1, 2), b"x", {"a": {2}}])
def test_what_two_readers_could_read_differently_has_no_text(value):
    with pytest.raises(TypeError):
        canonical(value)


@pytest.mark.parametrize("value", [LARGEST + 1, -LARGEST - 1, "\ud800"])
def test_numbers_and_texts_that_others_cannot_read_have_no_text(value):
    with pytest.raises(ValueError):
        canonical(value)


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("50 N·m", "50 N·m"),
        ("e\u0301", "é"),
        ("a\x00b\x1bc\x7f\x85", "abc"),
        ("one\r\ntwo\rthree\nfour", "one\ntwo\nthree\nfour"),
        ("a\tb", "a b"),
        ("e\x00\u0301", "é"),
        ("half \ud83d pair", "half  pair"),
        ("עברית \u200f 🚐", "עברית \u200f 🚐"),
    ],
)
def test_text_is_cleaned_at_the_door(typed, kept):
    assert clean(typed) == kept
    assert clean({"a": [typed]}) == {"a": [kept]}


@given(st.text(max_size=40))
def test_what_is_clean_stays_as_it_is_and_has_a_text(text):
    once = clean(text)
    assert clean(once) == once
    canonical(once)


def kept(number, kind="act/1", act="", replaces=None, payload=None):
    draft = Draft(kind, "job/1", payload or {}, job=1, replaces=replaces)
    body = body_of(
        draft, book="b", act=act or f"act {number}", entered_at="2026-11-25T09:00:00+00:00", entered_by="bf", salt=""
    )
    return Entry(number, kind, 1, "2026-11-25T09:00:00+00:00", replaces, body, leaf_hash(body.encode()))


def test_a_body_says_who_when_what_and_why():
    draft = Draft("note/1", "job/7", {"job": 7, "text": "x"}, job=7, done_by="np", meaning="did", reason="said so")
    body = body_of(draft, book="b1", act="a1", entered_at="2026-11-25T09:00:00+01:00", entered_by="bf", salt="00")
    assert json.loads(body) == {
        "book": "b1", "act": "a1", "kind": "note/1", "subject": "job/7", "job": 7,
        "done_at": "2026-11-25T09:00:00+01:00", "entered_at": "2026-11-25T09:00:00+01:00",
        "done_by": "np", "entered_by": "bf", "meaning": "did",
        "payload": {"job": 7, "text": "x"}, "salt": "00", "replaces": None, "reason": "said so",
    }  # fmt: skip


def test_done_and_entered_are_four_facts():
    draft = Draft("note/1", "job/7", done_at="2026-11-24T17:00:00+01:00", done_by="np")
    body = body_of(draft, book="b", act="a", entered_at="2026-11-25T09:00:00+01:00", entered_by="bf", salt="")
    facts = json.loads(body)
    assert (facts["done_at"], facts["done_by"]) == ("2026-11-24T17:00:00+01:00", "np")
    assert (facts["entered_at"], facts["entered_by"]) == ("2026-11-25T09:00:00+01:00", "bf")


@pytest.mark.parametrize("draft", [Draft("note", "x"), Draft("note/1", "x", meaning="seen")])
def test_a_kind_without_version_or_an_unknown_meaning_is_a_defect(draft):
    with pytest.raises(ValueError, match="cannot mean"):
        body_of(draft, book="b", act="a", entered_at="", entered_by="", salt="")


def test_a_correction_stands_at_the_place_of_what_it_corrects():
    listed = [kept(1), kept(2), kept(3, replaces=1), kept(4), kept(5, replaces=3)]
    assert [entry.number for entry in as_it_stands(listed)] == [5, 2, 4]


def test_what_was_undone_does_not_count_and_neither_does_the_undoing():
    listed = [kept(1), kept(2, act="slip"), kept(3, "undone/1", payload={"act": "slip"}), kept(4)]
    assert [entry.number for entry in as_it_stands(listed)] == [1, 4]


def test_a_commitment_is_the_hash_of_salt_and_value():
    assert commitment("00ff", "Weiß") == hashlib.sha256('["00ff","Weiß"]'.encode()).hexdigest()


def test_a_head_is_written_in_groups_of_four():
    head = Head(3, bytes(range(32)))
    assert head.text.startswith("0001 0203 0405")
    assert len(head.text.split()) == 16
    assert fingerprint(bytes(32)) == "6668 7aad f862 bd77"  # SHA-256 of 32 zero bytes, by sha256sum(1)


@pytest.mark.parametrize("text", ["AB" * 32, "ab" * 31, "zz" * 32, 7, None, "ab" * 32 + "\n"])
def test_only_one_spelling_of_a_hash_is_read(text):
    assert from_hex(text, 32) is None
