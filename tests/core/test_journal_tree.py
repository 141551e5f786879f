"""The Merkle tree against RFC 9162: published vectors, and a tree written straight from the definitions.

Source: RFC 9162 sections 2.1.1 to 2.1.4. Standing: tests/standards/tree.json has the leaves, roots and paths of the
public Certificate Transparency test data as remembered and computed again; the consistency paths below are from the
same data, from memory, and hold against the naive tree too.
"""

import hashlib
import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobbook.core.record.tree import (
    BLOCK,
    EMPTY_ROOT,
    Tree,
    consistency_proof,
    inclusion_proof,
    leaf_hash,
    of_leaves,
    root,
    subtrees,
    verify_consistency,
    verify_inclusion,
)

PUBLISHED = json.loads((Path(__file__).parents[1] / "standards" / "tree.json").read_text())
LEAVES = [leaf_hash(bytes.fromhex(text)) for text in PUBLISHED["leaves_hex"]]
CONSISTENCY = {
    (1, 8): (
        "96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7",
        "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
        "6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4",
    ),
    (6, 8): (
        "0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a",
        "ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0",
        "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    ),
    (2, 5): (
        "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
        "bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b",
    ),
}


def naive_root(leaves):
    """MTH of RFC 9162 2.1.1 over leaf hashes, word for word."""
    if not leaves:
        return hashlib.sha256(b"").digest()
    if len(leaves) == 1:
        return leaves[0]
    k = naive_split(len(leaves))
    return hashlib.sha256(b"\x01" + naive_root(leaves[:k]) + naive_root(leaves[k:])).digest()


def naive_split(n):
    k = 1
    while k * 2 < n:
        k *= 2
    return k


def naive_path(m, leaves):
    """PATH of RFC 9162 2.1.3.1."""
    if len(leaves) == 1:
        return []
    k = naive_split(len(leaves))
    if m < k:
        return [*naive_path(m, leaves[:k]), naive_root(leaves[k:])]
    return [*naive_path(m - k, leaves[k:]), naive_root(leaves[:k])]


def naive_subproof(m, leaves, known):
    """SUBPROOF of RFC 9162 2.1.4.1."""
    if m == len(leaves):
        return [] if known else [naive_root(leaves)]
    k = naive_split(len(leaves))
    if m <= k:
        return [*naive_subproof(m, leaves[:k], known), naive_root(leaves[k:])]
    return [*naive_subproof(m - k, leaves[k:], False), naive_root(leaves[:k])]


def numbered(count):
    return [leaf_hash(str(number).encode()) for number in range(count)]


def grown(leaves):
    tree, finished = Tree(), []
    for leaf in leaves:
        tree, blocks = tree.grown(leaf)
        finished += blocks
    return tree, finished


@pytest.mark.parametrize("size", range(1, 9))
def test_roots_are_the_published_ones(size):
    assert root(LEAVES[:size]).hex() == PUBLISHED["roots"][size - 1]
    assert grown(LEAVES[:size])[0].root.hex() == PUBLISHED["roots"][size - 1]


@pytest.mark.parametrize("case", PUBLISHED["inclusion"], ids=lambda case: f"leaf {case['leaf']} of {case['size']}")
def test_inclusion_paths_are_the_published_ones(case):
    leaf, size, path = case["leaf"], case["size"], [bytes.fromhex(step) for step in case["path"]]
    assert inclusion_proof(leaf, size, of_leaves(LEAVES)) == path
    assert verify_inclusion(LEAVES[leaf], leaf, size, path, bytes.fromhex(PUBLISHED["roots"][size - 1]))


@pytest.mark.parametrize(("sizes", "path"), CONSISTENCY.items(), ids=str)
def test_consistency_paths_are_the_published_ones(sizes, path):
    assert [step.hex() for step in consistency_proof(*sizes, of_leaves(LEAVES))] == list(path)


def test_the_empty_tree_has_the_hash_of_nothing():
    assert Tree().root == EMPTY_ROOT == naive_root([])


def test_every_small_tree_and_every_path_is_that_of_the_definition():
    for size in range(1, 20):
        leaves = numbered(size)
        top = naive_root(leaves)
        assert root(leaves) == grown(leaves)[0].root == top
        for index in range(size):
            path = inclusion_proof(index, size, of_leaves(leaves))
            assert path == naive_path(index, leaves)
            assert verify_inclusion(leaves[index], index, size, path, top)
        for earlier in range(1, size + 1):
            path = consistency_proof(earlier, size, of_leaves(leaves))
            assert path == naive_subproof(earlier, leaves, True)
            assert verify_consistency(earlier, size, naive_root(leaves[:earlier]), top, path)


@pytest.mark.parametrize("size", [255, 256, 257, 511, 512, 513, 1000, 65_535, 65_536, 65_793])
def test_blocks_of_256_answer_like_all_the_leaves(size):
    leaves = numbered(size)
    tree, finished = grown(leaves)
    kept = {(block.level, block.number): block.hash for block in finished}
    assert len(kept) == size // BLOCK + size // BLOCK**2

    def blocks(level, start, end):
        return [kept[level, number] for number in range(start, end)]

    subtree = subtrees(lambda start, end: leaves[start:end], blocks)
    assert subtree(0, size) == tree.root == root(leaves)
    for index in {0, 1, size // 3, size // 2, size - 1}:
        path = inclusion_proof(index, size, subtree)
        assert verify_inclusion(leaves[index], index, size, path, tree.root)
    for earlier in {1, size // 3 or 1, 256 if size >= 256 else 1, size - 1}:
        path = consistency_proof(earlier, size, subtree)
        assert verify_consistency(earlier, size, root(leaves[:earlier]), tree.root, path)


@given(st.integers(1, 200), st.data())
def test_a_path_shows_no_other_leaf_place_size_or_root(size, data):
    leaves = numbered(size)
    index = data.draw(st.integers(0, size - 1))
    path = inclusion_proof(index, size, of_leaves(leaves))
    top = root(leaves)
    other = leaf_hash(b"another")
    assert not verify_inclusion(other, index, size, path, top)
    assert not verify_inclusion(leaves[index], index, size, path, other)
    assert not verify_inclusion(leaves[index], index, size, [*path, other], top)
    assert not verify_inclusion(leaves[index], size, size, path, top)
    assert not verify_inclusion(leaves[index], -1, size, path, top)
    wrong = data.draw(st.integers(0, size - 1))
    assert verify_inclusion(leaves[index], wrong, size, path, top) == (wrong == index)
    if path:
        at = data.draw(st.integers(0, len(path) - 1))
        assert not verify_inclusion(leaves[index], index, size, [*path[:at], other, *path[at + 1 :]], top)
        assert not verify_inclusion(leaves[index], index, size, path[:-1], top)


@given(st.integers(2, 120), st.data())
def test_a_tree_that_was_changed_does_not_continue_the_earlier_one(size, data):
    leaves = numbered(size)
    earlier = data.draw(st.integers(1, size - 1))
    path = consistency_proof(earlier, size, of_leaves(leaves))
    old, new, other = root(leaves[:earlier]), root(leaves), leaf_hash(b"another")
    assert verify_consistency(earlier, size, old, new, path)
    assert not verify_consistency(earlier, size, other, new, path)
    assert not verify_consistency(earlier, size, old, other, path)
    assert not verify_consistency(earlier, size, old, new, [*path, other])
    assert not verify_consistency(earlier, size, old, new, path[:-1])
    assert not verify_consistency(0, size, old, new, path)


def test_a_tree_continues_itself_and_nothing_else():
    leaves = numbered(7)
    assert verify_consistency(7, 7, root(leaves), root(leaves), [])
    assert not verify_consistency(7, 7, root(leaves), leaf_hash(b""), [])
    assert not verify_consistency(7, 7, root(leaves), root(leaves), [leaf_hash(b"")])
    with pytest.raises(ValueError, match="cannot continue"):
        consistency_proof(8, 7, of_leaves(leaves))


def test_there_is_no_path_to_a_leaf_that_is_not_there():
    with pytest.raises(ValueError, match="no leaf 3"):
        inclusion_proof(3, 3, of_leaves(numbered(3)))
