"""The desk: what stands around a job before and after the work."""

from alembic import op

from jobbook.db.migrations.versions.v0001_first_book import WORDS

revision = "0002"
down_revision = "0001"

STANDING: tuple[str, ...] = ()

INDEXES: tuple[str, ...] = ()


def upgrade() -> None:
    """Make what is new; rows that earlier entries would have written are written by a rebuild."""
    words = WORDS[op.get_bind().dialect.name]
    words = words | {"entry": f"{words['int']} NOT NULL REFERENCES journal (number)"}
    for statement in (*STANDING, *INDEXES):
        op.get_bind().exec_driver_sql(statement.format(**words))
