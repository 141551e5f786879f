"""Fault codes through the services: cleared by a correction that leaves the reading readable."""

import pytest

from jobbook.core.errors import NotFound, Refused
from jobbook.core.jobs import FaultCode
from jobbook.core.measured.codes import Compared, compare
from jobbook.services.measured.codes import clear_code
from jobbook.services.office import desk


def compared(there) -> tuple[Compared, ...]:
    with there.book.store.read() as reading:
        return compare(reading.fault_codes(there.job))


def test_clearing_is_a_correction_that_keeps_who_read_the_code_and_when(at):
    there = at("taken in")
    read_at = there.book.now()
    desk.add_fault_code(there.book, there.bram, there.job, FaultCode("Air", "C1A2B", "", "stored", "before", read_at))
    (one,) = compared(there)
    clear_code(there.book, there.nadia, there.job, one.before.entry, "Nadia", "25 Nov, 16:00")
    first, second = there.journal("fault-code/1")
    assert (second.replaces, second.done_at, second.done_by) == (first.number, read_at, there.bram.id)
    assert second.facts["entered_by"] == there.nadia.id
    (one,) = compared(there)
    assert one.before.cleared == "by Nadia, 25 Nov, 16:00"
    with pytest.raises(NotFound):
        clear_code(there.book, there.nadia, there.job, first.number, "Nadia", "now")
    with pytest.raises(Refused, match="who cleared"):
        clear_code(there.book, there.nadia, there.job, second.number, "", "now")


def test_a_module_without_codes_has_nothing_to_clear(at):
    there = at("taken in")
    desk.add_fault_code(there.book, there.bram, there.job, FaultCode("Air", "", "", "", "before", there.book.now()))
    (one,) = compared(there)
    with pytest.raises(NotFound, match="no such code"):
        clear_code(there.book, there.bram, there.job, one.before.entry, "Bram", "now")
