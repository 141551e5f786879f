from dataclasses import replace

import pytest

from jobbook.paperwork import handover
from jobbook.paperwork.answers import ANSWERS, Answer
from jobbook.paperwork.cautions import CAUTIONS, cautions

from . import records
from .reading import on_paper, pages


def text(**changes):
    return " ".join(" ".join(pages(handover.to_pdf(records.handover(**changes), head=records.HEAD))).split())


def test_a_declined_item_prints_with_its_consequence_and_who_declined_it():
    printed = text(answers=(records.declined(),))
    assert "declined customer wants the leaking side only The other strut is as old" in printed
    assert "Mr Harrow by telephone" in printed


@pytest.mark.parametrize("answer", ANSWERS)
def test_each_answer_prints_by_its_own_word(answer):
    printed = text(answers=(Answer("Wheel alignment of this job", answer, "as told"),))
    assert f"Wheel alignment of this job {answer} as told" in printed


def test_an_answer_that_is_none_of_the_record_s_own_is_a_key_error():
    with pytest.raises(KeyError):
        text(answers=(Answer("Alignment", "fine"),))


def test_what_the_vehicle_was_let_go_with_prints_with_reason_and_person():
    printed = text(release=records.let_go_release())
    assert "Restriction: No trailer, 80 km/h, until aligned on 30 Nov." in printed
    assert "Wheel alignment after the work alignment stand booked 30 Nov Imke Tolland 25 Nov 13:18" in printed


def test_a_release_with_nothing_let_go_has_no_such_table_and_no_restriction():
    printed = text()
    assert "Released with these still open" not in printed
    assert "Restriction" not in printed


def test_a_correction_prints_both_values():
    printed = text(corrections=(records.correction(),))
    assert "clicked at 170 clicked at 70 typed 170, the wrench was set to 70" in printed


def test_the_re_torque_visit_names_distance_and_date():
    assert "Re-torque visit after 100 km or 9 December 2026, whichever comes first." in text()


def test_a_re_torque_visit_without_its_date_says_that_it_is_not_recorded():
    assert "after 100 km or not recorded" in text(retorque=handover.Retorque("100 km"))


def test_before_the_release_the_visit_says_when_its_day_will_be_named():
    assert "Re-torque visit: its day and distance are named when" in text(retorque=handover.Retorque())


def test_without_wheel_joints_there_is_no_visit():
    assert "Re-torque visit" not in text(retorque=None)


def test_a_copy_names_the_one_it_replaces():
    issue = records.issue(version="2", replaces="copy of 25 November 2026, version 1")
    assert "version 2 · replaces copy of 25 November 2026, version 1" in text(issue=issue)


def test_odometer_in_and_out_are_two_readings():
    printed = text()
    assert "Odometer in 128 410 km" in printed.replace("\u00a0", " ")
    assert "Odometer out 128 417 km" in printed.replace("\u00a0", " ")


def test_the_condition_of_a_part_is_printed_as_it_is():
    for condition in ("new", "reconditioned", "used", "customer-supplied"):
        assert f"7H-20611 {condition} kit" in text(parts=(replace(records.part(), condition=condition),))


def test_cautions_come_in_one_order_and_an_unknown_one_is_an_error():
    assert cautions(("keep", "opened")) == (CAUTIONS["opened"], CAUTIONS["keep"])
    with pytest.raises(KeyError):
        cautions(("made up",))


def test_chosen_cautions_print_whole():
    printed = on_paper(handover.to_pdf(records.handover(cautions=cautions(tuple(CAUTIONS))), head=records.HEAD))
    assert all("".join(sentence.split()) in printed for sentence in CAUTIONS.values())


@pytest.mark.parametrize("lines", range(14, 34))
def test_however_much_stands_above_nobody_signs_an_empty_page(lines):
    record = records.handover(cautions=tuple(f"Look at corner {n}." for n in range(lines)))
    last = pages(handover.to_pdf(record, head=records.HEAD))[-1]
    assert "Warranty" in last
    assert "Received by the customer" in last
