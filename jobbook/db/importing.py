"""Rows of an import that wait to be kept: laid down beside the journal in short writes, taken from there by and by.

They are no facts of the book. From the entry `import-begun/1` on they will be kept, whatever happens to the program;
rows without such an entry belong to an import that never began."""

import json
from collections.abc import Sequence

from sqlalchemy import text

from jobbook.db.book import Book
from jobbook.db.writing import WritingBook

INSERT = text('INSERT INTO import_row (import, "row", facts) VALUES (:import, :row, :facts)')


def lay_down(tx: WritingBook, name: str, rows: Sequence[tuple[int, dict[str, str]]]) -> None:
    """Let these rows wait under the name of their import."""
    waiting = [{"import": name, "row": row, "facts": json.dumps(facts, ensure_ascii=False)} for row, facts in rows]
    tx.rows.connection.execute(INSERT, waiting)


def waiting(book: Book, name: str, limit: int) -> list[tuple[int, dict[str, str]]]:
    """The next rows of an import, in the order of its file."""
    sql = 'SELECT "row", facts FROM import_row WHERE import = :name ORDER BY "row" LIMIT :limit'
    return [(int(row["row"]), json.loads(row["facts"])) for row in book.rows.all(sql, name=name, limit=limit)]


def count(book: Book, name: str) -> int:
    return int(book.rows.value("SELECT COUNT(*) FROM import_row WHERE import = :name", name=name))


def is_left(book: Book, name: str) -> bool:
    """Whether a row of this import still waits."""
    sql = 'SELECT "row" FROM import_row WHERE import = :name ORDER BY "row" LIMIT 1'
    return book.rows.value(sql, name=name) is not None


def names(book: Book) -> tuple[str, ...]:
    """The imports that have rows waiting."""
    return tuple(row["import"] for row in book.rows.all("SELECT DISTINCT import FROM import_row ORDER BY import"))


def done_up_to(tx: WritingBook, name: str, row: int) -> None:
    """The rows up to this one are kept, and wait no longer."""
    tx.rows.run('DELETE FROM import_row WHERE import = :name AND "row" <= :row', name=name, row=row)


def drop(tx: WritingBook, name: str, most: int) -> int:
    """Throw away some rows of an import that never began; returns how many are left."""
    tx.rows.run(
        'DELETE FROM import_row WHERE import = :name AND "row" IN '
        '(SELECT "row" FROM import_row WHERE import = :name ORDER BY "row" LIMIT :most)',
        name=name, most=most,
    )  # fmt: skip
    return count(tx, name)
