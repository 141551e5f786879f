"""The desk: what stands around a job before and after the work."""

from alembic import op

from jobbook.db.migrations.versions.v0001_first_book import WORDS

revision = "0002"
down_revision = "0001"

STANDING: tuple[str, ...] = (
    """CREATE TABLE fitted (
        piece TEXT NOT NULL PRIMARY KEY, job {int} NOT NULL REFERENCES job (number), function TEXT NOT NULL,
        place TEXT NOT NULL, title TEXT NOT NULL, number TEXT NOT NULL, supplier TEXT NOT NULL, serial TEXT NOT NULL,
        batch TEXT NOT NULL, condition TEXT NOT NULL, fitted_at TEXT NOT NULL, off_at TEXT NOT NULL, off_job {int},
        off_by TEXT NOT NULL, reason TEXT NOT NULL, said_off {int} NOT NULL, entry {entry}) {strict}""",
    """CREATE TABLE odometer (
        entry {int} NOT NULL PRIMARY KEY REFERENCES journal (number), vehicle {int} NOT NULL, job {int},
        at TEXT NOT NULL, value {int} NOT NULL, unit TEXT NOT NULL, what TEXT NOT NULL) {strict}""",
)

INDEXES: tuple[str, ...] = (
    "CREATE INDEX fitted_job ON fitted (job)",
    "CREATE INDEX fitted_entry ON fitted (entry)",
    "CREATE INDEX fitted_off_by ON fitted (off_by)",
    "CREATE INDEX fitted_sort ON fitted (function, number, supplier)",
    "CREATE INDEX odometer_vehicle ON odometer (vehicle, entry)",
    """CREATE INDEX journal_joiner ON journal ((CAST(body -> 'payload' ->> 'vehicle' AS {int})))
        WHERE kind = 'line-joiner/1'""",
    """CREATE INDEX journal_heights ON journal (job)
        WHERE kind = 'act/1' AND body -> 'payload' -> 'act' ->> 'what' = 'heights'""",
    """CREATE INDEX journal_declined ON journal (job)
        WHERE kind = 'act/1' AND (body -> 'payload' -> 'act' ->> 'answer' = 'declined'
        OR body -> 'payload' -> 'act' ->> 'do' = 'declined')""",
)


def upgrade() -> None:
    """Make what is new; rows that earlier entries would have written are written by a rebuild."""
    words = WORDS[op.get_bind().dialect.name]
    words = words | {"entry": f"{words['int']} NOT NULL REFERENCES journal (number)"}
    for statement in (*STANDING, *INDEXES):
        op.get_bind().exec_driver_sql(statement.format(**words))
