"""Facts are views over the journal, the same on both databases: what was replaced or undone is left out."""

import json

import pytest

from jobbook.core.jobs import FaultCode, Permission, Test
from jobbook.core.record.journal import as_it_stands
from jobbook.db.views import views
from tests.db.building import PERSON, fact, one_job, sign_off, whole_job


def test_every_view_answers_and_is_empty_before_the_first_fact(either):
    one_job(either)
    with either.read() as reading:
        found = {name: len(reading.rows.all(f"SELECT * FROM {name}")) for name in views("INTEGER")}
    assert found == dict.fromkeys(views("INTEGER"), 0)


def test_a_corrected_odometer_reading_is_read_as_corrected(either):
    number = one_job(either)
    facts = {"vehicle": 1, "value": 123_456, "unit": "km", "what": "in", "note": ""}
    with either.write(PERSON) as tx:
        wrong = fact(tx, "odometer/1", number, facts)
        fact(tx, "odometer/1", number, facts | {"value": 132_456}, replaces=wrong.number, reason="swapped")
        fact(tx, "odometer/1", number, facts | {"value": 132_470, "what": "out"})
    with either.read() as reading:
        assert [(o.value, o.what) for o in reading.vehicles.odometers(1)] == [(132_470, "out"), (132_456, "in")]
        assert reading.vehicles.odometers(2) == []
        assert reading.journal.get(wrong.number).payload["value"] == 123_456


def test_sign_offs_leave_out_what_was_replaced_and_undone(either):
    number = one_job(either)
    with either.write(PERSON) as tx:
        first = sign_off(tx, number, act="s1")
        second = sign_off(tx, number, replaces=first.number, reason="the other bolt")
        sign_off(tx, number, act="slip")
        fact(tx, "undone/1", number, {"act": "slip"})
    with either.read() as reading:
        rows = reading.rows.all("SELECT entry, by, joint, meaning, acts FROM sign_offs WHERE job = :job", job=number)
        assert [(r["entry"], r["by"], r["joint"], r["meaning"]) for r in rows] == [
            (second.number, PERSON, "lower_bolt@FL", "did")
        ]
        assert json.loads(rows[0]["acts"]) == ["a1"]


def test_the_view_of_acts_and_the_rule_in_core_leave_out_the_same(book):
    number = whole_job(book)
    with book.read() as reading:
        seen = {row["entry"] for row in reading.rows.all("SELECT entry FROM acts")}
        counted = as_it_stands(reading.journal.entries(job=number))
    assert seen == {entry.number for entry in counted if entry.kind == "act/1"}
    assert len(seen) == 1


def test_readings_and_movements(either):
    number = one_job(either)
    reading_act = {"do": "measure", "what": "heights", "readings": [["FL", "401"]], "how": "rule"}
    with either.write(PERSON) as tx:
        fact(tx, "act/1", number, {"act": reading_act})
        fact(tx, "act/1", number, {"act": {"do": "loosen", "on": "bolt@FL"}})
        piece = fact(tx, "issued/1", number, {"serves": "strut@FL", "title": "Strut", "serial": "S1"})
        fact(tx, "piece-state/1", number, {"piece": str(piece.number), "state": "fitted", "reason": ""})
    with either.read() as reading:
        (measured,) = reading.rows.all("SELECT * FROM readings WHERE job = :job", job=number)
        moves = "SELECT kind, state, serial FROM movements WHERE job = :job ORDER BY entry"
        moves = "SELECT kind, state, serial FROM movements WHERE job = :job ORDER BY entry"
        moved = reading.rows.all(moves, job=number)
    assert (measured["what"], measured["how"]) == ("heights", "rule")
    assert json.loads(measured["readings"]) == [["FL", "401"]]
    assert [tuple(row.values()) for row in moved] == [("issued/1", None, "S1"), ("piece-state/1", "fitted", None)]


def test_permissions_tests_and_fault_codes_read_back(either):
    number = one_job(either)
    allowed = {"scope": "repair", "how": "by telephone", "at": "2026-11-25T10:00:00+01:00", "what": "strut",
               "added": "", "total": "900.00", "currency": "EUR", "authority": "", "wording": "go ahead"}  # fmt: skip
    test = {"name": "soap", "answer": "not possible", "result": "", "reason": "frost"}
    code = {"module": "air", "code": "C1", "text": "Leak", "status": "stored", "when": "before", "odometer": "1",
            "cleared": ""}  # fmt: skip
    with either.write(PERSON) as tx:
        sealed = {"who": tx.seal("Ottilie Brandvold"), "reached_at": tx.seal("0700 12 34")}
        entry = fact(tx, "permission/1", number, allowed | sealed)
        tested, shown = fact(tx, "test/1", number, test), fact(tx, "fault-code/1", number, code)
    with either.read() as reading:
        assert reading.permissions(number) == [
            Permission(**allowed, who="Ottilie Brandvold", reached_at="0700 12 34", entry=entry.number)
        ]
        assert reading.tests(number) == [Test(**test, by=PERSON, at=tested.done_at, entry=tested.number)]
        assert reading.fault_codes(number) == [FaultCode(**code, at=shown.done_at, entry=shown.number)]
        assert reading.tests(number + 1) == []


QUESTIONS = {
    "the entries of a job": ("SELECT * FROM journal WHERE job = 1 ORDER BY number", "journal_job"),
    "the entry of an act": ("SELECT * FROM journal WHERE body ->> 'act' = 'a'", "journal_act"),
    "the facts of a job": ("SELECT * FROM sign_offs WHERE job = 1", "journal_job"),
    "whether it was undone": ("SELECT * FROM sign_offs WHERE job = 1", "journal_undone"),
    "whether it was replaced": ("SELECT * FROM sign_offs WHERE job = 1", "replaces"),
    "the odometer of a vehicle": (
        "SELECT * FROM odometers WHERE kind = 'odometer/1' AND vehicle = 1",
        "journal_odometer",
    ),
    "the method with a digest": (
        "SELECT body FROM journal WHERE kind = 'method/1' AND body -> 'payload' ->> 'digest' = 'a'",
        "journal_method",
    ),
    "the paper with a digest": ("SELECT * FROM papers WHERE kind = 'paper/1' AND digest = 'a'", "journal_paper"),
    "fault codes alike": (
        "SELECT * FROM fault_codes WHERE kind = 'fault-code/1' AND code = 'C1'",
        "journal_fault_code",
    ),
    "what a person signed": ("SELECT * FROM sign_offs WHERE kind = 'sign-off/1' AND by = 'bf'", "journal_sign_off"),
}


@pytest.mark.parametrize("question", QUESTIONS)
def test_no_question_that_is_asked_reads_the_whole_journal(question, book):
    sql, index = QUESTIONS[question]
    one_job(book)
    with book.read() as reading:
        plan = [row["detail"] for row in reading.rows.all(f"EXPLAIN QUERY PLAN {sql}")]
    named = "sqlite_autoindex_journal_1" if index == "replaces" else index
    assert any(named in line for line in plan), plan
    assert not any(line.startswith("SCAN") for line in plan), plan
