"""What stops an accident: nothing of the journal or its tree is changed, taken away or put in out of order.

Triggers stop accidents; papers stop people.
"""

KEPT = ("journal", "tree")

# INSERT OR REPLACE takes the row in its way without asking a delete trigger, so every way to be in its way is refused.
SQLITE = {
    "journal_in_order": """CREATE TRIGGER journal_in_order BEFORE INSERT ON journal
        WHEN NEW.number <> (SELECT COALESCE(MAX(number), 0) + 1 FROM journal)
          OR EXISTS (SELECT 1 FROM journal WHERE replaces = NEW.replaces)
          OR EXISTS (SELECT 1 FROM journal WHERE body ->> 'act' = NEW.body ->> 'act')
        BEGIN SELECT RAISE(ABORT, 'the journal takes the next entry and no other'); END""",
    "tree_in_order": """CREATE TRIGGER tree_in_order BEFORE INSERT ON tree
        WHEN EXISTS (SELECT 1 FROM tree WHERE level = NEW.level AND number = NEW.number)
        BEGIN SELECT RAISE(ABORT, 'the tree keeps its blocks'); END""",
    "sealed_once": """CREATE TRIGGER sealed_once BEFORE INSERT ON sealed
        WHEN EXISTS (SELECT 1 FROM sealed WHERE commitment = NEW.commitment)
        BEGIN SELECT RAISE(ABORT, 'a sealed value is kept once'); END""",
    "sealed_update": """CREATE TRIGGER sealed_update BEFORE UPDATE ON sealed
        WHEN NEW.commitment <> OLD.commitment OR NEW.value IS NOT NULL OR NEW.salt IS NOT NULL
        BEGIN SELECT RAISE(ABORT, 'a sealed value is erased or stays'); END""",
    "sealed_delete": """CREATE TRIGGER sealed_delete BEFORE DELETE ON sealed
        BEGIN SELECT RAISE(ABORT, 'the commitment of a sealed value stays'); END""",
    "head_delete": """CREATE TRIGGER head_delete BEFORE DELETE ON head
        BEGIN SELECT RAISE(ABORT, 'a book has one head'); END""",
} | {
    f"{table}_{word.lower()}": f"""CREATE TRIGGER {table}_{word.lower()} BEFORE {word} ON {table}
        BEGIN SELECT RAISE(ABORT, 'the {table} is only added to'); END"""
    for table in KEPT
    for word in ("UPDATE", "DELETE")
}

POSTGRESQL = (
    """CREATE OR REPLACE FUNCTION only_added_to() RETURNS trigger LANGUAGE plpgsql AS
        $$ BEGIN RAISE EXCEPTION 'the % is only added to', TG_TABLE_NAME; END $$""",
    """CREATE OR REPLACE FUNCTION next_entry_only() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
        IF NEW.number <> (SELECT COALESCE(MAX(number), 0) + 1 FROM journal) THEN
            RAISE EXCEPTION 'the journal takes the next entry and no other';
        END IF; RETURN NEW; END $$""",
    """CREATE OR REPLACE FUNCTION erased_or_stays() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
        IF NEW.commitment <> OLD.commitment OR NEW.value IS NOT NULL OR NEW.salt IS NOT NULL THEN
            RAISE EXCEPTION 'a sealed value is erased or stays';
        END IF; RETURN NEW; END $$""",
    """CREATE TRIGGER journal_in_order BEFORE INSERT ON journal
        FOR EACH ROW EXECUTE FUNCTION next_entry_only()""",
    """CREATE TRIGGER sealed_update BEFORE UPDATE ON sealed FOR EACH ROW EXECUTE FUNCTION erased_or_stays()""",
    *(
        f"CREATE TRIGGER {table}_{word.lower()} BEFORE {word} ON {table} FOR EACH ROW EXECUTE FUNCTION only_added_to()"
        for table, word in (
            ("journal", "UPDATE"),
            ("journal", "DELETE"),
            ("tree", "UPDATE"),
            ("tree", "DELETE"),
            ("sealed", "DELETE"),
            ("head", "DELETE"),
        )
    ),
    *(
        f"CREATE TRIGGER {table}_truncate BEFORE TRUNCATE ON {table} EXECUTE FUNCTION only_added_to()"
        for table in ("journal", "tree", "sealed", "head")
    ),
)

POSTGRESQL_NAMES = (
    ("journal", ("journal_in_order", "journal_update", "journal_delete", "journal_truncate")),
    ("tree", ("tree_update", "tree_delete", "tree_truncate")),
    ("sealed", ("sealed_update", "sealed_delete", "sealed_truncate")),
    ("head", ("head_delete", "head_truncate")),
)
