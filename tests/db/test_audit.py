"""What the audit says: a sentence for each thing that does not follow from the words that were kept."""

import sqlite3

import pytest
from sqlalchemy import text

from jobbook.core.record.canonical import canonical
from jobbook.core.record.journal import Draft, leaf_hash, read_pack, verify_pack
from jobbook.db.audit import audit
from tests.db.building import PERSON, new_book, one_job, sign_off, whole_job


@pytest.fixture
def whole(tmp_path):
    with new_book(tmp_path / "book") as store:
        whole_job(store)
        yield store


def tampered(store, *statements):
    """Change the file past the triggers, as somebody with a tool would; returns what the audit finds."""
    connection = sqlite3.connect(store.file)
    for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
        shape = connection.execute("SELECT sql FROM sqlite_master WHERE name = ?", (name,)).fetchone()[0]
        connection.execute(f"DROP TRIGGER {name}")
        statements = (*statements, shape)
    for statement in statements:
        connection.execute(*((statement,) if isinstance(statement, str) else statement))
    connection.commit()
    connection.close()
    return audit(store).findings


def test_a_sound_book_has_no_findings_and_says_what_was_looked_at(whole):
    seen = []
    report = audit(whole, progress=lambda done, total: seen.append((done, total)))
    assert report.sound
    with whole.read() as reading:
        assert report.head == reading.journal.head()
    assert (report.papers, report.erased) == (2, 2)
    assert report.fingerprint == whole.key.fingerprint
    assert seen == [(report.entries, report.entries)]


def test_an_empty_book_is_sound(book):
    assert audit(book).sound


def test_an_audit_that_is_stopped_is_not_complete(whole):
    report = audit(whole, stop=lambda: True)
    assert not report.complete
    assert not report.sound


def test_a_changed_word_is_found(whole):
    findings = tampered(
        whole, "UPDATE journal SET body = REPLACE(body, 'strut@FL', 'strut@FR') WHERE kind = 'issued/1'"
    )
    assert any("is not as it was kept: its text does not have its hash" in finding for finding in findings)


def test_a_changed_word_with_its_hash_made_to_fit_is_found_by_the_head_and_by_the_paper(whole):
    with whole.read() as reading:
        entry = reading.journal.entries(kind="issued/1")[0]
    body = entry.body.replace("strut@FL", "strut@FR")
    change = ("UPDATE journal SET body = ?, leaf = ? WHERE number = ?", (body, leaf_hash(body.encode()), entry.number))
    findings = tampered(whole, change)
    assert any("The head of the book does not follow" in finding for finding in findings)
    assert any("carries a head that does not follow" in finding for finding in findings)


def test_an_entry_taken_from_the_end_is_found(whole):
    findings = tampered(whole, "DELETE FROM journal WHERE number = (SELECT MAX(number) FROM journal)")
    assert any("entries were taken away, added or altered" in finding for finding in findings)


def test_an_entry_taken_from_the_middle_is_found(whole):
    findings = tampered(whole, "DELETE FROM journal WHERE kind = 'sign-off/1'")
    assert any("does not follow entry" in finding for finding in findings)


CHANGES = {
    "a column that its text does not bear out": (
        "UPDATE journal SET kind = 'note/1' WHERE kind = 'test/1'", "listed with another kind than its text"),
    "a stage that no entry brought about": ("UPDATE job SET stage = 'arrived'", "Where things stand"),
    "a plate that no entry told": ("UPDATE vehicle SET plate = 'XX 1'", "vehicle, id 1 says something else"),
    "a tool that no entry told": (
        "INSERT INTO tool VALUES ('W9', 'in use', 3)", "tool, number 'W9' has no entry behind it"),
    "a customer taken away from a list": ("DELETE FROM concern", "concern, job 1, number 1 is not there"),
    "a sealed name changed": (
        "UPDATE sealed SET value = 'Somebody' WHERE value LIKE 'Ott%'", "A sealed value is not as"),
    "a sealed name erased without an entry": (
        "UPDATE sealed SET value = NULL, salt = NULL WHERE value LIKE 'Quay%'", "no entry says why"),
    "a sealed name taken away": (
        "DELETE FROM sealed WHERE value LIKE 'Quay%'", "sealed as its address is not in the book"),
    "a PIN put in the place of another": (
        "UPDATE sealed SET value = 'my own hash' WHERE value = 'hash of another PIN'", "A sealed value is not as"),
    "a head put back": ("UPDATE head SET size = size - 1", "The head of the book does not follow"),
    "a table more": ("CREATE TABLE mine (x)", "The table mine is not as in a book that is made now"),
    "an index less": ("DROP INDEX journal_job", "The index journal_job is not as"),
    "another form": ("UPDATE schema SET minor = 99", "another form"),
    "another program's mark": ("PRAGMA application_id = 7", "does not say that it is a book"),
    "a row that names nothing": ("UPDATE vehicle SET customer = 99", "names something in customer that is not there"),
    "a block of the tree that is not due": ("INSERT INTO tree VALUES (1, 0, x'00')", "more or fewer blocks"),
}  # fmt: skip


