"""The head of a book: one line that witnesses every entry before it, and the signature under it."""

import hashlib
import re
from dataclasses import dataclass

_HEX = re.compile(r"[0-9a-f]+")


@dataclass(frozen=True)
class Head:
    """How many entries, and the root of the tree over them (32 bytes)."""

    size: int
    root: bytes

    @property
    def hex(self) -> str:
        return self.root.hex()

    @property
    def text(self) -> str:
        """The root for people: sixteen groups of four (`9f2c 41d7 ...`)."""
        return in_groups(self.hex)


def in_groups(digits: str) -> str:
    """Hex digits in groups of four, to be read aloud and compared."""
    return " ".join(digits[i : i + 4] for i in range(0, len(digits), 4))


def from_hex(digits: object, count: int) -> bytes | None:
    """`count` bytes from lower-case hex, or None: another spelling of the same bytes is an alteration too."""
    if not isinstance(digits, str) or len(digits) != 2 * count or not _HEX.fullmatch(digits):
        return None
    return bytes.fromhex(digits)


def head_message(book: str, head: Head) -> bytes:
    """The bytes that are signed for a head of that book."""
    return f"jobbook-head/1\n{book}\n{head.size}\n{head.hex}\n".encode()


def fingerprint(public: bytes) -> str:
    """The first eight bytes of SHA-256 over the public key (32 bytes), in groups: to be compared with a paper."""
    return in_groups(hashlib.sha256(public).hexdigest()[:16])


def signed_by(public: bytes, signature: bytes, message: bytes) -> bool:
    """Whether the signature under the message was made with the secret of this public key (Ed25519, RFC 8032)."""
    from cryptography.exceptions import InvalidSignature
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

    try:
        Ed25519PublicKey.from_public_bytes(public).verify(signature, message)
    except (InvalidSignature, ValueError):
        return False
    return True
