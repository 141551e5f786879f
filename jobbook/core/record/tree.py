"""The Merkle tree of RFC 9162, section 2.1: what a head says of every entry before it.

A subtree is named by the range of leaves below it, [start, end). Proofs ask for subtrees through a function, so that
whoever keeps the tree decides what is read; `subtrees` answers from leaves and from the blocks of 256.
"""

import hashlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass

BLOCK = 256

Subtree = Callable[[int, int], bytes]
Leaves = Callable[[int, int], Sequence[bytes]]
Blocks = Callable[[int, int, int], Sequence[bytes]]

EMPTY_ROOT = hashlib.sha256(b"").digest()


def leaf_hash(data: bytes) -> bytes:
    """The leaf of one entry: SHA-256 over 0x00 and the entry."""
    return hashlib.sha256(b"\x00" + data).digest()


def node_hash(left: bytes, right: bytes) -> bytes:
    """What stands above two subtrees: SHA-256 over 0x01 and both."""
    return hashlib.sha256(b"\x01" + left + right).digest()


def root(hashes: Sequence[bytes]) -> bytes:
    """The root over leaves (or over whole blocks of one size, the last of which may be smaller)."""
    level = list(hashes)
    if not level:
        return EMPTY_ROOT
    while len(level) > 1:
        above = [node_hash(level[i], level[i + 1]) for i in range(0, len(level) - 1, 2)]
        level = above + level[len(level) - len(level) % 2 :]
    return level[0]


@dataclass(frozen=True)
class Block:
    """A finished block: 256 leaves at level 1, 256 blocks of level 1 at level 2, and so on; numbered from 0."""

    level: int
    number: int
    hash: bytes


@dataclass(frozen=True)
class Tree:
    """The right edge of a growing tree: the roots of its perfect subtrees, the largest first."""

    size: int = 0
    peaks: tuple[bytes, ...] = ()

    @property
    def root(self) -> bytes:
        if not self.peaks:
            return EMPTY_ROOT
        total = self.peaks[-1]
        for peak in reversed(self.peaks[:-1]):
            total = node_hash(peak, total)
        return total

    def grown(self, leaf: bytes) -> tuple["Tree", tuple[Block, ...]]:
        """The tree with one more leaf, and the blocks that this leaf finished."""
        peaks, size, width, finished = list(self.peaks), self.size + 1, 1, []
        top = leaf
        while size % (2 * width) == 0:
            top, width = node_hash(peaks.pop(), top), 2 * width
            level = (width.bit_length() - 1) // 8
            if width == BLOCK**level:
                finished.append(Block(level, size // width - 1, top))
        return Tree(size, (*peaks, top)), tuple(finished)


def subtrees(leaves: Leaves, blocks: Blocks) -> Subtree:
    """Answer for any subtree of a kept tree. `leaves(start, end)` and `blocks(level, start, end)` read what is kept."""

    def subtree(start: int, end: int) -> bytes:
        level, width = 0, 1
        while width * BLOCK <= end - start:
            level, width = level + 1, width * BLOCK
        whole = (end - start) // width
        first = start // width
        hashes = list(blocks(level, first, first + whole) if level else leaves(start, end))
        rest = start + whole * width
        return root([*hashes, subtree(rest, end)] if rest < end else hashes)

    return subtree


def of_leaves(leaves: Sequence[bytes]) -> Subtree:
    """Answer for any subtree of leaves that are all at hand."""
    return lambda start, end: root(leaves[start:end])


def _split(width: int) -> int:
    """The largest power of two that is smaller than `width`."""
    return 1 << (width - 1).bit_length() - 1


def inclusion_proof(index: int, size: int, subtree: Subtree) -> list[bytes]:
    """The path that shows leaf `index` (from 0) to be in the tree of `size` leaves (RFC 9162, 2.1.3.1)."""
    if not 0 <= index < size:
        raise ValueError(f"there is no leaf {index} in a tree of {size}")
    path, start, end = [], 0, size
    while end - start > 1:
        middle = start + _split(end - start)
        if index < middle:
            path.append(subtree(middle, end))
            end = middle
        else:
            path.append(subtree(start, middle))
            start = middle
    return path[::-1]


def verify_inclusion(leaf: bytes, index: int, size: int, path: Sequence[bytes], expected: bytes) -> bool:
    """Whether the path leads from the leaf to the expected root (RFC 9162, 2.1.3.2)."""
    if not 0 <= index < size:
        return False
    number, last, total = index, size - 1, leaf
    for sibling in path:
        if last == 0:
            return False
        if number & 1 or number == last:
            total = node_hash(sibling, total)
            while not number & 1 and number:
                number, last = number >> 1, last >> 1
        else:
            total = node_hash(total, sibling)
        number, last = number >> 1, last >> 1
    return last == 0 and total == expected


def consistency_proof(earlier: int, size: int, subtree: Subtree) -> list[bytes]:
    """The path that shows the tree of `size` leaves to continue that of `earlier` leaves (RFC 9162, 2.1.4.1)."""
    if not 0 < earlier <= size:
        raise ValueError(f"a tree of {size} leaves cannot continue one of {earlier}")
    path, start, end, known = [], 0, size, True
    while end > earlier:
        middle = start + _split(end - start)
        if earlier <= middle:
            path.append(subtree(middle, end))
            end = middle
        else:
            path.append(subtree(start, middle))
            start, known = middle, False
    if not known:
        path.append(subtree(start, end))
    return path[::-1]


def verify_consistency(earlier: int, size: int, earlier_root: bytes, later_root: bytes, path: Sequence[bytes]) -> bool:
    """Whether the path leads from both roots to both trees (RFC 9162, 2.1.4.2)."""
    if earlier == size:
        return not path and earlier_root == later_root
    if not 0 < earlier < size:
        return False
    steps = list(path) if earlier & (earlier - 1) else [earlier_root, *path]
    number, last = earlier - 1, size - 1
    while number & 1:
        number, last = number >> 1, last >> 1
    if not steps:
        return False
    old = new = steps[0]
    for sibling in steps[1:]:
        if last == 0:
            return False
        if number & 1 or number == last:
            old, new = node_hash(sibling, old), node_hash(sibling, new)
            while not number & 1 and number:
                number, last = number >> 1, last >> 1
        else:
            new = node_hash(new, sibling)
        number, last = number >> 1, last >> 1
    return last == 0 and old == earlier_root and new == later_root
