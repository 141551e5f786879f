import random
from dataclasses import replace
from functools import cache

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from jobbook.core.errors import Unreadable
from jobbook.paperwork import evidence
from jobbook.paperwork.attached import attach, attachment
from jobbook.paperwork.seal import CONTEXT, SealFacts, append_seal, check_seal, read_seal

from . import records
from .reading import pages

KEY = Ed25519PrivateKey.from_private_bytes(bytes(range(32)))
FACTS = SealFacts("sl-7f3a", 1241, "ab" * 32, KEY.public_key().public_bytes_raw().hex())


@cache
def sealed() -> bytes:
    pdf = attach(evidence.to_pdf(records.evidence(), head=records.HEAD), "entries.json", b'{"entries":[]}')
    return append_seal(pdf, FACTS, KEY.sign)


def test_a_sealed_paper_is_consistent_and_says_by_whose_key():
    verdict = check_seal(sealed())
    assert verdict.state == "consistent"
    assert verdict.seal is not None
    assert verdict.seal.facts == FACTS


def test_a_sealed_paper_still_opens_in_a_reader_with_its_attached_file():
    assert "Evidence for a warranty claim" in pages(sealed())[0]
    assert attachment(sealed(), "entries.json") == b'{"entries":[]}'


def _altered(position: int, bits: int) -> bytes:
    data = bytearray(sealed())
    data[position] ^= bits
    return bytes(data)


def test_every_bit_of_the_seal_is_guarded():
    start = sealed().rindex(b"%jobbook-seal")
    missed = [
        (position, bit)
        for position in range(start - 8, len(sealed()))
        for bit in range(8)
        if check_seal(_altered(position, 1 << bit)).state == "consistent"
    ]
    assert missed == []


def test_any_of_a_thousand_bytes_altered_is_found():
    chance = random.Random(2041)
    spots = [(chance.randrange(len(sealed())), chance.randrange(1, 256)) for _ in range(1000)]
    assert [spot for spot in spots if check_seal(_altered(*spot)).state == "consistent"] == []


@pytest.mark.parametrize(
    "change",
    [
        lambda data: data + b"\n",
        lambda data: data[:-1],
        lambda data: data + b"%%EOF\n",
        lambda data: data[1:],
        lambda data: data.replace(b"entry=1241", b"entry=01241"),
        lambda data: data.replace(b"entry=1241", b"entry=1242"),
        lambda data: data[:-129] + data[-129:].upper(),
        lambda data: data.replace(b"sig=", b"sig= "),
        lambda data: data.replace(b"%jobbook-seal/1 ", b"%jobbook-seal/1  "),
        lambda data: data[:-1] + b"\r\n",
        lambda data: data + data[data.rindex(b"%jobbook-seal") :],
    ],
)
def test_no_other_way_of_writing_the_same_seal_passes(change):
    assert change(sealed()) != sealed()
    assert check_seal(change(sealed())).state in ("altered", "unreadable")


def test_another_key_s_seal_is_consistent_only_with_that_key():
    other = Ed25519PrivateKey.from_private_bytes(bytes(32))
    swapped = sealed().replace(FACTS.key.encode(), other.public_key().public_bytes_raw().hex().encode())
    assert check_seal(swapped).state == "altered"


@pytest.mark.parametrize("data", [b"", b"\n", b"%PDF-1.4\n%%EOF\n", b"no paper", bytes(range(256)) * 9])
def test_what_has_no_seal_is_unreadable(data):
    assert check_seal(data).state == "unreadable"
    assert read_seal(data) is None


def test_a_seal_that_was_altered_is_told_from_a_file_without_one():
    spoilt = sealed().replace(b"entry=1241", b"entry=x241")
    assert (read_seal(spoilt), check_seal(spoilt).state) == (None, "altered")


def test_a_preview_s_seal_says_that_it_never_left_the_shop():
    made = append_seal(b"%PDF-1.4\n%%EOF\n", replace(FACTS, kind="preview"), KEY.sign)
    assert "never left the shop" in check_seal(made).sentence
    assert check_seal(made.replace(b"/1 preview ", b"/1 paper ")).state == "altered"


def test_a_paper_is_sealed_once():
    with pytest.raises(Unreadable, match="sealed already"):
        append_seal(sealed(), FACTS, KEY.sign)


@pytest.mark.parametrize("book", ["", "two words", "x" * 65, "line\nbreak"])
def test_facts_that_cannot_stand_in_a_seal_are_refused(book):
    with pytest.raises(Unreadable, match="not sealed"):
        append_seal(b"%PDF-1.4\n%%EOF\n", SealFacts(book, 1, FACTS.head, FACTS.key), KEY.sign)


def test_what_is_signed_is_the_context_the_file_and_the_line_up_to_the_signature():
    handed = []

    def sign(message: bytes) -> bytes:
        handed.append(message)
        return KEY.sign(message)

    made = append_seal(b"%PDF-1.4\n%%EOF\n", FACTS, sign)
    assert handed == [CONTEXT + made[: made.index(b" sig=")]]
