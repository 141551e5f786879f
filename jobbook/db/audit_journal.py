"""The journal read from its first entry to its last: does everything follow from the words that were kept?"""

import json
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from jobbook.core.errors import NotFound
from jobbook.core.record.files import Erasing
from jobbook.core.record.heads import from_hex
from jobbook.core.record.journal import Entry, Head, head_message, leaf_hash, signed_by
from jobbook.core.record.tree import Tree
from jobbook.db.disk.files_on_disk import digest_as_it_lies
from jobbook.db.disk.papers_on_disk import digest_of, read_paper
from jobbook.db.epochs import RESTORED, restoration_of
from jobbook.db.rows import Rows

SEALED: dict[str, tuple[str, ...]] = {
    "customer/1": ("name", "address", "phone", "email"),
    "call/1": ("caller", "phone", "words", "warning", "elsewhere"),
    "call-closed/1": ("note",),
    "tried/1": ("note",),
    "reminder-closed/1": ("note",),
    "job-opened/1": ("brought_by", "condition", "may_authorise", "payer_name"),
    "concern/1": ("words",),
    "permission/1": ("who", "reached_at", "acts_for"),
    "permission-changed/1": ("who", "reached_at", "why"),
    "contact/1": ("reached_at", "said"),
    "declined/1": ("who", "reached_at"),
    "signature/1": ("name", "signed"),
    "estimate-terms/1": ("exclusions",),
    "handed-in/1": ("belongings", "said"),
    "note/1": ("text",),
    "file/1": ("name",),
    "credential/1": ("commitment",),
}
FACTS = ("kind", "job", "done_at", "replaces")


@dataclass
class Pass:
    """What the pass over the journal has seen so far."""

    book: str
    key: str
    folder: Path | None
    tree: Tree = field(default_factory=Tree)
    before: Tree = field(default_factory=Tree)  # as it was before the entry that is looked at
    blocks: int = 0
    roots: dict[int, bytes] = field(default_factory=dict)  # of the sizes that a paper's head names
    erased: set[str] = field(default_factory=set)  # what entries say was erased
    papers: int = 0
    files: set[str] = field(default_factory=set)  # the digests that were looked at
    files_erased: dict[str, Erasing] = field(default_factory=dict)  # contents that are gone for good, by which entry
    epoch: int = 1


def look_at_entry(rows: Rows, so_far: Pass, entry: Entry) -> Iterator[str]:
    """Sentences about one entry; takes it into the tree of the pass."""
    if entry.number != so_far.tree.size + 1:
        yield f"Entry {entry.number} does not follow entry {so_far.tree.size}."
    if not isinstance(entry.body, str):  # SQLite gives bytes where the form of the value was altered.
        yield f"Entry {entry.number} is not kept as text any more."
        entry = replace(entry, body="")
    elif leaf_hash(entry.body.encode(errors="surrogatepass")) != entry.leaf:
        yield f"Entry {entry.number} is not as it was kept: its text does not have its hash."
    facts = _facts(entry)
    yield from _columns(entry, facts, so_far.book)
    so_far.before = so_far.tree
    so_far.tree, finished = so_far.tree.grown(entry.leaf)
    for block in finished:
        so_far.blocks += 1
        kept = rows.value(
            "SELECT hash FROM tree WHERE level = :level AND number = :number", level=block.level, number=block.number
        )
        if kept is None or bytes(kept) != block.hash:
            yield f"The tree's block {block.number} of level {block.level} does not follow from its entries."
    if so_far.tree.size in so_far.roots:
        so_far.roots[so_far.tree.size] = so_far.tree.root
    payload = facts.get("payload")
    if isinstance(payload, dict):
        yield from _payload(rows, so_far, entry, payload)


def _facts(entry: Entry) -> dict[str, Any]:
    try:
        facts = json.loads(entry.body)
    except (ValueError, RecursionError):
        return {}
    return facts if isinstance(facts, dict) else {}


def _columns(entry: Entry, facts: dict[str, Any], book: str) -> Iterator[str]:
    for name in FACTS:
        if facts.get(name) != getattr(entry, name):
            yield f"Entry {entry.number} is listed with another {name.replace('_', ' ')} than its text has."
    if facts.get("book") != book:
        yield f"Entry {entry.number} belongs to another book."
    if entry.replaces is not None and entry.replaces >= entry.number:
        yield f"Entry {entry.number} corrects an entry that came after it."


