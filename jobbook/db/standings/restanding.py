"""Where things stand, written anew from the entries: an older book gets the rows that its entries mean today."""

from sqlalchemy import Connection

from jobbook.core.errors import StoreUnavailable
from jobbook.db.journal import all_entries
from jobbook.db.rows import Rows
from jobbook.db.standings.rebuild import stand
from jobbook.db.standings.standing import TABLES


def stand_anew(connection: Connection) -> None:
    """Empty the tables of where things stand and let every entry stand again, in the transaction that is open.

    Raises StoreUnavailable when an entry cannot: nothing of the book was changed then."""
    rows = Rows(connection)
    for table in reversed(TABLES):
        rows.run(f"DELETE FROM {table}")
    for step in all_entries(rows):
        for entry in step:
            trouble = stand(rows, entry)
            if trouble is not None:
                raise StoreUnavailable(
                    f"The book could not be brought up to date and stays as it was. {trouble} "
                    "Run the audit of the older version."
                )
