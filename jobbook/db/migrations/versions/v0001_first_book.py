"""The first book: journal, tree, head, sealed values, and where things stand.

Where things stand is told by entries: a row carries what is searched, sorted, or changed by other entries, and names
the entry that speaks for the rest.
"""

from alembic import op

revision = "0001"
down_revision = None

TRUTH = (
    """CREATE TABLE schema (
        one {int} NOT NULL PRIMARY KEY CHECK (one = 1), major {int} NOT NULL, minor {int} NOT NULL) {strict}""",
    """CREATE TABLE head (
        one {int} NOT NULL PRIMARY KEY CHECK (one = 1), book TEXT NOT NULL, key TEXT NOT NULL,
        size {int} NOT NULL, root {bytes} NOT NULL, peaks {bytes} NOT NULL) {strict}""",
    """CREATE TABLE journal (
        number {int} NOT NULL PRIMARY KEY, kind TEXT NOT NULL, job {int}, done_at TEXT NOT NULL,
        replaces {int} UNIQUE REFERENCES journal (number), body {json} NOT NULL, leaf {bytes} NOT NULL) {strict}""",
    """CREATE TABLE tree (
        level {int} NOT NULL, number {int} NOT NULL, hash {bytes} NOT NULL, PRIMARY KEY (level, number)) {strict}""",
    "CREATE TABLE sealed (commitment TEXT NOT NULL PRIMARY KEY, salt TEXT, value TEXT) {strict}",
    "CREATE TABLE paper_content (digest TEXT NOT NULL PRIMARY KEY, content {bytes} NOT NULL) {strict}",
)

STANDING = (
    "CREATE TABLE shop (one {int} NOT NULL PRIMARY KEY CHECK (one = 1), entry {entry}) {strict}",
    """CREATE TABLE person (
        id TEXT NOT NULL PRIMARY KEY, name TEXT NOT NULL, active {int} NOT NULL, entry {entry}) {strict}""",
    """CREATE TABLE credential (
        person TEXT NOT NULL REFERENCES person (id), what TEXT NOT NULL, commitment TEXT NOT NULL, entry {entry},
        PRIMARY KEY (person, what)) {strict}""",
    """CREATE TABLE customer (
        id {int} NOT NULL PRIMARY KEY, name TEXT NOT NULL, address TEXT NOT NULL, phone TEXT NOT NULL,
        email TEXT NOT NULL, entry {entry}) {strict}""",
    """CREATE TABLE vehicle (
        id {int} NOT NULL PRIMARY KEY, vin TEXT NOT NULL, plate TEXT NOT NULL, make TEXT NOT NULL, model TEXT NOT NULL,
        customer {int} REFERENCES customer (id), entry {entry}) {strict}""",
    """CREATE TABLE job (
        number {int} NOT NULL PRIMARY KEY, stage TEXT NOT NULL, opened_at TEXT NOT NULL,
        vehicle {int} NOT NULL REFERENCES vehicle (id), customer {int} REFERENCES customer (id),
        promised TEXT NOT NULL, entry {entry}, released {int} REFERENCES journal (number)) {strict}""",
    """CREATE TABLE concern (
        job {int} NOT NULL REFERENCES job (number), number {int} NOT NULL, words TEXT NOT NULL, cause TEXT NOT NULL,
        confidence TEXT NOT NULL, correction TEXT NOT NULL, entry {entry}, PRIMARY KEY (job, number)) {strict}""",
    """CREATE TABLE begun (
        act TEXT NOT NULL PRIMARY KEY, job {int} NOT NULL REFERENCES job (number), entry {entry}) {strict}""",
    "CREATE TABLE tool (number TEXT NOT NULL PRIMARY KEY, status TEXT NOT NULL, entry {entry}) {strict}",
    """CREATE TABLE specification (
        id {int} NOT NULL PRIMARY KEY, variant TEXT NOT NULL, key TEXT NOT NULL, entry {entry},
        UNIQUE (variant, key)) {strict}""",
    """CREATE TABLE piece (
        id TEXT NOT NULL PRIMARY KEY, job {int} NOT NULL REFERENCES job (number), state TEXT NOT NULL,
        entry {entry}) {strict}""",
    """CREATE TABLE reminder (
        id {int} NOT NULL PRIMARY KEY, job {int} REFERENCES job (number), due_on TEXT NOT NULL, outcome TEXT NOT NULL,
        entry {entry}) {strict}""",
    """CREATE TABLE found (
        kind TEXT NOT NULL, token {token} NOT NULL, subject {int} NOT NULL, source TEXT NOT NULL,
        PRIMARY KEY (kind, token, subject, source)) {strict}""",
)

INDEXES = (
    "CREATE INDEX journal_job ON journal (job, number)",
    "CREATE INDEX journal_kind ON journal (kind, number)",
    "CREATE UNIQUE INDEX journal_act ON journal ((body ->> 'act'))",
    "CREATE INDEX journal_undone ON journal ((body -> 'payload' ->> 'act')) WHERE kind = 'undone/1'",
    """CREATE INDEX journal_odometer ON journal ((CAST(body -> 'payload' ->> 'vehicle' AS {int})))
        WHERE kind = 'odometer/1'""",
    "CREATE INDEX journal_method ON journal ((body -> 'payload' ->> 'digest')) WHERE kind = 'method/1'",
    "CREATE INDEX journal_paper ON journal ((body -> 'payload' ->> 'digest')) WHERE kind = 'paper/1'",
    "CREATE INDEX journal_fault_code ON journal ((body -> 'payload' ->> 'code')) WHERE kind = 'fault-code/1'",
    "CREATE INDEX journal_sign_off ON journal ((body ->> 'done_by')) WHERE kind = 'sign-off/1'",
    "CREATE INDEX vehicle_vin ON vehicle (vin)",
    "CREATE INDEX vehicle_plate ON vehicle (plate)",
    "CREATE INDEX vehicle_customer ON vehicle (customer)",
    "CREATE INDEX job_opened ON job (opened_at, number)",
    "CREATE INDEX job_stage ON job (stage, opened_at, number)",
    "CREATE INDEX job_vehicle ON job (vehicle)",
    "CREATE INDEX job_customer ON job (customer)",
    "CREATE INDEX begun_job ON begun (job)",
    "CREATE INDEX piece_job ON piece (job)",
    "CREATE INDEX reminder_due ON reminder (outcome, due_on)",
    "CREATE INDEX reminder_job ON reminder (job)",
    "CREATE INDEX found_subject ON found (kind, subject, token)",
    "CREATE INDEX found_source ON found (source)",
)

WORDS = {
    "sqlite": {"int": "INTEGER", "bytes": "BLOB", "json": "TEXT", "token": "TEXT", "strict": "STRICT"},
    "postgresql": {
        "int": "BIGINT",
        "bytes": "BYTEA",
        "json": "JSON",
        "token": 'TEXT COLLATE "C"',
        "strict": "",
    },
}


def upgrade() -> None:
    """Make the tables; the words that the two databases spell differently are filled in."""
    words = WORDS[op.get_bind().dialect.name]
    words = words | {"entry": f"{words['int']} NOT NULL REFERENCES journal (number)"}
    for statement in (*TRUTH, *STANDING, *INDEXES):
        op.get_bind().exec_driver_sql(statement.format(**words))
