"""The desk: what stands around a job before and after the work."""

from alembic import op

from jobbook.db.migrations.versions.v0001_first_book import WORDS

revision = "0002"
down_revision = "0001"

STANDING: tuple[str, ...] = (
    "CREATE TABLE file_content (digest TEXT NOT NULL PRIMARY KEY, content {bytes} NOT NULL) {strict}",
    """CREATE TABLE contact (
        customer {int} NOT NULL REFERENCES customer (id), number {int} NOT NULL, name TEXT NOT NULL,
        phone TEXT NOT NULL, role TEXT NOT NULL, may_authorise {int} NOT NULL, entry {entry},
        PRIMARY KEY (customer, number)) {strict}""",
    """CREATE TABLE plate (
        entry {int} NOT NULL PRIMARY KEY REFERENCES journal (number), vehicle {int} NOT NULL REFERENCES vehicle (id),
        plate TEXT NOT NULL, folded TEXT NOT NULL, since TEXT NOT NULL, until TEXT NOT NULL, ended {int}) {strict}""",
    """CREATE TABLE owner (
        entry {int} NOT NULL PRIMARY KEY REFERENCES journal (number), vehicle {int} NOT NULL REFERENCES vehicle (id),
        customer {int} NOT NULL REFERENCES customer (id), since TEXT NOT NULL, until TEXT NOT NULL,
        ended {int}) {strict}""",
    """CREATE TABLE merged (
        what TEXT NOT NULL, id {int} NOT NULL, kept {int} NOT NULL, entry {entry}, PRIMARY KEY (what, id)) {strict}""",
    """CREATE TABLE part (
        id {int} NOT NULL PRIMARY KEY, number TEXT NOT NULL, folded TEXT NOT NULL, title TEXT NOT NULL,
        supplier TEXT NOT NULL, entry {entry}) {strict}""",
    # Rows of an import that wait to be kept as entries: no facts yet, and gone once they are kept.
    """CREATE TABLE import_row (
        import TEXT NOT NULL, row {int} NOT NULL, facts TEXT NOT NULL, PRIMARY KEY (import, row)) {strict}""",
    """CREATE TABLE fitted (
        piece TEXT NOT NULL PRIMARY KEY, job {int} NOT NULL REFERENCES job (number), function TEXT NOT NULL,
        place TEXT NOT NULL, title TEXT NOT NULL, number TEXT NOT NULL, supplier TEXT NOT NULL, serial TEXT NOT NULL,
        batch TEXT NOT NULL, condition TEXT NOT NULL, fitted_at TEXT NOT NULL, off_at TEXT NOT NULL, off_job {int},
        off_by TEXT NOT NULL, reason TEXT NOT NULL, said_off {int} NOT NULL, entry {entry}) {strict}""",
    """CREATE TABLE odometer (
        entry {int} NOT NULL PRIMARY KEY REFERENCES journal (number), vehicle {int} NOT NULL, job {int},
        at TEXT NOT NULL, value {int} NOT NULL, unit TEXT NOT NULL, what TEXT NOT NULL, reset TEXT NOT NULL,
        old_end TEXT NOT NULL, old_unit TEXT NOT NULL, new_start TEXT NOT NULL) {strict}""",
    """CREATE TABLE call (
        id {int} NOT NULL PRIMARY KEY, expected TEXT NOT NULL, outcome TEXT NOT NULL,
        job {int} REFERENCES job (number), entry {entry}) {strict}""",
)

INDEXES: tuple[str, ...] = (
    "CREATE INDEX journal_file ON journal ((body -> 'payload' ->> 'digest')) WHERE kind = 'file/1'",
    "CREATE INDEX plate_vehicle ON plate (vehicle, entry)",
    """CREATE INDEX journal_specification ON journal ((body -> 'payload' ->> 'variant'))
        WHERE kind = 'specification/1'""",
    "CREATE INDEX journal_second_look ON journal ((body -> 'payload' ->> 'variant')) WHERE kind = 'second-look/1'",
    """CREATE INDEX journal_variant_chosen ON journal ((CAST(body -> 'payload' ->> 'vehicle' AS {int})))
        WHERE kind = 'variant-chosen/1'""",
    """CREATE INDEX journal_figure ON journal ((body -> 'payload' -> 'act' -> 'figure' ->> 'key'))
        WHERE kind = 'act/1' AND body -> 'payload' -> 'act' ->> 'do' = 'figure'""",
    "CREATE INDEX plate_folded ON plate (folded)",
    "CREATE INDEX plate_ended ON plate (ended)",
    "CREATE INDEX owner_vehicle ON owner (vehicle, entry)",
    "CREATE INDEX owner_customer ON owner (customer)",
    "CREATE INDEX merged_kept ON merged (what, kept)",
    "CREATE INDEX call_open ON call (outcome, expected, id)",
    "CREATE INDEX call_entry ON call (entry)",
    "CREATE INDEX call_job ON call (job)",
    "CREATE INDEX journal_tried ON journal ((body -> 'payload' ->> 'whom')) WHERE kind = 'tried/1'",
    """CREATE INDEX journal_vehicle ON journal ((CAST(body -> 'payload' ->> 'vehicle' AS {int})))
        WHERE kind = 'vehicle/1'""",
    """CREATE INDEX journal_customer ON journal ((CAST(body -> 'payload' ->> 'customer' AS {int})))
        WHERE kind = 'customer/1'""",
    """CREATE INDEX journal_modification ON journal ((CAST(body -> 'payload' ->> 'vehicle' AS {int})))
        WHERE kind = 'modification/1'""",
    """CREATE INDEX journal_odometer_unknown ON journal ((CAST(body -> 'payload' ->> 'vehicle' AS {int})))
        WHERE kind = 'odometer-unknown/1'""",
    "CREATE INDEX part_folded ON part (folded)",
    "CREATE INDEX fitted_job ON fitted (job)",
    "CREATE INDEX fitted_entry ON fitted (entry)",
    "CREATE INDEX fitted_off_by ON fitted (off_by)",
    "CREATE INDEX fitted_sort ON fitted (function, number, supplier)",
    "CREATE INDEX odometer_vehicle ON odometer (vehicle, entry)",
    """CREATE INDEX journal_heights ON journal (job, kind)
        WHERE kind = 'act/1' AND body -> 'payload' -> 'act' ->> 'what' = 'heights'""",
    """CREATE INDEX journal_declined ON journal (job, kind)
        WHERE kind = 'act/1' AND (body -> 'payload' -> 'act' ->> 'answer' = 'declined'
        OR body -> 'payload' -> 'act' ->> 'do' = 'declined')""",
)


def upgrade() -> None:
    """Make what is new; rows that earlier entries would have written are written by a rebuild."""
    words = WORDS[op.get_bind().dialect.name]
    words = words | {"entry": f"{words['int']} NOT NULL REFERENCES journal (number)"}
    for statement in (*STANDING, *INDEXES):
        op.get_bind().exec_driver_sql(statement.format(**words))
