"""PINs and badges: kept only as hashes (Argon2id), outside the journal."""

import hashlib
from typing import Any

from jobbook.core.errors import Refused

SHORTEST_PIN = 4


def _hasher() -> Any:
    from argon2 import PasswordHasher  # imported where used: the first page does not need it

    return PasswordHasher(time_cost=2, memory_cost=19456, parallelism=1)


def hash_pin(pin: str) -> str:
    """The kept form of a PIN. Refused when it is shorter than four digits or holds anything but digits."""
    if len(pin) < SHORTEST_PIN or not pin.isascii() or not pin.isdigit():
        raise Refused("A PIN has at least four digits and nothing else; nothing was changed.")
    return str(_hasher().hash(pin))


def pin_fits(pin_hash: str, pin: str) -> bool:
    from argon2.exceptions import InvalidHashError, VerificationError

    try:
        return bool(_hasher().verify(pin_hash, pin))
    except (VerificationError, InvalidHashError):
        return False


def hash_badge(book_id: str, code: str) -> str:
    """The kept form of a badge's code: badges are looked up by it, so it is salted by the book alone."""
    if len(code.strip()) < 6:
        raise Refused("A badge's code has at least six characters; nothing was changed.")
    return hashlib.scrypt(code.strip().encode(), salt=f"badge:{book_id}".encode(), n=4096, r=8, p=1).hex()
