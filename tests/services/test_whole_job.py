"""The shipped method, played as people do it."""


def test_a_job_that_was_played_to_its_end_has_no_loose_end(at):
    sheet = at("done").sheet()
    assert sheet.loose_now == sheet.still_to_do == ()
    assert all(row.mark == "disc" for row in sheet.steps)
