"""Facts are views over the journal; the same text runs on SQLite and PostgreSQL.

Replaced and undone entries are left out here, and remain in the journal. A changed view needs no migration, since views
hold nothing and are made anew whenever a book is brought up to date; it needs a new minor version in `schema.VERSION`,
so that books are.
"""

COUNTED = """
    FROM journal j
    WHERE {kinds}
      AND NOT EXISTS (SELECT 1 FROM journal r WHERE r.replaces = j.number)
      AND NOT EXISTS (SELECT 1 FROM journal u
                      WHERE u.kind = 'undone/1' AND u.body -> 'payload' ->> 'act' = j.body ->> 'act')
"""

ALWAYS = "j.number AS entry, j.kind AS kind, j.job AS job, j.done_at AS at, j.body ->> 'done_by' AS by"

# view: (kinds, plain columns of the payload)
FACTS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "permissions": (
        ("permission/1",),
        (
            *("scope", "who", "how", "at", "reached_at", "what", "added", "total", "currency", "authority", "wording"),
            *("valid_until", "may", "acts_for", "reassembly", "parts_back", "parts_kept", "tolerance", "profile"),
            *("moved_from", "finding"),
        ),
    ),
    "asked": (("asked/1",), ("what",)),
    "permission_changes": (("permission-changed/1",), ("of", "what", "how", "at", "total", "valid_until")),
    "contacts": (("contact/1",), ("how", "at", "outcome", "about")),
    "declined": (("declined/1",), ("subject", "what", "consequence", "how", "at", "finding", "bars")),
    "estimate_lines": (
        ("line/1",),
        (
            *("line", "words", "part", "condition", "quantity", "price", "currency", "tax", "payer", "state"),
            "finding",
        ),
    ),
    "tests": (("test/1",), ("name", "answer", "result", "reason")),
    "findings": (("finding/1",), ("words", "severity", "corner", "needs")),
    "fault_codes": (
        ("fault-code/1",),
        ("module", "code", "text", "status", "when", "odometer", "cleared"),
    ),
    "files": (("file/1",), ("digest", "what", "media")),
    "odometers": (("odometer/1",), ("unit", "what", "note", "reset", "old_end", "old_unit", "new_start")),
    "odometers_unread": (("odometer-unknown/1",), ("what", "why")),
    "modifications": (("modification/1",), ("what", "where", "effect", "found_on", "changed_by", "gone_on")),
    "acts": (("act/1",), ()),
    "methods_begun": (("begun/1",), ("method", "corner", "key")),
    "sign_offs": (("sign-off/1",), ("joint", "meaning")),
    "movements": (("issued/1", "piece-state/1"), ("serves", "title", "piece", "state", "serial", "batch")),
    "papers": (("paper/1",), ("kind", "version", "digest", "root", "key", "signature")),
    "tries": (("tried/1",), ("whom", "how", "outcome", "note")),
    "notes": (("note/1",), ("text",)),
}

# Names that are words of SQL, or stand for something of the entry already, get another one.
OTHER_NAMES = {"at": "given_at", "when": "of_time", "where": "place", "kind": "paper_kind", "text": "words"}

OF_VEHICLE = ", CAST(j.body -> 'payload' ->> 'vehicle' AS {int}) AS vehicle"

EXTRA: dict[str, str] = {
    "estimate_lines": ", j.body -> 'payload' ->> 'kind' AS line_kind",
    "odometers_unread": OF_VEHICLE,
    "modifications": OF_VEHICLE,
    "odometers": """, CAST(j.body -> 'payload' ->> 'vehicle' AS {int}) AS vehicle,
        CAST(j.body -> 'payload' ->> 'value' AS {int}) AS value""",
    "acts": ", j.body ->> 'act' AS act, j.body -> 'payload' -> 'act' AS plain",
    "sign_offs": ", j.body -> 'payload' -> 'acts' AS acts",
}

READINGS = """CREATE VIEW readings AS
    SELECT entry, kind, job, at, by, plain ->> 'what' AS what, plain -> 'readings' AS readings, plain ->> 'how' AS how
    FROM acts WHERE plain ->> 'do' = 'measure'"""


def views(int_word: str) -> dict[str, str]:
    """Every view with its text; `int_word` is the database's word for a whole number."""
    texts = {name: _view(name, *FACTS[name]).format(int=int_word) for name in FACTS}
    return texts | {"readings": READINGS}


def _view(name: str, kinds: tuple[str, ...], columns: tuple[str, ...]) -> str:
    which = " OR ".join(f"j.kind = '{kind}'" for kind in kinds)
    parts = [f"j.body -> 'payload' ->> '{column}' AS {OTHER_NAMES.get(column, column)}" for column in columns]
    listed = ", ".join([ALWAYS, *parts]) + EXTRA.get(name, "")
    return f"CREATE VIEW {name} AS SELECT {listed}" + COUNTED.replace("{kinds}", f"({which})")
