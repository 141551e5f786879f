"""A backup: one file that says of itself what it holds, of which book, and up to which entry.

The file is a zip archive of stored members (any zip program opens it): the book, its papers and photos, with its key
only where that was asked for, and `manifest.json`, which names every member with its size and SHA-256 and is signed
with the book's key. The archive's comment ends in the SHA-256 of every byte before it.
"""

import json
import re
from dataclasses import dataclass, replace
from pathlib import PurePosixPath
from typing import Any

from jobbook.core.errors import Altered
from jobbook.core.record.canonical import canonical
from jobbook.core.record.heads import Head, from_hex, signed_by

FORM = "jobbook-backup/1"
MANIFEST, BOOK, KEY = "manifest.json", "book.sqlite", "keys/book.pem"
FOLDERS = ("photos", "papers")
DIGEST_SIGNS = 64
COMMENT = f"{FORM} sha256=".encode()  # the digest follows, and then the file ends

_FORMS = {"form": str, "book": str, "key": str, "size": int, "root": str, "made_at": str, "members": list}
_MEMBER_FORMS = {"name": str, "size": int, "digest": str}
_PLAIN_NAME = re.compile(r"[^\x00-\x1f\\:\x7f]+")


@dataclass(frozen=True)
class Member:
    """One file of a backup: its name as in the book's folder, its size in bytes, its SHA-256 in hex."""

    name: str
    size: int
    digest: str


@dataclass(frozen=True)
class Manifest:
    """What a backup says of itself. `made_at` is an ISO time; `signature` is hex, or "" where there was no key."""

    book: str
    key: str
    head: Head
    made_at: str
    members: tuple[Member, ...]
    signature: str = ""

    @property
    def with_key(self) -> bool:
        return any(member.name == KEY for member in self.members)

    @property
    def message(self) -> bytes:
        """The bytes that are signed: everything that the manifest says."""
        return f"{FORM}\n{canonical(_plain(replace(self, signature='')))}".encode()

    @property
    def is_signed(self) -> bool:
        """Whether the signature was made with the key that the manifest names."""
        key, signature = from_hex(self.key, 32), from_hex(self.signature, 64)
        return key is not None and signature is not None and signed_by(key, signature, self.message)


def _plain(manifest: Manifest) -> dict[str, Any]:
    members = [{"name": m.name, "size": m.size, "digest": m.digest} for m in manifest.members]
    return {
        "form": FORM, "book": manifest.book, "key": manifest.key, "size": manifest.head.size,
        "root": manifest.head.hex, "made_at": manifest.made_at, "members": members, "signature": manifest.signature,
    }  # fmt: skip


def write_manifest(manifest: Manifest) -> bytes:
    """The manifest as it stands in the file."""
    return canonical(_plain(manifest)).encode()


def read_manifest(data: bytes, file: str) -> Manifest:
    """Read a manifest. Raises Altered, with `file` in the sentence, for what no backup ever had."""
    try:
        plain = json.loads(data.decode())
        members = tuple(_member(one) for one in _formed(plain, _FORMS | {"signature": str})["members"])
        root = from_hex(plain["root"], 32)
        if plain["form"] != FORM or root is None or canonical(plain).encode() != data:
            raise ValueError("not as a manifest is written")
    except (ValueError, TypeError, KeyError, RecursionError) as error:
        raise altered(file, "its manifest is not as it was written") from error
    if len({member.name for member in members}) != len(members) or BOOK not in {member.name for member in members}:
        raise altered(file, "its manifest does not name one book")
    head = Head(plain["size"], root)
    return Manifest(plain["book"], plain["key"], head, plain["made_at"], members, plain["signature"])


def _formed(plain: Any, forms: dict[str, type]) -> dict[str, Any]:
    if not isinstance(plain, dict) or plain.keys() != forms.keys():
        raise ValueError("something is missing")
    if any(type(plain[name]) is not kind for name, kind in forms.items()):
        raise ValueError("something is of another kind")
    return plain


def _member(plain: Any) -> Member:
    told = _formed(plain, _MEMBER_FORMS)
    if not may_stand_in_a_folder(told["name"]) or from_hex(told["digest"], 32) is None or told["size"] < 0:
        raise ValueError("a member that no backup has")
    return Member(told["name"], told["size"], told["digest"])


def may_stand_in_a_folder(name: str) -> bool:
    """Whether this names a file of a book's folder, and nothing outside it."""
    path = PurePosixPath(name)
    if name in (BOOK, KEY):
        return True
    inside = len(path.parts) > 1 and path.parts[0] in FOLDERS and ".." not in path.parts
    return inside and str(path) == name and _PLAIN_NAME.fullmatch(name) is not None


def altered(file: str, what: str) -> Altered:
    return Altered(f"The backup {file} was altered or damaged ({what}): nothing was restored. Take another backup.")
