"""Phrases: those that ship, the shop's own, and words that look like a slip. What was typed is never altered."""

import pytest

from jobbook.core.desk.phrases import FIELDS, slip_words, slips, words_of
from jobbook.core.errors import NotFound, Refused
from jobbook.services.office import desk
from jobbook.services.office.phrases import add_phrase, own_phrases, phrases, phrases_for, shipped, take_away

KNOWN = words_of(["strut leaks at the sleeve", "compressor", "bubbles"])


def test_phrases_ship_for_every_field_and_each_stands_once():
    there = [(one.field, one.text) for one in shipped()]
    assert {field for field, _ in there} == set(FIELDS)
    assert len(set(there)) == len(there)
    assert all(text == text.strip() and text for _, text in there)


def test_a_phrase_of_the_shops_own_stands_first_until_it_is_taken_away(at):
    there = at("taken in")
    own = add_phrase(there.book, there.bram, "cause", "  salt in the connector  ")
    assert phrases_for(phrases(there.book), "cause")[0] == "salt in the connector"
    with pytest.raises(Refused, match="in the list already"):
        add_phrase(there.book, there.jonas, "cause", "salt in the connector")
    take_away(there.book, there.jonas, own.number)
    assert own_phrases(there.book) == ()
    with pytest.raises(NotFound, match="not in the shop's list"):
        take_away(there.book, there.jonas, own.number)
    assert add_phrase(there.book, there.bram, "cause", "salt in the connector").number != own.number


@pytest.mark.parametrize(
    ("field", "text", "said"),
    [
        ("nowhere", "words", "where it is offered"),
        ("cause", " ", "write it first"),
        ("cause", "x" * 301, "301 letters"),
    ],
)
def test_a_phrase_that_cannot_be_offered_is_not_added(at, field, text, said):
    there = at("taken in")
    with pytest.raises(Refused, match=said):
        add_phrase(there.book, there.bram, field, text)


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("the strutt leaks", (("strutt", "strut"),)),
        ("stru leaks", ()),  # four letters have too many neighbours
        ("comprssor silent", (("comprssor", "compressor"),)),
        ("compresosr silent", (("compresosr", "compressor"),)),
        ("compressar silent", (("compressar", "compressor"),)),
        ("two struts, bubbles", ()),
        ("a bubbel", ()),  # still being typed
        ("Sleave, Sleave ", (("Sleave", "sleeve"),)),
        ("AS-4471-L KX07ALD", ()),
    ],
)
def test_a_word_one_slip_away_from_a_known_one_is_asked_about(typed, found):
    assert slips(typed, KNOWN) == found


def test_the_sentence_says_that_nothing_is_changed():
    assert slip_words("comprssor gone ", KNOWN) == "Perhaps a slip, nothing is changed: “comprssor”: compressor?"
    assert slip_words("compressor gone ", KNOWN) == ""


def test_what_is_typed_is_kept_letter_for_letter(at):
    there = at("taken in")
    typed = "Strutt FL  leeks at teh lower roll; Bälge näß, „so“ – 32 mm in 13.5 h"
    desk.concern(there.book, there.bram, there.job, 1, cause=typed, confidence="proved")
    assert desk.get_job(there.book, there.job).concerns[0].cause == typed


def test_an_ordinary_word_near_one_of_the_trade_is_no_slip():
    known = words_of(["there is dirt in the right fold", "tight"])
    assert slips("three nights, eight of them light and right; teh three were rigth ", known) == (("rigth", "right"),)
