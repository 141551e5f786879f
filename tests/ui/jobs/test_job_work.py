"""The Work tab: steps, card, choices with their keys, waits, signatures, all from a job's sheet."""

from dataclasses import replace
from datetime import datetime, timedelta, timezone

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from jobbook.core.work.model import Act, LooseEnd, Refusal
from jobbook.services.sheet.sheets import Ask, BegunMethod, Blocked, Choice, Done, JobSheet, JointRow, Option
from jobbook.ui.jobs.signing import SECRET, SIGNER, Signers
from jobbook.ui.jobs.working.work import WorkTab
from jobbook.ui.jobs.working.work_joints import cells, headings
from jobbook.ui.jobs.working.work_wait import Countdown, left_in_words, time_left
from tests.ui.jobs import strut_job as job

NOW = datetime(2026, 3, 12, 10, 24, 7, tzinfo=timezone(timedelta(hours=1)))
SIGNERS = Signers((Option("bf", "Bram Ferro"), Option("nop", "Nadia Oyelaran-Pike")), "bf")
SIZE = (758, 560)


@pytest.fixture
def tab(qtbot, dressed):
    made = WorkTab(lambda: NOW)
    qtbot.addWidget(made)
    made.resize(*SIZE)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()

    def show(sheet: JobSheet) -> WorkTab:
        made.show_sheet(sheet, SIGNERS)
        made.take_focus()
        return made

    return show


def words_of(widget) -> str:
    shown = (label for label in widget.findChildren(QLabel) if label.isVisibleTo(widget))
    return "\n".join(label.text() for label in shown)


def test_the_open_step_is_a_card_with_its_caution_and_only_its_choices(tab):
    shown = tab(job.strut_sheet())
    assert [button.text() for button in shown.card.buttons] == ["Joined", "Not done", "Picture"]
    assert job.CARD.caution in words_of(shown.card)
    assert job.CARD.sources[0] in words_of(shown.card)


def test_the_card_is_in_sight_when_it_opens_and_when_it_asks(tab):
    shown = tab(job.at_step(41, job.TIGHTEN))
    area = shown.steps

    def bottom() -> int:
        return shown.card.mapTo(area.viewport(), shown.card.rect().bottomLeft()).y()

    assert 0 < bottom() < area.viewport().height()
    shown.card.choose(job.TIGHTEN)
    assert 0 < bottom() < area.viewport().height()


def test_enter_takes_the_main_choice(tab, qtbot):
    shown = tab(job.strut_sheet())
    with qtbot.waitSignal(shown.card.chosen) as chosen:
        qtbot.keyClick(shown.card.buttons[0], Qt.Key.Key_Return)
    assert chosen.args == [job.JOINED, {}]


def test_a_letter_means_its_choice_only_while_nothing_is_being_typed(tab, qtbot):
    shown = tab(job.strut_sheet())
    assert shown.card.press("n")
    form = shown.card._form
    assert form is not None
    assert not shown.card.press("P")
    qtbot.keyClicks(form.form.fields["reason"].edit, "Pipe nut missing")
    with qtbot.waitSignal(shown.card.chosen) as chosen:
        qtbot.keyClick(form.keep, Qt.Key.Key_Return)
    assert chosen.args == [job.NOT_DONE, {"reason": "Pipe nut missing"}]


def test_escape_gives_up_what_is_asked_and_the_choices_come_back(tab, qtbot):
    shown = tab(job.strut_sheet())
    shown.card.press("N")
    qtbot.keyClick(shown.card._form, Qt.Key.Key_Escape)
    assert not shown.card.is_asking()
    assert shown.card.buttons[0].isVisible()


def test_a_torque_asks_for_the_tool_first_and_says_why_one_is_unfit(tab):
    shown = tab(job.at_step(33, job.TIGHTEN))
    shown.card.choose(job.TIGHTEN)
    fields = list(shown.card._form.form.fields)
    assert fields == ["tool", SIGNER, SECRET]
    assert "70 N·m is outside its range of 2 to 10 N·m" in words_of(shown.card)
    assert shown.card._form.form.fields["tool"].text() == ""


def test_an_achieved_value_is_never_filled_in(tab):
    shown = tab(job.at_step(33, job.TIGHTEN, job.OTHER_VALUE))
    shown.card.choose(job.OTHER_VALUE)
    assert shown.card._form.form.fields["reached"].text() == ""


