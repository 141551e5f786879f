"""The evidence pack: any altered byte is found, and what is no pack is said to be none."""

import json
import random

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from jobbook.core.errors import Unreadable
from jobbook.core.record.heads import Head, head_message
from jobbook.core.record.journal import Draft, body_of, verify_pack
from jobbook.core.record.pack import Proved, read_pack, write_pack
from jobbook.core.record.tree import inclusion_proof, leaf_hash, of_leaves, root

KEY = Ed25519PrivateKey.from_private_bytes(bytes(range(32)))


def packed(book="book", size=9, numbers=(2, 5, 9), key=KEY):
    bodies = [
        body_of(Draft("note/1", "job/1", {"n": n}), book=book, act=str(n), entered_at="", entered_by="bf", salt="")
        for n in range(1, size + 1)
    ]
    leaves = [leaf_hash(body.encode()) for body in bodies]
    head = Head(size, root(leaves))
    entries = [Proved(n, bodies[n - 1], tuple(inclusion_proof(n - 1, size, of_leaves(leaves)))) for n in numbers]
    public = key.public_key().public_bytes_raw()
    return write_pack(book, head, key.sign(head_message(book, head)), public, entries)


def changed(**parts):
    return json.dumps(json.loads(packed()) | parts, separators=(",", ":"), sort_keys=True).encode()


def test_a_pack_that_was_not_altered_is_consistent():
    pack = read_pack(packed())
    assert pack.findings == ()
    assert [entry.number for entry in pack.entries] == [2, 5, 9]
    assert len(pack.fingerprint.split()) == 4


def test_every_altered_bit_of_a_byte_is_found():
    whole = packed()
    chance = random.Random(9162)
    for at in range(len(whole)):
        altered = bytearray(whole)
        altered[at] ^= 1 << chance.randrange(8)
        try:
            findings = verify_pack(bytes(altered))
        except Unreadable:
            continue
        assert findings, f"byte {at} was altered and nothing was said"


def test_spaces_and_order_that_change_no_word_are_found_too():
    assert verify_pack(json.dumps(json.loads(packed())).encode()) == (
        "The pack is not written as the book writes it: spaces, order or spelling were changed.",
    )


def test_an_entry_of_another_book_is_found():
    assert "Entry 2 belongs to another book." in verify_pack(changed(book="other"))


def test_a_head_signed_by_another_key_is_found():
    other = Ed25519PrivateKey.from_private_bytes(bytes(32)).public_key().public_bytes_raw().hex()
    assert verify_pack(changed(key=other)) == ("The signature does not belong to this head of this book.",)


def test_entries_out_of_order_or_twice_are_found():
    sentence = "The entries do not stand in the order of their numbers."
    assert sentence in verify_pack(packed(numbers=(5, 2)))
    assert sentence in verify_pack(packed(numbers=(2, 2)))


@pytest.mark.parametrize(
    "data",
    [
        b"", b"\xff\xfe", b"[]", b"{}", b"[" * 100_000, b'{"book":1.5}', packed()[:-1], changed(entries={}),
        changed(more=1), changed(entries=[1]), changed(head={"size": 1}), changed(key="AB" * 32),
        changed(head={"size": True, "root": "ab" * 32}),
        changed(entries=[{"number": 1, "body": "{}", "proof": ["zz"]}]), b'{"book":NaN}',
    ],
)  # fmt: skip
def test_what_is_no_pack_is_unreadable(data):
    with pytest.raises(Unreadable):
        verify_pack(data)


def test_a_pack_beyond_all_measure_is_unreadable(monkeypatch):
    monkeypatch.setattr("jobbook.core.record.pack.LARGEST_PACK", 100)
    with pytest.raises(Unreadable, match="64 MB"):
        verify_pack(packed())


def test_a_body_that_is_no_entry_is_found():
    entries = json.loads(packed())["entries"]
    assert "Entry 2 is not the text of an entry." in verify_pack(changed(entries=[entries[0] | {"body": "no"}]))
