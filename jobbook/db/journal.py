"""Reading the journal, its tree and its head; and the one statement that adds to it."""

from collections.abc import Iterator, Sequence
from typing import Any

from sqlalchemy import RowMapping

from jobbook.core.errors import Conflict, NotFound
from jobbook.core.record.journal import Entry, Head, inclusion_proof
from jobbook.core.record.tree import BLOCK, Block, Subtree, Tree, subtrees
from jobbook.db.rows import Rows

COLUMNS = "number, kind, job, done_at, replaces, body, leaf"
HASH_BYTES = 32
STEP = 500


def entry_of(row: Any) -> Entry:
    """An entry from a row of the journal, word for word."""
    number, kind, job, done_at, replaces, body, leaf = (row[name] for name in COLUMNS.split(", "))
    return Entry(number, kind, job, done_at, replaces, body, bytes(leaf))


def all_entries(rows: Rows) -> Iterator[list[Entry]]:
    """Every entry, in steps, without holding them all."""
    last = -1
    while True:
        sql = f"SELECT {COLUMNS} FROM journal WHERE number > :last ORDER BY number LIMIT {STEP}"
        step = [entry_of(row) for row in rows.all(sql, last=last)]
        if not step:
            return
        yield step
        last = step[-1].number


class Journal:
    """The journal as it stood when this reading began."""

    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def entries(
        self,
        job: int | None = None,
        kind: str | Sequence[str] | None = None,
        after: int = 0,
        limit: int | None = None,
    ) -> list[Entry]:
        """Entries in the order of their numbers, those after `after`; replaced and undone ones are among them."""
        kinds = [kind] if isinstance(kind, str) else list(kind or ())
        named = {f"kind{i}": word for i, word in enumerate(kinds)}
        where = ["number > :after"]
        where += ["job = :job"] if job is not None else []
        where += [f"kind IN ({', '.join(':' + name for name in named)})"] if kinds else []
        tail = " LIMIT :limit" if limit is not None else ""
        values: dict[str, Any] = {"after": after, **named}
        values |= {"job": job} if job is not None else {}
        values |= {"limit": limit} if limit is not None else {}
        sql = f"SELECT {COLUMNS} FROM journal WHERE {' AND '.join(where)} ORDER BY number{tail}"
        return [entry_of(row) for row in self._rows.all(sql, **values)]

    def of_jobs(self, jobs: Sequence[int], kinds: Sequence[str]) -> dict[int, list[Entry]]:
        """The entries of these kinds of each of a few jobs, in the order of their numbers; undone ones are among
        them."""
        if not jobs:
            return {}
        listed, named = ", ".join(str(int(job)) for job in jobs), ", ".join(f"'{kind}'" for kind in kinds)
        sql = f"SELECT {COLUMNS} FROM journal WHERE job IN ({listed}) AND kind IN ({named}) ORDER BY job, number"
        found: dict[int, list[Entry]] = {}
        for row in self._rows.all(sql):
            found.setdefault(row["job"], []).append(entry_of(row))
        return found

    def last_of_jobs(self, jobs: Sequence[int]) -> dict[int, int]:
        """The number of the last entry of each of a few jobs."""
        if not jobs:
            return {}
        listed = ", ".join(str(int(job)) for job in jobs)
        sql = f"SELECT job, MAX(number) AS last FROM journal WHERE job IN ({listed}) GROUP BY job"
        return {row["job"]: row["last"] for row in self._rows.all(sql)}

    def get(self, number: int) -> Entry:
        """One entry. Raises NotFound."""
        sql = f"SELECT {COLUMNS} FROM journal WHERE number = :number"
        return entry_of(self._rows.one(f"entry {number}", sql, number=number))

    def by_act(self, act: str) -> Entry | None:
        """The entry that kept this act, if one did."""
        row = self._rows.first(f"SELECT {COLUMNS} FROM journal WHERE body ->> 'act' = :act", act=act)
        return None if row is None else entry_of(row)

    def head(self) -> Head:
        """How many entries there are, and the root over them."""
        tree = read_tree(self._rows)
        return Head(tree.size, tree.root)

    def head_at(self, size: int) -> Head | None:
        """The head as it was when there were so many entries; None where there never were."""
        return Head(size, self.subtree()(0, size)) if 0 < size <= self.head().size else None

    def subtree(self) -> Subtree:
        """The kept tree's subtrees, as proofs ask for them; each block of 256 is read once."""
        blocks: dict[tuple[int, int], list[bytes]] = {}

        def read(level: int, start: int, end: int) -> Sequence[bytes]:
            block, first = start // BLOCK, start // BLOCK * BLOCK
            if (level, block) not in blocks:
                blocks[level, block] = _hashes(self._rows, level, first, first + BLOCK)
            return blocks[level, block][start - first : end - first]

        return subtrees(lambda start, end: read(0, start, end), read)

    def proof(self, number: int, size: int, subtree: Subtree) -> tuple[bytes, ...]:
        """The inclusion proof of an entry in the tree of the first `size` entries."""
        return tuple(inclusion_proof(number - 1, size, subtree))


