"""The book's key: Ed25519, made with the book, kept in its folder and nowhere else."""

import os
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from jobbook.core.errors import StoreUnavailable
from jobbook.core.record.heads import fingerprint

FILE = "book.pem"


@dataclass(frozen=True)
class Key:
    """A key that signs. `public` is its public half, 32 bytes; the secret half never shows."""

    public: bytes
    sign: Callable[[bytes], bytes] = field(repr=False)

    @property
    def hex(self) -> str:
        return self.public.hex()

    @property
    def fingerprint(self) -> str:
        return fingerprint(self.public)


def create_key(folder: Path, secret: bytes) -> Key:
    """Make a key from 32 random bytes and write it where only its owner may read it. Never writes over a key."""
    from cryptography.hazmat.primitives import serialization
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    private = Ed25519PrivateKey.from_private_bytes(secret)
    text = private.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
    _write_once(folder / FILE, text)
    return read_key(folder)


def _write_once(file: Path, text: bytes) -> None:
    """Write a file that is whole or not there, readable by its owner alone."""
    beside = file.with_suffix(".new")
    beside.unlink(missing_ok=True)
    handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "wb") as out:
        out.write(text)
        out.flush()
        os.fsync(out.fileno())
    if file.exists():
        raise FileExistsError(f"{file} is there already")
    beside.rename(file)


def read_key(folder: Path) -> Key:
    """The key of the book. Raises StoreUnavailable when it is not there or cannot be read."""
    from cryptography.exceptions import UnsupportedAlgorithm
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
    from cryptography.hazmat.primitives.serialization import load_pem_private_key

    file = folder / FILE
    try:
        private = load_pem_private_key(file.read_bytes(), password=None)
    except (OSError, ValueError, TypeError, UnsupportedAlgorithm) as error:
        raise _no_key(file) from error
    if not isinstance(private, Ed25519PrivateKey):
        raise _no_key(file)
    return Key(private.public_key().public_bytes_raw(), private.sign)


def _no_key(file: Path) -> StoreUnavailable:
    return StoreUnavailable(
        f"The book's key {file} cannot be read: the book itself is whole, but no paper can leave it. "
        "Put the key back from a backup."
    )
