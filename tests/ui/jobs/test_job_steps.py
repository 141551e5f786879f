"""What the job page decides without a window: the next step, what fits, what is left of a wait, typed times."""

from datetime import datetime, timedelta, timezone

import pytest

from jobbook.core.errors import Refused
from jobbook.core.work.model import LooseEnd
from jobbook.services.sheet.sheets import Option, StepRow
from jobbook.ui.jobs.left_fit import fitting, loudest_first
from jobbook.ui.jobs.signing import SECRET, SIGNER, Signers, answers_alone
from jobbook.ui.jobs.tabs import times
from jobbook.ui.jobs.working.job_steps import next_open

NOW = datetime(2026, 3, 12, 10, 24, 7, tzinfo=timezone(timedelta(hours=1)))


def steps(*marks: str, needs: str = "") -> list[StepRow]:
    return [StepRow(0, number, "step", "FL", mark) for number, mark in enumerate(marks, 1)]


def test_after_a_step_that_is_done_the_next_open_one_comes():
    assert next_open(steps("disc", "disc", "ring"), (0, 1)) == (0, 3)


def test_a_step_that_is_only_begun_stays_open():
    assert next_open(steps("disc", "half", "ring"), (0, 2)) == (0, 2)


def test_steps_left_behind_come_when_none_is_open_after():
    assert next_open(steps("ring", "disc", "disc"), (0, 3)) == (0, 1)


def test_a_step_that_needs_another_is_passed_over():
    rows = [*steps("disc"), StepRow(0, 2, "fill", "FL", "ring", needs="1"), StepRow(0, 3, "plug in", "FL", "ring")]
    assert next_open(rows, (0, 1)) == (0, 3)


def test_a_skipped_step_is_not_offered_again():
    rows = [*steps("disc"), StepRow(0, 2, "photo", "FL", "ring", skipped=True), StepRow(0, 3, "next", "FL", "ring")]
    assert next_open(rows, (0, 1)) == (0, 3)


def test_when_all_is_done_no_step_is_next():
    assert next_open(steps("disc", "bar"), (0, 2)) is None


@pytest.mark.parametrize(
    ("room", "shown"),
    [
        (1000, (5, 3)),  # all of both
        (160, (5, 3)),  # just all of both
        (159, (5, 1)),  # the line "and 2 more" takes the place of two
        (60, (1, 1)),
        (0, (1, 1)),  # never less than the first of each
    ],
)
def test_as_many_loose_ends_are_shown_as_fit_and_the_first_of_each_always(room, shown):
    assert fitting([20] * 5, [20] * 3, room, 20) == shown


def test_what_is_shown_with_its_more_lines_never_passes_the_room():
    for room in range(80, 400, 7):
        now, later = fitting([20, 40, 20, 20, 40], [20, 20, 60], room, 20)
        used = sum([20, 40, 20, 20, 40][:now]) + sum([20, 20, 60][:later])
        used += 20 * ((now < 5) + (later < 3))
        assert used <= room


def test_a_group_without_loose_ends_takes_no_room():
    assert fitting([], [20, 20], 40, 20) == (0, 2)


def test_what_shouts_stands_on_top_and_the_rest_keeps_its_order():
    ends = [LooseEnd("r", name, name, loud=name == "c") for name in "abc"]
    assert [end.on for end in loudest_first(ends)] == ["c", "a", "b"]


def test_an_hour_alone_is_today_in_the_shops_zone():
    assert times.read("9:05", NOW) == "2026-03-12T09:05:00+01:00"
    assert times.read(" 2026-03-11  18:00 ", NOW) == "2026-03-11T18:00:00+01:00"


def test_what_is_shown_in_the_field_reads_back():
    assert times.read(times.shown(NOW), NOW) == "2026-03-12T10:24:00+01:00"


@pytest.mark.parametrize("typed", ["", "yesterday", "fri", "25:00", "2026-02-30 10:00", "10.24"])
def test_a_text_that_is_no_time_is_refused_with_how_to_write_it(typed):
    with pytest.raises(Refused, match="14:30"):
        times.read(typed, NOW)


def test_a_time_to_come_is_refused():
    with pytest.raises(Refused, match="not come yet"):
        times.read("10:25", NOW)


PEOPLE = (Option("bf", "Bram Ferro"), Option("nop", "Nadia Oyelaran-Pike"), Option("it", "Imke Tolland"))


def test_the_person_on_duty_signs_unless_another_is_chosen():
    signer, secret = Signers(PEOPLE, "bf").asks("Signed by", "PIN")
    assert (signer.name, signer.value, signer.options) == (SIGNER, "bf", PEOPLE)
    assert (secret.name, secret.kind, secret.value) == (SECRET, "secret", "")


def test_a_second_check_offers_only_others_and_fills_in_nobody():
    signer, _ = Signers(PEOPLE, "bf").asks("Second check by", "PIN", another=True)
    assert [option.value for option in signer.options] == ["nop", "it"]
    assert signer.value == ""


def test_a_pin_never_goes_along_with_the_answers():
    assert answers_alone({"tool": "TW-07", SIGNER: "bf", SECRET: "4711"}) == {"tool": "TW-07"}
