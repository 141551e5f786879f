"""A vehicle leaves when nothing is loose, or a named person lets it go with a reason."""

from dataclasses import replace

import pytest

from jobbook.core.desk.outcomes import RETORQUE
from jobbook.core.errors import Refused
from jobbook.services import work
from jobbook.services.house import shop
from jobbook.services.job.release import release
from jobbook.services.office import desk
from jobbook.services.office.intake import take_in
from jobbook.services.vehicle.vehicles import find_by_vin, vehicle
from tests.services.workshop import ARRIVAL, SHOP, VIN


def go(there, **more):
    facts = {"odometer": "128 417", "unit": "km"} | more
    release(there.book, there.imke, there.job, facts.pop("odometer"), facts.pop("unit"), **facts)


def released(there):
    with there.book.store.read() as reading:
        return [entry.payload for entry in reading.journal.entries(job=there.job, kind="released/1")]


def reminders(there):
    with there.book.store.read() as reading:
        return reading.reminders.of_job(there.job)


def test_a_vehicle_with_nothing_loose_leaves_with_an_odometer_reading_of_its_own(at):
    there = at("done")
    go(there)
    job = desk.get_job(there.book, there.job)
    assert (job.stage, job.released_by, job.restriction) == ("released", there.imke.id, "")
    readings = vehicle(there.book, job.vehicle_id).odometers
    assert [(one.value, one.what) for one in readings] == [(128_417, "out"), (128_410, "in")]
    assert released(there) == [{"job": there.job, "restriction": "", "let_go": []}]
    assert "128\u202f417 km" in [fact.beside for fact in there.sheet().facts][1]


def test_loose_ends_hold_the_release_until_they_are_let_go_with_a_reason_that_is_kept(at):
    there = at("lower bolt")
    with pytest.raises(Refused, match=r"The vehicle was not released: .* more. Close them, or let them go"):
        go(there)
    assert desk.get_job(there.book, there.job).stage == "in work"
    go(there, let_go_reason="towed to the other workshop", restriction="not to be driven")
    (facts,) = released(there)
    assert facts["restriction"] == "not to be driven"
    assert {one["reason"] for one in facts["let_go"]} == {"towed to the other workshop"}
    assert "joint-left-loose" in {one["rule"] for one in facts["let_go"]}
    assert all(one["what"].endswith(".") for one in facts["let_go"])
    sheet = there.sheet()
    assert sheet.loose_now == sheet.still_to_do == ()


def test_one_loose_end_is_let_go_by_itself_and_the_others_still_hold(at):
    there = at("drive")
    before = {end.on for end in there.sheet().still_to_do}
    end = next(end for end in there.sheet().still_to_do if end.rule == "not-driven")
    with pytest.raises(Refused, match="Say why this is let go"):
        work.let_go(there.book, there.imke, there.job, end, " ")
    work.let_go(there.book, there.imke, there.job, end, "no plates on it")
    assert {end.on for end in there.sheet().still_to_do} == before - {"drive"}
    with pytest.raises(Refused, match="no such loose end"):
        work.let_go(there.book, there.imke, there.job, replace(end, on="nothing"), "why")


def test_what_must_not_leave_so_leaves_only_with_a_restriction(at):
    there = at("done")
    there.do("must-not-leave", step=1, text="tyre worn through to the cords")
    there.sign()
    with pytest.raises(Refused, match="not released"):
        go(there)
    with pytest.raises(Refused, match="must not leave so: repair it, or name the restriction"):
        go(there, let_go_reason="taken away on a trailer")
    go(there, let_go_reason="taken away on a trailer", restriction="not on the road")
    assert desk.get_job(there.book, there.job).restriction == "not on the road"


def test_acts_that_nobody_signed_hold_the_release_too(at):
    there = at("done")
    there.do(step=there.step_of("drive", ""))
    assert "not-signed" in there.rules()
    with pytest.raises(Refused, match="1 act is not signed yet"):
        go(there)


def test_an_odometer_that_falls_is_asked_about_and_a_note_answers(at):
    there = at("done")
    with pytest.raises(Refused, match="The vehicle was not released: 128400 km is less than 128410"):
        go(there, odometer="128 400")
    go(there, odometer="128 400", odometer_note="misread when it came")
    assert vehicle(there.book, find_by_vin(there.book, VIN).id).odometers[0].note == "misread when it came"


def test_a_vehicle_is_released_once(at):
    there = at("done")
    go(there)
    with pytest.raises(Refused, match="Job 1 was released already, 2026-11-25; nothing was changed"):
        go(there)


def test_where_wheel_joints_were_out_a_visit_is_noted(at):
    there = at("done")
    shop.change_shop(there.book, there.imke, replace(SHOP, retorque_km=50, retorque_days=7))
    go(there)
    (due,) = reminders(there)
    assert (due.what, due.due_on, due.due_at, due.outcome) == (RETORQUE, "2026-12-02", "50 km", "")


def test_a_second_release_notes_no_second_visit(at):
    there = at("done")
    go(there)
    done = there.card(there.step_of("drive", "")).done[0]
    work.correct(there.book, there.bram, done.entry, {"distance": "17 km"}, "one digit too few")
    go(there)
    assert len(released(there)) == 2
    assert len(reminders(there)) == 1


def test_where_no_wheel_was_off_no_visit_is_noted(at):
    there = at("taken in")
    go(there)
    assert reminders(there) == []


def test_a_visit_without_work_leaves_with_its_tests_alone(at):
    """Nasty case 9 of the trade notes: no fault found."""
    there = at("taken in")
    desk.add_test(there.book, there.bram, there.job, "Leak-down stand", "done", "nothing lost in 14 h")
    desk.concern(there.book, there.bram, there.job, 1, cause="no fault found", confidence="not found")
    go(there, odometer="128 410")
    assert desk.get_job(there.book, there.job).stage == "released"


def test_the_part_that_was_fitted_is_remembered_at_the_next_visit(at):
    there = at("done")
    go(there)
    there.clock.now = there.clock.now.replace(year=2027)
    known = find_by_vin(there.book, VIN)
    there.job = take_in(there.book, there.jonas, replace(ARRIVAL, vehicle=known, odometer="140 000"))
    first, second = there.sheet().cry.splitlines()
    assert first.startswith("Air strut FL, fitted 12 months ago, job 1:")
    assert first.endswith("keep the part that comes off.")
    assert second.startswith("A comeback? Released 12 months ago, 11\u202f583 km since, job 1")
    assert [fact.value for fact in there.sheet().facts][1] == "140\u202f000 km in"
    there.job = 1
    assert [fact.value for fact in there.sheet().facts][1] == "128\u202f410 km in"
    assert there.sheet().cry == ""  # nothing is to be done about a released job
