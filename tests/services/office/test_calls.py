"""Somebody calls: kept with a number to call back, moved, tried, and ended with an outcome."""

from dataclasses import replace

import pytest

from jobbook.core.desk.calls import Call
from jobbook.core.errors import NotFound, Refused
from jobbook.core.record.journal import Draft
from jobbook.services.house.verifying import audit_book
from jobbook.services.office import calls

CALL = Call(
    0, "Ansel Harrow", "Quillhaven 0147", "Front left is down in the morning.", "KX-07-ALD", "Varnholt estate",
    "Stop: level too low", ("FL",), "two weeks", "cold", "standing", "insurer", "a line was joined last year",
    "no", "2026-11-26 17:00", True,
)  # fmt: skip


@pytest.fixture
def there(at):
    return at("taken in")


@pytest.fixture
def number(there):
    return calls.take_call(there.book, there.jonas, CALL)


def open_calls(there):
    with there.book.store.read() as reading:
        return reading.calls.open(limit=100)


def test_a_call_says_everything_that_was_asked(there, number):
    kept = calls.get_call(there.book, number)
    expected = replace(CALL, number=number, entry=number, expected="2026-11-26T17:00", taken_by=there.jonas.id)
    assert replace(kept, taken_at="") == expected
    assert open_calls(there) == [kept]


def test_what_was_said_is_sealed_and_can_be_forgotten(there, number):
    with there.book.store.write(there.imke.id) as tx:
        (entry,) = tx.journal.entries(kind="call/1")
        assert "Harrow" not in entry.body
        assert "0147" not in entry.body
        gone = [entry.payload[name] for name in ("caller", "phone", "words", "warning", "elsewhere")]
        tx.keep(Draft("erased/1", "call", {"commitments": gone, "reason": "asked for"}, reason="asked for"))
    kept = calls.get_call(there.book, number)
    assert (kept.caller, kept.phone, kept.words, kept.warning, kept.elsewhere) == (None,) * 5
    assert kept.plate == "KX-07-ALD"


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"caller": " "}, "needs who called"),
        ({"words": ""}, "needs who called"),
        ({"phone": ""}, "needs a number to call back"),
        ({"expected": "soon"}, "no day or time"),
        ({"temperature": "warm"}, "none of the answers"),
    ],
)
def test_what_is_missing_is_refused_and_nothing_is_kept(there, change, sentence):
    with pytest.raises(Refused, match=sentence):
        calls.take_call(there.book, there.jonas, replace(CALL, **change))
    assert open_calls(there) == []


def test_another_appointment_needs_its_reason_and_the_first_stays_readable(there, number):
    for expected, reason in (("2026-11-28", " "), ("", "ill"), ("soon", "ill")):
        with pytest.raises(Refused):
            calls.move_call(there.book, there.jonas, number, expected, reason)
    calls.move_call(there.book, there.jonas, number, "2026-11-28", "Asked for Saturday.")
    calls.move_call(there.book, there.jonas, number, "2026-11-30 08:00", "No ramp on Saturday.")
    assert calls.get_call(there.book, number).expected == "2026-11-30T08:00"
    with there.book.store.read() as reading:
        entries = reading.journal.entries(kind="call/1")
    assert [entry.payload["expected"] for entry in entries] == ["2026-11-26T17:00", "2026-11-28", "2026-11-30T08:00"]
    assert entries[-1].facts["reason"] == "No ramp on Saturday."


def test_attempts_are_dated_and_one_that_ended_is_ended_once(there, number):
    calls.keep_tried(there.book, there.jonas, f"call/{number}", "by telephone", "no answer")
    calls.keep_tried(there.book, there.jonas, f"call/{number}", "by message", "message left", "asked to call back")
    tried = calls.attempts(there.book, f"call/{number}")
    assert [(one.how, one.outcome, one.note) for one in tried] == [
        ("by telephone", "no answer", ""),
        ("by message", "message left", "asked to call back"),
    ]
    assert tried[0].by == there.jonas.id
    with pytest.raises(Refused, match="how it was tried"):
        calls.keep_tried(there.book, there.jonas, f"call/{number}", "by pigeon", "reached")
    calls.close_call(there.book, there.jonas, number, "did not come", "Phone is off.")
    assert open_calls(there) == []
    assert calls.get_call(there.book, number).outcome == "did not come"
    for again in (
        lambda: calls.close_call(there.book, there.jonas, number, "went elsewhere"),
        lambda: calls.move_call(there.book, there.jonas, number, "2026-12-01", "after all"),
    ):
        with pytest.raises(Refused, match="ended already"):
            again()


def test_only_a_vehicle_that_came_names_a_job(there, number):
    for outcome, job in (("arrived", 0), ("did not come", there.job), ("lost", 0)):
        with pytest.raises(Refused, match="say what came of the call"):
            calls.close_call(there.book, there.jonas, number, outcome, job=job)
    calls.close_call(there.book, there.jonas, number, "arrived", job=there.job)
    assert calls.get_call(there.book, number).job == there.job


def test_only_the_desk_takes_calls_and_a_call_must_be_there(there):
    with pytest.raises(Refused, match="no permission"):
        calls.take_call(there.book, there.bram, CALL)
    with pytest.raises(NotFound):
        calls.get_call(there.book, 9999)


def test_the_form_gives_back_what_it_was_given(there, number):
    kept = calls.get_call(there.book, number)
    again = calls.call_of(calls.answers_of(kept), number)
    assert replace(again, expected=kept.expected) == replace(kept, taken_at="", taken_by="", entry=0)
    assert again.expected == "2026-11-26 17:00"


def test_calls_that_are_expected_first_stand_first_and_a_book_with_them_is_sound(there):
    for expected in ("", "2026-11-28", "2026-11-26 09:00"):
        calls.take_call(there.book, there.jonas, replace(CALL, expected=expected))
    assert [call.expected for call in open_calls(there)] == ["2026-11-26T09:00", "2026-11-28", ""]
    there.book.close()
    assert audit_book(str(there.book.folder)).findings == ()
    there.open_again()
