"""Nasty cases of a diagnosis, by the numbers of the trade notes: 8 no air, 9 no fault found, 10 only in the frost."""

from dataclasses import replace
from datetime import timedelta

import pytest

from jobbook.core.errors import Refused
from jobbook.core.jobs import FaultCode
from jobbook.core.measured.causes import advice
from jobbook.services.job.release import release
from jobbook.services.measured import stands
from jobbook.services.measured.diagnosing import diagnosis
from jobbook.services.measured.guided import keep_guided
from jobbook.services.office import desk
from jobbook.services.office.intake import take_in
from tests.services.measured.test_stands import EVENING, FOUND, LEFT
from tests.services.workshop import ARRIVAL

NIGHT = timedelta(hours=12)
ALIKE = {"heights FL": "400", "heights FR": "402", "heights RL": "396", "heights RR": "397"}


def stood(there, **found):
    begun = stands.begin_stand(there.book, there.bram, there.job, LEFT)
    there.clock.on(NIGHT)
    stands.end_stand(there.book, there.bram, there.job, begun.entry, FOUND | found)


def verdicts(there):
    seen = diagnosis(there.book, there.job)
    return [seen.judged[one.number].verdict for one in seen.stands]


def test_case_8_a_vehicle_that_came_with_no_air_has_no_heights_and_no_stand_and_says_why(at):
    there = at("shop")
    there.job = take_in(there.book, there.jonas, replace(ARRIVAL, arrival="no air"))
    seen = diagnosis(there.book, there.job)
    assert seen.readings == ()
    assert seen.job.arrival == "no air"
    with pytest.raises(Refused, match="stands with no air, so nothing can be seen to leak"):
        stands.begin_stand(there.book, there.bram, there.job, LEFT)
    given = {"answer": "not possible", "reason": "arrived on a truck with no air"}
    keep_guided(there.book, there.bram, there.job, "stand", given)
    (test,) = diagnosis(there.book, there.job).tests
    assert (test.answer, test.result) == ("not possible", "")


def test_case_9_no_fault_found_is_closed_with_its_tests_and_figures(at):
    there = at("taken in")
    stood(there, **ALIKE)
    cause = "No fault found: all corners within 2 mm of each other over a night, no bubbles, no codes"
    said = {"cause": cause, "confidence": "not found", "correction": "No repair; heights given on paper"}
    desk.concern(there.book, there.bram, there.job, 1, **said)
    assert verdicts(there) == ["even"]
    release(there.book, there.imke, there.job, "128 412", "km", let_go_reason="nothing was taken apart")
    job = desk.get_job(there.book, there.job)
    assert (job.stage, job.concerns[0].confidence) == ("released", "not found")
    assert diagnosis(there.book, there.job).stands[0].begun.heights["FL"] == EVENING["heights FL"]  # for the next visit


def test_case_9_a_line_that_found_nothing_needs_no_broken_part_to_be_strong():
    assert advice("Nothing found at the struts FL and FR: 2 mm lost in 12 h at each, soap dry") == ""


def test_case_10_a_fault_that_shows_in_frost_alone_is_seen_in_a_series_of_stands_with_their_temperatures(at):
    there = at("taken in")
    stood(there, **ALIKE, temperature="12 °C")
    stood(there, temperature="-6 °C")
    intermittent = FaultCode("Levelling", "C1A20", "too long", "intermittent", "before", there.book.now())
    desk.add_fault_code(there.book, there.bram, there.job, intermittent)
    seen = diagnosis(there.book, there.job)
    assert [one.ended.temperature for one in seen.stands] == ["12\u202f°C", "−6\u202f°C"]
    assert verdicts(there) == ["even", "leak"]
    assert seen.codes[0].status == "intermittent"
