"""The presenter of the job page, on a real book and without a window."""

import subprocess
import sys
from pathlib import Path

import pytest

from jobbook.core.errors import NotFound
from jobbook.core.work.model import Act
from jobbook.services.job.methods import get_method
from jobbook.services.opened import open_book
from jobbook.services.sheet.jobsheet import job_sheet
from jobbook.ui.jobs.job_presenter import JobPresenter
from jobbook.ui.jobs.signing import SECRET, SIGNER
from tests.ui.jobs import strut_book
from tests.ui.jobs.presented import SIGNED_BY_BRAM, Seen, at_work, main
from tests.ui.jobs.strut_book import BADGE, FIGURES, METHOD, PINS, SOURCE

NOT_DONE = {"answer": "not possible", "reason": "the scan tool is away"}
TAKEN_IN = {"corner": "FL", "option link_on_strut": "yes", "option keeps_pressure": "no", "option battery_off": "no"}


def test_it_works_where_no_window_can_be():
    probe = (
        "import sys; sys.modules['PySide6'] = None; import jobbook.ui.jobs.job_presenter, jobbook.ui.jobs.tabs.of_job"
    )
    root = Path(__file__).parents[3]
    done = subprocess.run([sys.executable, "-c", probe], cwd=root, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


def test_a_job_that_is_not_in_the_book_is_not_found(there):
    with pytest.raises(NotFound):
        JobPresenter(there.setting(), Seen()).open(99)


def test_a_method_is_begun_with_its_corner_and_options(there):
    strut_book.allowed(there)
    presenter, seen = at_work(there)
    presenter.ask_to_begin()
    assert METHOD in [card.key for card in seen.methods]
    presenter.begin(get_method(METHOD), TAKEN_IN)
    assert seen.refusals == []
    assert (seen.sheet.card.step.number, seen.sheet.card.step.corner) == (1, "FL")


def test_figures_that_are_missing_are_asked_for_and_kept_with_their_source(there):
    strut_book.allowed(there)
    presenter, seen = at_work(there)
    presenter.begin(get_method(METHOD), TAKEN_IN)
    asked = [key for key, _, _ in seen.lack.figures]
    assert set(asked) == set(FIGURES)  # the holding pressure was answered with no, so it is not asked for
    presenter.enter_figures(seen.lack, {**dict.fromkeys(asked, ""), "wheel_torque": FIGURES["wheel_torque"], **SOURCE})
    assert seen.refusals == []
    assert "wheel_torque" not in [key for key, _, _ in seen.lack.figures]


def test_without_a_figure_nothing_is_kept_and_it_says_so(there):
    strut_book.allowed(there)
    presenter, seen = at_work(there)
    presenter.begin(get_method(METHOD), TAKEN_IN)
    presenter.enter_figures(seen.lack, {**{key: " " for key, _, _ in seen.lack.figures}, **SOURCE})
    assert seen.refusals == ["No figure was kept: none was typed."]


def test_after_an_act_the_next_step_opens(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.choose(main(seen), {})
    assert seen.sheet.card.step.number == 2
    assert seen.sheet.steps[0].mark == "disc"
    assert seen.words


def test_a_refusal_becomes_the_sentence_and_the_step_stays_open(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.open_step(0, 2)
    presenter.choose(main(seen), {"heights FL": "4000", "temperature": ""})
    assert "4000" in seen.refusals[0]
    assert seen.sheet.card.step.number == 2


def test_nobody_on_duty_keeps_nothing(there):
    presenter, seen = at_work(strut_book.begun(there))
    there.duty.person = None
    presenter.choose(main(seen), {})
    assert "Nobody is on duty" in seen.refusals[0]
    assert len(seen.sheet.unsigned) == len(job_sheet(there.book, there.job).unsigned)


def test_a_wrong_pin_signs_nothing_and_the_right_one_does(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.choose(main(seen), {})
    presenter.sign({SIGNER: "bf", SECRET: "9999"})
    assert "not the PIN of Bram Ferro" in seen.refusals[0]
    assert len(seen.sheet.unsigned) == 1
    presenter.sign(SIGNED_BY_BRAM)
    assert len(seen.refusals) == 1
    assert seen.sheet.unsigned == ()


def test_nobody_signs_for_another(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.choose(main(seen), {})
    presenter.sign({SIGNER: "nop", SECRET: PINS["nop"]})
    assert "nobody signs for another" in seen.refusals[0]


def test_a_badge_says_by_itself_whose_it_is(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.choose(main(seen), {})
    there.duty.person = there.people["nop"]
    presenter.choose(next(c for c in seen.sheet.card.choices if c.key == "not-done"), NOT_DONE)
    presenter.sign({SIGNER: "bf", SECRET: BADGE})
    assert seen.refusals == []
    assert [act.by for act in seen.sheet.unsigned] == ["Bram Ferro"]


def test_what_is_not_signed_is_undone_plainly(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.choose(main(seen), {})
    presenter.undo(seen.sheet.unsigned[-1].act_id)
    assert seen.sheet.steps[0].mark == "ring"


def test_a_signed_act_is_corrected_beside_what_was_and_both_can_be_read(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.open_step(0, 2)
    read = {f"heights {corner}": value for corner, value in zip(("FL", "FR", "RL", "RR"), "3456", strict=True)}
    presenter.choose(main(seen), {corner: f"39{value}" for corner, value in read.items()} | {"temperature": ""})
    presenter.sign(SIGNED_BY_BRAM)
    presenter.open_step(0, 2)
    done = seen.sheet.card.done[0]
    changed = {"heights FL": "366", "heights FR": "394", "heights RL": "395", "heights RR": "396"}
    presenter.correct(done.entry, {**changed, "temperature": "", "why": "Read upside down", **SIGNED_BY_BRAM})
    assert seen.refusals == []
    presenter.open_step(0, 2)
    corrected = seen.sheet.card.done[0]
    assert corrected.words.startswith("FL 366")
    assert corrected.corrected.startswith("FL 393")


def test_what_a_rule_refuses_is_kept_as_happened_with_its_reason(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.open_step(0, 10)  # the sensor link is taken out on the lift only, and it still stands on its wheels
    blocked = seen.sheet.card.blocked[0]
    presenter.keep_as_happened(blocked.choice, {"why": "Done in the yard before it was driven in"})
    assert seen.refusals == []
    assert next(step for step in seen.sheet.steps if step.number == 10).mark == "disc"


def test_allowing_beforehand_needs_the_permission_to_allow(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.allow("levelling-woken", {"reason": "Lift must move", SIGNER: "nop", SECRET: PINS["nop"]})
    assert "no permission" in seen.refusals[0]


def test_what_is_allowed_beforehand_with_a_reason_may_then_be_done(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.open_step(0, 7)  # onto the lift, while levelling is still active
    blocked = seen.sheet.card.blocked[0]
    assert blocked.may_allow == ("lift-with-levelling-active",)
    presenter.allow(blocked.may_allow[0], {"reason": "The menu is dead, fuse pulled", **SIGNED_BY_BRAM})
    presenter.open_step(0, 7)
    presenter.choose(main(seen), SIGNED_BY_BRAM)
    assert seen.refusals == []
    assert "on the lift" in [word.text for word in seen.sheet.state]


def test_a_wait_counts_on_after_the_book_was_closed(there, tmp_path):
    presenter, seen = at_work(strut_book.begun(there))
    wait = next(step for step in seen.sheet.steps if step.title.startswith("Wait"))
    presenter.open_step(wait.begun, wait.number)
    begin = next(choice for choice in seen.sheet.card.choices if choice.key == "wait-begun")
    presenter.choose(begin, {})
    assert seen.refusals == []
    until = job_sheet(there.book, there.job, (wait.begun, wait.number)).card.waits_until
    assert until > there.book.now()
    there.book.close()
    there.book = open_book(tmp_path / "book", clock=there.clock)
    assert job_sheet(there.book, there.job, (wait.begun, wait.number)).card.waits_until == until


def test_a_defect_of_ours_is_raised_and_the_page_can_be_used_again(there):
    presenter, seen = at_work(strut_book.begun(there))
    with pytest.raises(KeyError):
        presenter.choose(main(seen), {"colour": "blue"})
    presenter.choose(main(seen), {})
    assert seen.sheet.steps[0].mark == "disc"


def test_another_job_that_is_not_there_leaves_the_one_that_is_open(there):
    presenter, seen = at_work(strut_book.begun(there))
    with pytest.raises(NotFound):
        presenter.open(99)
    presenter.refresh()
    assert seen.sheet.number == there.job


def test_a_second_press_while_the_first_is_under_way_does_nothing(there):
    class Held:
        def __init__(self):
            self.work = []

        def keep(self, work, done, refused):
            self.work.append((work, done))

    lanes = Held()
    presenter, seen = at_work(strut_book.begun(there), lanes)
    presenter.choose(main(seen), {})
    presenter.choose(main(seen), {})
    assert len(lanes.work) == 1
    work, done = lanes.work[0]
    done(work())
    assert seen.sheet.card.step.number == 2


def test_acts_of_the_sheet_are_what_the_rules_know(there):
    _, seen = at_work(strut_book.begun(there))
    assert all(isinstance(choice.act, Act) for choice in seen.sheet.card.choices)