@pytest.mark.parametrize("change", CHANGES)
def test_found_past_the_triggers(change, whole):
    statement, sentence = CHANGES[change]
    assert any(sentence in finding for finding in tampered(whole, statement))


def test_a_trigger_taken_away_is_found(whole):
    connection = sqlite3.connect(whole.file)
    connection.execute("DROP TRIGGER journal_update")
    connection.close()
    assert audit(whole).findings == ("The trigger journal_update is not as in a book that is made now.",)


def test_a_block_of_the_tree_that_was_changed_is_found(book):
    one_job(book)
    with book.write(PERSON) as tx:
        for number in range(260):
            sign_off(tx, joint=f"bolt {number}@FL")
    assert audit(book).sound
    assert "The tree's block 0 of level 1 does not follow from its entries." in tampered(
        book, "UPDATE tree SET hash = zeroblob(32)"
    )


def test_a_paper_that_is_gone_altered_or_misnamed_is_found(whole):
    papers = sorted((whole.folder / "papers").glob("*.pdf"))
    papers[0].unlink()
    papers[1].write_bytes(papers[1].read_bytes() + b"\n")
    findings = audit(whole).findings
    assert any("is not in the book's folder" in finding for finding in findings)
    assert any("is not byte for byte the one that left the shop" in finding for finding in findings)
    assert f"The paper {papers[1].name} is not what its name says." in findings


def test_a_paper_signed_by_a_stranger_is_found(tmp_path, whole):
    with new_book(tmp_path / "other", seed=9) as stranger, whole.write(PERSON) as tx:
        digest, head = tx.keep_paper(b"a paper"), tx.journal.head()
        facts = {"job": 1, "digest": digest, "size": head.size, "root": head.hex, "key": stranger.key.hex}
        facts["signature"] = stranger.key.sign(b"something else").hex()
        tx.keep(Draft("paper/1", "job/1", facts, job=1))
        tx.keep(Draft("paper/1", "job/1", {"job": 1, "digest": digest}, job=1))
    findings = audit(whole).findings
    assert [finding.split(" ", 5)[5] for finding in findings] == [
        "carries a head whose signature does not fit.",
        "was signed with another key than the book's.",
        "carries no signed head.",
    ]


def test_a_book_with_another_key_is_found(tmp_path, whole):
    with new_book(tmp_path / "other", seed=9) as stranger:
        key = (stranger.folder / "keys" / "book.pem").read_bytes()
    assert whole.key.hex == whole.key_hex
    (whole.folder / "keys" / "book.pem").write_bytes(key)
    assert any("is not this book's" in finding for finding in audit(whole).findings)
    (whole.folder / "keys" / "book.pem").unlink()
    assert any("cannot be read" in finding for finding in audit(whole).findings)


def test_an_entry_that_does_not_say_what_it_must_is_found(whole):
    with whole.read() as reading:
        tool = reading.journal.entries(kind="tool/1")[0]
    facts = {**tool.facts, "payload": {}}
    findings = tampered(whole, ("UPDATE journal SET body = ? WHERE number = ?", (canonical(facts), tool.number)))
    assert any("does not say what an entry “tool/1” has to say" in finding for finding in findings)


def test_what_is_altered_on_a_server_is_found_too(either):
    whole_job(either)
    with either._engine.begin() as connection:
        connection.execute(text("UPDATE vehicle SET plate = 'XX 1'"))
        connection.execute(text("UPDATE head SET size = size - 1"))
    findings = audit(either).findings
    assert any("vehicle, id 1 says something else" in finding for finding in findings)
    assert any("The head of the book does not follow" in finding for finding in findings)


def test_a_pack_of_a_job_is_consistent_and_holds_all_its_entries(either):
    number = whole_job(either)
    with either.read() as reading:
        pack = reading.pack(number)
        entries = reading.journal.entries(job=number)
    assert verify_pack(pack) == ()
    assert [entry.number for entry in read_pack(pack).entries] == [entry.number for entry in entries]
    assert read_pack(pack).fingerprint == either.key.fingerprint
    assert b"Ottilie" not in pack


def test_proofs_hold_over_several_blocks_of_the_tree(book):
    one_job(book)
    with book.write(PERSON) as tx:
        for number in range(600):
            sign_off(tx, joint=f"bolt {number}@FL")
    with book.read() as reading:
        assert verify_pack(reading.pack(1)) == ()
    assert audit(book).sound
