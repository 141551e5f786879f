"""Kit and parts: issued, short, returned, swapped, wrong, the customer's own."""

import pytest

from jobbook.core.errors import Refused
from jobbook.services import work
from jobbook.services.job import stores
from jobbook.services.job.release import release
from tests.services.workshop import STRUT

NUTS, STRUT_FL = "strut_top_nuts@FL", "strut@FL"


@pytest.fixture
def there(at):
    return at("begun")


def issue(there, serves, count, **facts):
    stores.issue(there.book, there.bram, there.job, serves, count, **facts)


def need(there, serves):
    return next(one for one in stores.needed(there.book, there.job) if one.serves == serves)


def states(there, serves):
    return [piece.state for piece in stores.pieces(there.book, there.job) if piece.serves == serves]


def kit_but_for(there, *names):
    for one in stores.needed(there.book, there.job):
        if one.serves not in names:
            issue(there, one.serves, one.needed, **(STRUT if one.kind == "part" else {}))


def test_what_the_method_needs_stands_beside_what_is_issued_and_fitted(there):
    wanted = {one.serves: (one.kind, one.needed) for one in stores.needed(there.book, there.job)}
    assert wanted == {
        "strut_lower_bolt@FL": ("piece", 1),
        "strut_top_nuts@FL": ("piece", 3),
        "link_nut@FL": ("piece", 1),
        "sensor_link_nut@FL": ("piece", 1),
        "strut_line@FL": ("seal", 1),
        "strut@FL": ("part", 1),
    }
    issue(there, NUTS, 3)
    assert (need(there, NUTS).issued, need(there, NUTS).fitted, need(there, NUTS).short) == (3, 0, 0)


def test_a_kit_short_by_two_nuts_bars_the_joint_until_the_shelf_fills_the_gap(there):
    """Nasty case 20 of the trade notes: the single-use rule is not relaxed."""
    kit_but_for(there, NUTS)
    issue(there, NUTS, 1)
    assert need(there, NUTS).short == 2
    there.play(("start", "strut_top_nuts"))
    started = there.do()
    assert "single-use-again" in there.rules_against("tighten", NUTS)
    (waiting,) = [one for one in there.sheet().unsigned if one.entry == started.entry]
    work.undo(there.book, there.bram, there.job, waiting.act_id)
    issue(there, NUTS, 2, batch="shelf")
    there.do(step=there.step_of("start", "strut_top_nuts"))
    there.play(("second_check", "strut_top_nuts"))
    assert states(there, NUTS) == ["fitted", "fitted"]
    assert (need(there, NUTS).fitted, need(there, NUTS).short) == (3, 0)


def test_a_part_that_comes_back_unused_is_needed_again(there):
    """Nasty case 21 of the trade notes."""
    issue(there, STRUT_FL, 1, **STRUT)
    (piece,) = stores.pieces(there.book, there.job)
    stores.return_piece(there.book, there.bram, piece, "returned unused", "ordered twice")
    assert states(there, STRUT_FL) == ["returned unused"]
    assert need(there, STRUT_FL).short == 1
    with pytest.raises(Refused, match="it is returned unused, not waiting to be fitted"):
        stores.return_piece(there.book, there.bram, piece, "wrong", "again")


def test_a_piece_comes_back_with_its_reason_and_as_something(there):
    issue(there, STRUT_FL, 1, **STRUT)
    (piece,) = stores.pieces(there.book, there.job)
    for state, reason in (("lost", "somewhere"), ("wrong", " ")):
        with pytest.raises(Refused, match="stays issued: say what becomes of it, and why"):
            stores.return_piece(there.book, there.bram, piece, state, reason)


def test_a_part_found_wrong_after_strip_down_is_not_put_on_and_another_is(at):
    """Nasty case 16 of the trade notes."""
    there = at("put on")
    (wrong,) = [piece for piece in stores.pieces(there.book, there.job) if piece.kind == "part"]
    stores.return_piece(there.book, there.bram, wrong, "wrong", "other damper plug; carton kept")
    with pytest.raises(Refused, match="No Air strut FL is issued to this job"):
        there.do()
    issue(there, STRUT_FL, 1, number="AS-4472-L", serial="7H-30000")
    there.do(serial="7h-30000")
    assert states(there, STRUT_FL) == ["wrong", "fitted"]


def test_the_strut_of_the_other_corner_is_refused_with_a_sentence(at):
    """Nasty case 17 of the trade notes."""
    there = at("put on")
    work.begin_method(there.book, there.bram, there.job, "front-air-strut-renew-one-corner", "FR", {
        "link_on_strut": True, "keeps_pressure": False, "battery_off": False})  # fmt: skip
    issue(there, "strut@FR", 1, number="AS-4471-R", serial="7H-21904")
    with pytest.raises(Refused, match="7H-21904 was issued for Air strut FR, and this is Air strut FL"):
        there.do(serial="7H-21904")
    with pytest.raises(Refused, match="9X-1 was not issued to this job for Air strut FL"):
        there.do(serial="9X-1")
    assert states(there, STRUT_FL) == ["issued"]


def test_the_piece_whose_serial_was_read_is_the_one_that_is_fitted(at):
    there = at("put on")
    issue(there, STRUT_FL, 1, number="AS-4471-L", serial="7H-99999")
    there.do(serial="7H-99999")
    assert states(there, STRUT_FL) == ["issued", "fitted"]


def test_a_customers_own_part_is_fitted_with_its_serial_and_said_to_be_his(there):
    """Nasty case 22 of the trade notes."""
    issue(there, STRUT_FL, 1, number="brought along", serial="C-1", condition="customer-supplied")
    (piece,) = stores.pieces(there.book, there.job)
    assert (piece.condition, piece.serial, piece.issued_by) == ("customer-supplied", "C-1", "bf")


@pytest.mark.parametrize(
    ("serves", "count", "facts", "said"),
    [
        (NUTS, 0, {}, "3 are a set, and 1 to 30 can be issued at once"),
        (NUTS, 31, {}, "3 are a set"),
        (NUTS, 3, {"condition": "shiny"}, "in what condition"),
        ("wheel@FL", 1, {}, "no method begun on this job needs that"),
        (STRUT_FL, 1, {"number": " "}, "its number is needed"),
    ],
)
def test_what_cannot_be_issued_is_refused(there, serves, count, facts, said):
    with pytest.raises(Refused, match=said):
        issue(there, serves, count, **facts)
    assert stores.pieces(there.book, there.job) == ()


def test_each_set_of_one_issue_goes_its_own_way(there):
    issue(there, NUTS, 2)
    issue(there, NUTS, 8)
    assert [piece.count for piece in stores.pieces(there.book, there.job)] == [2, 1, 3, 3, 1]


def test_a_retry_issues_nothing_twice(there):
    issue(there, NUTS, 7, attempt="one press")
    issue(there, NUTS, 7, attempt="one press")
    assert need(there, NUTS).issued == 7


def test_a_job_that_was_released_takes_no_more_parts(at):
    there = at("done")
    release(there.book, there.imke, there.job, "128 417", "km")
    with pytest.raises(Refused, match="job 1 was released on 2026-11-25"):
        issue(there, NUTS, 3)