def test_a_signed_choice_hands_over_person_and_pin_and_a_wrong_pin_is_said_in_place(tab, qtbot):
    shown = tab(job.at_step(33, job.TIGHTEN))
    shown.card.choose(job.TIGHTEN)
    form = shown.card._form.form
    form.fields["tool"].set_text("TW-07")
    form.fields[SECRET].set_text("4711")
    with qtbot.waitSignal(shown.card.chosen) as chosen:
        form.hand_in()
    assert chosen.args[1] == {"tool": "TW-07", SIGNER: "bf", SECRET: "4711"}
    shown.refuse("That is not the PIN of Bram Ferro; nothing was signed.")
    assert "nothing was signed" in words_of(shown.card)
    assert (form.fields[SECRET].text(), form.fields["tool"].text()) == ("", "TW-07")


def test_a_second_check_asks_for_another_person(tab):
    shown = tab(job.at_step(34, job.CHECK))
    shown.card.choose(job.CHECK)
    signer = shown.card._form.form.fields[SIGNER]
    assert [option.value for option in signer.ask.options] == ["nop"]


def test_a_scanned_badge_is_the_signature_that_is_asked_for(tab, qtbot):
    shown = tab(job.at_step(34, replace(job.CHECK, asks=())))
    assert not shown.scanned("BADGE-0007")
    shown.card.choose(shown.card.card.choices[0])
    with qtbot.waitSignal(shown.card.chosen) as chosen:
        assert shown.scanned("BADGE-0007")
    assert chosen.args[1][SECRET] == "BADGE-0007"


def test_a_badge_that_is_scanned_while_a_tool_is_chosen_signs(tab, qtbot):
    shown = tab(job.at_step(33, job.TIGHTEN))
    shown.card.choose(job.TIGHTEN)
    form = shown.card._form.form
    form.fields["tool"].set_text("TW-07")
    tool = form.fields["tool"].focusProxy()
    qtbot.keyClick(tool, "B")
    assert form.fields[SECRET].edit.hasFocus()
    qtbot.keyClicks(form.fields[SECRET].edit, "ADGE-0007")
    with qtbot.waitSignal(shown.card.chosen) as chosen:
        qtbot.keyClick(form.fields[SECRET].edit, Qt.Key.Key_Return)
    assert chosen.args[1][SECRET] == "BADGE-0007"


def test_what_is_refused_says_what_it_needs_and_offers_the_two_quiet_acts(tab, qtbot):
    fill = Choice("main", "Filled", "Enter", Act("fill"), main=True)
    refusal = Refusal("levelling-woken", "Levelling becomes active only on the wheels.")
    blocked = Blocked(fill, (refusal,), ("levelling-woken",))
    shown = tab(job.at_step(27, needs=(refusal.sentence,), blocked=(blocked,)))
    assert refusal.sentence in words_of(shown.card)
    shown.card._quiet.happened.emit(fill)
    shown.card._form.form.fields["why"].set_text("It woke when a door was opened.")
    with qtbot.waitSignal(shown.card.happened) as happened:
        shown.card._form.form.hand_in()
    assert happened.args == [fill, {"why": "It woke when a door was opened."}]
    shown.card.close_form()
    shown.card._quiet.allow.emit("levelling-woken")
    assert list(shown.card._form.form.fields) == ["reason", SIGNER, SECRET]


def test_a_signed_act_is_corrected_with_what_was_answered_and_a_reason(tab, qtbot):
    tool = Ask("tool", "Tool", "choice", (Option("TW-07", "TW-07"), Option("TW-09", "TW-09")), value="TW-07")
    done = Done(1190, "a", "Top mount nuts FL tightened", "Bram Ferro", "2026-03-12T10:16:00+01:00", asks=(tool,))
    shown = tab(job.at_step(23, done=(done,)))
    shown.card._done.correct.emit(1190, (tool,))
    form = shown.card._form.form
    assert form.fields["tool"].text() == "TW-07"
    form.show_answers({"tool": "TW-09", "why": "Read the wrong label", SECRET: "4711"})
    with qtbot.waitSignal(shown.card.corrected) as corrected:
        form.hand_in()
    assert corrected.args[0] == 1190
    assert corrected.args[1]["tool"] == "TW-09"


def test_up_and_down_go_past_the_card_and_enter_opens_the_step(tab, qtbot):
    shown = tab(job.strut_sheet())
    qtbot.keyClick(shown, Qt.Key.Key_Down)
    assert not shown.steps.lines[0, 25].hasFocus()  # keys reach the tab through the page
    assert shown.steps.go(1)
    assert shown.steps.lines[0, 25].hasFocus()
    assert shown.steps.go(-1)
    assert shown.steps.lines[0, 23].hasFocus()
    with qtbot.waitSignal(shown.steps.step_wanted) as wanted:
        qtbot.keyClick(shown.steps.lines[0, 23], Qt.Key.Key_Return)
    assert wanted.args == [0, 23]