def _hashes(rows: Rows, level: int, start: int, end: int) -> list[bytes]:
    if level:
        sql = "SELECT hash FROM tree WHERE level = :level AND number >= :start AND number < :end ORDER BY number"
        return [bytes(row["hash"]) for row in rows.all(sql, level=level, start=start, end=end)]
    sql = "SELECT leaf FROM journal WHERE number > :start AND number <= :end ORDER BY number"
    return [bytes(row["leaf"]) for row in rows.all(sql, start=start, end=end)]


def read_tree(rows: Rows) -> Tree:
    """The right edge of the tree."""
    return _tree_of(rows.first("SELECT size, peaks FROM head"))


def read_to_grow(rows: Rows) -> tuple[Tree, str]:
    """The right edge of the tree and when its last entry was made ("" where there is none).

    On a server this is the first statement of a write; it lets one write at a time."""
    last = "(SELECT body ->> 'entered_at' FROM journal WHERE number = head.size) AS last"
    row = rows.first(f"SELECT size, peaks, {last} FROM head{'' if rows.on_sqlite else ' FOR UPDATE'}")
    return _tree_of(row), row["last"] or "" if row is not None else ""


def _tree_of(row: RowMapping | None) -> Tree:
    if row is None:
        raise NotFound("The book has no head: it is damaged. Run the audit, and restore a backup into a new folder.")
    peaks = bytes(row["peaks"])
    return Tree(row["size"], tuple(peaks[i : i + HASH_BYTES] for i in range(0, len(peaks), HASH_BYTES)))


def write_tree(rows: Rows, tree: Tree) -> None:
    """Keep the right edge of the tree and the root that follows from it."""
    rows.run(
        "UPDATE head SET size = :size, root = :root, peaks = :peaks",
        size=tree.size, root=tree.root, peaks=b"".join(tree.peaks),
    )  # fmt: skip


def append(rows: Rows, entry: Entry, blocks: Sequence[Block]) -> None:
    """Add one entry and the blocks of the tree that it finished."""
    rows.run(
        f"INSERT INTO journal ({COLUMNS}) VALUES (:number, :kind, :job, :done_at, :replaces, :body, :leaf)",
        number=entry.number, kind=entry.kind, job=entry.job, done_at=entry.done_at, replaces=entry.replaces,
        body=entry.body, leaf=entry.leaf,
    )  # fmt: skip
    for block in blocks:
        sql = "INSERT INTO tree (level, number, hash) VALUES (:level, :number, :hash)"
        rows.run(sql, level=block.level, number=block.number, hash=block.hash)


def corrected(journal: Journal, number: int, kind: str, job: int | None, rows: Rows) -> None:
    """Refuse a correction of what is not there, of another kind or job, or corrected already."""
    target = journal.get(number)
    if (target.kind.split("/")[0], target.job) != (kind.split("/")[0], job):
        raise Conflict(f"Entry {number} is of another kind or job, so it was not corrected; look at it again.")
    if rows.value("SELECT number FROM journal WHERE replaces = :number", number=number) is not None:
        raise Conflict(
            f"Entry {number} was corrected by somebody else meanwhile; nothing was changed. Look at that first."
        )
