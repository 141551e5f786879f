"""The seal of a paper: one line after the file's end that signs every byte before it.

    %jobbook-seal/1 <paper|preview> book=<id> entry=<n> head=<64 hex> key=<64 hex> sig=<128 hex>

The signature is Ed25519 over a context word, the whole file and the line up to " sig=". There is one way only to write
a seal: what does not read back to the very same bytes is no seal. A reader of the file sees a comment. A preview is
sealed as one: its bytes can be checked, and its seal says that it never left the shop.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

from jobbook.core.errors import Unreadable

CONTEXT = b"jobbook-seal/1\n"
BEGINS = b"%jobbook-seal/"

_LINE = re.compile(
    rb"%jobbook-seal/1 (paper|preview) book=([A-Za-z0-9._-]{1,64}) entry=(0|[1-9][0-9]{0,17}) "
    rb"head=([0-9a-f]{64}) key=([0-9a-f]{64}) sig=([0-9a-f]{128})\n"
)
_LONGEST = 512  # bytes of the longest seal, rounded up


@dataclass(frozen=True)
class SealFacts:
    """What a seal says: the book, its last entry and head when the paper left, and the public key, both as hex.
    `kind` is "paper", or "preview" for one that did not leave."""

    book: str
    entry: int
    head: str
    key: str
    kind: str = "paper"


@dataclass(frozen=True)
class Seal:
    """A seal as it was read, and how many bytes of the file stand before it."""

    facts: SealFacts
    signature: bytes
    covers: int


@dataclass(frozen=True)
class Verdict:
    """What became of a paper. "consistent" says only that whoever holds the key sealed these very bytes."""

    state: Literal["consistent", "altered", "unreadable"]
    sentence: str
    seal: Seal | None = None


def _unsigned(facts: SealFacts) -> bytes:
    words = f"{facts.kind} book={facts.book} entry={facts.entry} head={facts.head} key={facts.key}"
    return BEGINS + b"1 " + words.encode("ascii")


def _line(facts: SealFacts, signature: bytes) -> bytes:
    return _unsigned(facts) + b" sig=" + signature.hex().encode("ascii") + b"\n"


def append_seal(pdf: bytes, facts: SealFacts, sign: Callable[[bytes], bytes]) -> bytes:
    """The file with its seal. `sign` gives the Ed25519 signature of the bytes it is handed. Nothing may change after.

    Raises Unreadable when the file is sealed already, or the facts cannot stand in a seal.
    """
    if not pdf.endswith(b"\n"):
        pdf += b"\n"
    if read_seal(pdf) is not None:
        raise Unreadable("This paper is sealed already; nothing was written. Issue a new version instead.")
    line = _line(facts, sign(CONTEXT + pdf + _unsigned(facts)))
    if _LINE.fullmatch(line) is None:
        raise Unreadable("The paper was not sealed: book, entry, head or key are not in the form that a seal has.")
    return pdf + line


def read_seal(data: bytes) -> Seal | None:
    """The seal that ends the file, or None where its last line is none. Says nothing yet about the bytes before it."""
    start = data.rfind(b"\n", max(0, len(data) - _LONGEST), len(data) - 1) + 1
    found = _LINE.fullmatch(data, start)
    if found is None:
        return None
    kind, book, entry, head, key, signature = (group.decode("ascii") for group in found.groups())
    return Seal(SealFacts(book, int(entry), head, key, kind), bytes.fromhex(signature), start)


def check_seal(data: bytes) -> Verdict:
    """Whether the file is what was sealed, to the byte."""
    seal = read_seal(data)
    if seal is None and BEGINS in data[-_LONGEST:]:
        return Verdict("altered", "The seal that ends this file was altered; trust the printed copy or ask the shop.")
    if seal is None:
        return Verdict("unreadable", "This file does not end with a seal of a job book, so it cannot be checked.")
    try:
        key = Ed25519PublicKey.from_public_bytes(bytes.fromhex(seal.facts.key))
        key.verify(seal.signature, CONTEXT + data[: seal.covers] + _unsigned(seal.facts))
    except (InvalidSignature, ValueError):
        return Verdict(
            "altered", "This paper was altered after it was sealed; trust the printed copy or ask the shop.", seal
        )
    what = "paper" if seal.facts.kind == "paper" else "preview, which never left the shop,"
    sealed = f"at entry {seal.facts.entry} of book {seal.facts.book}"
    return Verdict("consistent", f"The {what} is as it was sealed {sealed}.", seal)