def test_two_methods_stand_under_their_headings(tab):
    sheet = job.strut_sheet()
    other = tuple(replace(step, begun=1, corner="FR", mark="ring") for step in sheet.steps[:3])
    methods = (*sheet.methods, BegunMethod(1, "Air strut, renew one corner", "FR"))
    shown = tab(replace(sheet, methods=methods, steps=(*sheet.steps, *other)))
    assert [title.text()[-2:] for title in shown.steps._titles] == ["FL", "FR"]
    assert shown.steps._titles[1].y() > shown.steps.lines[0, 41].y()
    assert shown.steps._titles[1].y() < shown.steps.lines[1, 1].y()


def test_a_caution_is_whole_however_long_it_is(tab, qtbot):
    caution = "Keep hands and face away from the open fitting while air can still come. " * 5
    shown = tab(job.at_step(24, job.JOINED, caution=caution))
    label = next(label for label in shown.card.findChildren(QLabel) if label.text() == caution)
    qtbot.waitUntil(lambda: label.height() > 0)
    assert label.heightForWidth(label.width()) <= label.height()


def test_what_is_being_typed_stays_when_the_book_changes_elsewhere(tab):
    shown = tab(job.strut_sheet())
    shown.card.press("N")
    shown.card._form.form.fields["reason"].set_text("half a sen")
    shown.show_sheet(replace(job.strut_sheet(), held="Release is held by 18 loose ends"), SIGNERS)
    assert shown.card._form.form.fields["reason"].text() == "half a sen"


def test_the_strip_counts_what_is_to_sign_and_undoes_the_last(tab, qtbot):
    shown = tab(replace(job.strut_sheet(), unsigned=job.UNSIGNED))
    assert "3 acts to sign" in words_of(shown.strip)
    with qtbot.waitSignal(shown.strip.undone) as undone:
        shown.strip.undo_last()
    assert undone.args == ["a3"]
    shown.strip.ask()
    shown.strip._form.form.fields[SECRET].set_text("4711")
    with qtbot.waitSignal(shown.strip.signed) as signed:
        shown.strip._form.form.hand_in()
    assert signed.args == [{SIGNER: "bf", SECRET: "4711"}]


def test_without_unsigned_acts_there_is_no_strip_and_nothing_to_undo(tab, qtbot):
    shown = tab(job.strut_sheet())
    assert shown.strip.isHidden()
    with qtbot.assertNotEmitted(shown.strip.undone):
        shown.strip.undo_last()


def test_a_part_tightened_joint_shouts_over_the_steps(tab):
    loud = LooseEnd("joint-left-loose", "lower_bolt@FL", "Lower bolt FL: stage 1 of 2", mark="half", loud=True)
    shown = tab(replace(job.strut_sheet(), loose_now=(*job.LOOSE_NOW, loud)))
    assert shown._loud.isVisible()
    assert shown._loud.text() == "Lower bolt FL: stage 1 of 2"


def test_what_a_person_typed_is_never_read_as_markup(tab):
    step = replace(job.STEPS[20], title="<b>New</b> strut", note="<img src=x>")
    sheet = job.strut_sheet()
    shown = tab(replace(sheet, steps=(*sheet.steps[:20], step, *sheet.steps[21:])))
    assert "&lt;b&gt;New&lt;/b&gt; strut" in shown.steps.lines[0, 21]._title.text()
    assert "&lt;img src=x&gt;" in shown.steps.lines[0, 21]._title.text()


def test_joints_share_their_headings_and_a_missing_stage_is_a_dash():
    one = JointRow("Top nuts", (("By hand", "disc", "10:11"), ("Torque", "disc", "30 N·m")))
    two = JointRow("Lower bolt", (("By hand", "half", ""), ("Torque", "ring", "70 N·m"), ("Angle", "ring", "90°")))
    wanted = headings((one, two))
    assert wanted == ("By hand", "Torque", "Angle")
    assert cells(one, wanted)[2] == ("", "–")


def test_what_is_left_of_a_wait_is_rounded_up_to_whole_seconds():
    assert left_in_words(time_left(NOW + timedelta(seconds=119.2), NOW)) == "2:00"
    assert left_in_words(time_left(NOW + timedelta(hours=1, seconds=1), NOW)) == "1:00:01"
    assert not time_left(NOW - timedelta(seconds=1), NOW)


def test_a_wait_says_once_that_it_is_over(qtbot, dressed):
    moment = [NOW]
    shown = Countdown(NOW + timedelta(seconds=90), lambda: moment[0])
    qtbot.addWidget(shown)
    shown.tick()
    assert shown.figure.text() == "1:30"
    moment[0] = NOW + timedelta(seconds=90)
    with qtbot.waitSignal(shown.over):
        shown.tick()
    assert shown.figure.text() == "0:00"
    assert not shown._timer.isActive()
