"""What a camera's time says, and where marks may lie."""

import pytest

from jobbook.core.record.files import KeptFile, Mark, camera_words, look_at_marks

OPENED, ADDED = "2026-11-25T08:00:00+01:00", "2026-11-25T17:30:00+01:00"


@pytest.mark.parametrize(
    ("taken", "said"),
    [
        ("2026-11-25T09:12:03", ""),
        ("2026-11-25T07:10:00", ""),  # the morning of the day, before the job was keyed in
        ("2026-11-25T17:40:00", ""),  # ten minutes ahead
        ("2026-11-25T17:41:00", "camera time differs: it is ahead"),
        ("2026-11-25T16:45:00+00:00", "camera time differs: it is ahead"),
        ("2026-11-25T22:00:00+09:00", ""),
        ("2015-01-01T00:03:00", "camera time differs: before the job"),
        ("", "no camera time"),
    ],
)
def test_a_camera_time_that_does_not_fit_the_job_is_said(taken, said):
    assert camera_words(taken, OPENED, ADDED) == said


def test_marks_lie_within_the_picture_and_have_a_known_shape():
    assert look_at_marks((Mark("ring", 0, 0, 10_000, 10_000),))
    assert not look_at_marks((Mark("ring", 0, 0, 10_001, 10),))
    assert not look_at_marks((Mark("circle", 0, 0, 10, 10),))


def test_a_file_whose_name_was_erased_is_called_by_what_it_is():
    file = KeptFile(17, "", 1, None, "image/jpeg", "picture", ADDED, "bf")
    assert (file.called, file.is_picture) == ("picture 17", False)
