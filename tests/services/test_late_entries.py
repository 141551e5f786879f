"""What comes after: a job that was released, and joints that no method names."""

from dataclasses import replace

import pytest

from jobbook.core.errors import Refused
from jobbook.core.work.model import Act, Joint
from jobbook.services import work
from jobbook.services.job.release import release
from jobbook.services.sheet.sheets import Choice
from tests.services.workshop import METHOD, OPTIONS, usual


def released(at):
    there = at("done")
    release(there.book, there.imke, there.job, "128 417", "km")
    return there


@pytest.mark.parametrize("deed", ["keep", "begin", "undo", "allow", "add"])
def test_a_released_job_takes_nothing_more(at, deed):
    there = released(at)
    book, bram, job = there.book, there.bram, there.job
    act = there.journal("act/1")[-1].act
    drive = there.blocked(step=there.step_of("drive", ""))
    deeds = {
        "keep": lambda: work.keep(book, bram, job, drive, usual(drive)),
        "begin": lambda: work.begin_method(book, bram, job, METHOD, "FR", OPTIONS),
        "undo": lambda: work.undo(book, bram, job, act),
        "allow": lambda: work.allow(book, there.imke, job, "half-built", "to push it"),
        "add": lambda: work.add_thing(book, bram, job, Joint("bracket@FL", "Bracket", corner="FL")),
    }
    with pytest.raises(Refused, match="job 1 was released on 2026-11-25"):
        deeds[deed]()


def test_what_was_forgotten_is_kept_after_release_and_opens_the_job_again(at):
    """Nasty case 38 of the trade notes: the vehicle has gone."""
    there = released(at)
    assert there.card(there.step_of("drive", "")).choices == ()
    choice = there.blocked(step=there.step_of("drive", ""))
    work.keep_as_happened(there.book, there.bram, there.job, choice, usual(choice), "forgotten yesterday, from memory")
    assert there.sheet().stage == "in work"
    assert there.journal("act/1")[-1].payload["act"]["reason"] == "forgotten yesterday, from memory"


def test_a_joint_that_no_method_names_is_a_loose_end_like_any_other(at):
    there = at("vent")
    joint = Joint("bracket@FL", "Hose bracket bolt", safety=True, corner="FL")
    work.add_thing(there.book, there.bram, there.job, joint)
    with pytest.raises(Refused, match="in this job already under that name"):
        work.add_thing(there.book, there.bram, there.job, replace(joint, safety=False))
    loosen = Choice("main", "Loosened", "Enter", Act("loosen", on="bracket@FL"))
    work.keep(there.book, there.bram, there.job, loosen, {})
    assert "bracket@FL" in [end.on for end in there.sheet().loose_now]


def test_a_correction_after_release_opens_the_job_again_and_says_so(at):
    there = released(at)
    assert there.sheet().stage == "released"
    done = there.card(there.step_of("drive", "")).done[0]
    work.correct(there.book, there.bram, done.entry, {"distance": "17 km"}, "one digit too few")
    sheet = there.sheet()
    assert sheet.stage == "in work"
    assert sheet.cry == "Open again after its release: one digit too few"
    release(there.book, there.imke, there.job, "128 417", "km")
    assert there.sheet().stage == "released"
    assert "Open again" not in there.sheet().cry