def _payload(rows: Rows, so_far: Pass, entry: Entry, payload: dict[str, Any]) -> Iterator[str]:
    if entry.kind == "erased/1":
        so_far.erased |= {str(commitment) for commitment in payload.get("commitments", ())}
    if entry.kind == "credential/1" and payload.get("retired"):
        so_far.erased.add(str(payload["retired"]))
    for name, sealed in _sealed(entry.kind, payload):
        if from_hex(sealed, 32) is not None:
            there = rows.value("SELECT commitment FROM sealed WHERE commitment = :sealed", sealed=sealed)
            if there is None:
                yield f"What entry {entry.number} holds sealed as its {name.replace('_', ' ')} is not in the book."
    if entry.kind == RESTORED:
        yield from _restored(so_far, entry)
    if entry.kind == "file/1":
        yield from _file(rows, so_far, entry, payload)
    if entry.kind == "paper/1":
        so_far.papers += 1
        yield from _paper(rows, so_far, entry, payload)


def _sealed(kind: str, payload: dict[str, Any]) -> Iterator[tuple[str, Any]]:
    """What an entry holds sealed, with its name; the people at a customer have theirs within the list."""
    yield from ((name, payload.get(name)) for name in SEALED.get(kind, ()))
    people = payload.get("contacts", []) if kind == "customer/1" else []
    for one in people if isinstance(people, list) else ():
        yield from ((name, one.get(name)) for name in ("name", "phone") if isinstance(one, dict))


def _restored(so_far: Pass, entry: Entry) -> Iterator[str]:
    """A restoring goes on from the head that stood just before it; so an older head on a paper stays explainable."""
    so_far.epoch += 1
    before = so_far.before
    try:
        told = restoration_of(entry)
        fits = (told.size, told.root, told.epoch) == (before.size, before.root.hex(), so_far.epoch)
    except (KeyError, TypeError, ValueError):
        fits = False
    if not fits:
        yield f"Entry {entry.number} says that the book was restored from another state than the one before it."


def _paper(rows: Rows, so_far: Pass, entry: Entry, payload: dict[str, Any]) -> Iterator[str]:
    said = f"The paper of entry {entry.number}"
    head_root, key, signature = (from_hex(payload.get(n), c) for n, c in (("root", 32), ("key", 32), ("signature", 64)))
    size = payload.get("size")
    if head_root is None or key is None or signature is None or not isinstance(size, int):
        yield f"{said} carries no signed head."
    else:
        if so_far.roots.get(size) != head_root:
            yield f"{said} carries a head that does not follow from the entries before it."
        if not signed_by(key, signature, head_message(so_far.book, Head(size, head_root))):
            yield f"{said} carries a head whose signature does not fit."
        if key.hex() != so_far.key:
            yield f"{said} was signed with another key than the book's."
    digest = str(payload.get("digest"))
    try:
        if digest_of(read_paper(so_far.folder, rows, digest)) != digest:
            yield f"{said} is not byte for byte the one that left the shop."
    except NotFound:
        yield f"{said} is not in the book's folder."


def _file(rows: Rows, so_far: Pass, entry: Entry, payload: dict[str, Any]) -> Iterator[str]:
    """Each content is read once, however many entries name it."""
    digest = str(payload.get("digest"))
    if digest in so_far.files:
        return
    so_far.files.add(digest)
    if from_hex(digest, 32) is None:
        yield f"Entry {entry.number} names a file by what is no digest."
        return
    if digest in so_far.files_erased:
        yield from _erased_file(rows, so_far, entry, digest)
        return
    try:
        if digest_as_it_lies(so_far.folder, rows, digest) != digest:
            yield f"The file of entry {entry.number} is not byte for byte as it was kept."
    except NotFound:
        yield f"The file of entry {entry.number} is not in the book's folder."


def _erased_file(rows: Rows, so_far: Pass, entry: Entry, digest: str) -> Iterator[str]:
    with suppress(NotFound):
        digest_as_it_lies(so_far.folder, rows, digest)
        by = so_far.files_erased[digest].entry
        yield (
            f"The file of entry {entry.number} was erased by entry {by}, but its bytes still lie there: open the "
            "book once more, then look again."
        )
