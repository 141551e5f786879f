"""Two programs on one book: nothing is lost, nothing is doubled."""

import threading

import pytest

from jobbook.core.errors import Refused
from jobbook.services import work
from jobbook.services.office import desk
from jobbook.services.sheet.jobsheet import job_sheet
from tests.services.workshop import OPTIONS, usual


def acts(book, job):
    with book.store.read() as reading:
        return [entry.payload["act"] for entry in reading.journal.entries(job=job, kind="act/1")]


def test_two_technicians_at_once_lose_nothing(at):
    """Nasty case 28 of the trade notes: left and right corner at once, each in a program of their own."""
    there = at("kitted")
    other = there.another()
    work.begin_method(other, there.nadia, there.job, "front-air-strut-renew-one-corner", "FR", OPTIONS)
    before = len(acts(there.book, there.job))
    failures: list[BaseException] = []

    def keep_notes(book, who, words):
        try:
            for number in range(10):
                choice = job_sheet(book, there.job, (0 if who is there.bram else 1, 1)).card.choices[0]
                work.keep(book, who, there.job, choice, usual(choice) | {"text": f"{words} {number}"})
        except BaseException as error:
            failures.append(error)

    pairs = ((there.book, there.bram, "left"), (other, there.nadia, "right"))
    threads = [threading.Thread(target=keep_notes, args=pair) for pair in pairs]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failures == []
    kept = [act["text"] for act in acts(other, there.job)[before:]]
    assert sorted(kept) == sorted(f"{words} {number}" for words in ("left", "right") for number in range(10))


def test_what_the_other_program_did_meanwhile_is_judged_inside_the_write(at):
    there = at("put on")
    other = there.another()
    choice = there.choice()
    work.keep(other, there.nadia, there.job, choice, usual(choice))
    with pytest.raises(Refused):
        work.keep(there.book, there.bram, there.job, choice, usual(choice))
    assert len([act for act in acts(other, there.job) if act["do"] == "put_on"]) == 1


def test_a_retry_doubles_nothing(at):
    there = at("begun")
    choice = there.choice()
    first = work.keep(there.book, there.bram, there.job, choice, usual(choice), attempt="one press")
    again = work.keep(there.book, there.bram, there.job, choice, usual(choice), attempt="one press")
    assert (again.entry, again.words) == (first.entry, "Kept already")
    assert len(there.sheet().unsigned) == 1


def test_the_other_program_hears_what_changed(at):
    there = at("taken in")
    other, heard = there.another(), []
    other.on_change(heard.append)
    other.poll()
    desk.add_test(there.book, there.bram, there.job, "Soap", "done", "dry")
    other.poll()
    assert heard == [{"test/1"}]
