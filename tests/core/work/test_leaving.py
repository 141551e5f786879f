"""What goes with a vehicle when it leaves: the visit at which its wheel bolts are tightened once more."""

import pytest

from jobbook.core.work.leaving import wheels_were_out
from jobbook.core.work.model import Act
from tests.core.work.building import LIFT, OFF, PLAIN, TOUCHING, WHEEL, begun, check, done, tighten, work

OUT = (OFF, LIFT, done("take_out", "wheel@FL"), done("start", "wheel@FL"), TOUCHING, tighten("wheel@FL"))


@pytest.mark.parametrize(
    ("acts", "were_out"),
    [
        ((), False),
        ((tighten("wheel@FL"), check("wheel@FL")), False),
        ((done("loosen", "wheel@FL"),), True),
        (OUT, True),
        ((*OUT, check("wheel@FL")), True),
        ((OFF, LIFT, done("loosen", "plain@FL")), False),
    ],
    ids=["nothing done", "re-torque visit", "loosened", "out and tightened", "out and checked", "another joint"],
)
def test_wheels_count_as_out_when_their_bolts_were_undone_and_not_when_they_were_only_tightened_again(
    acts: tuple[Act, ...], were_out: bool
) -> None:
    assert wheels_were_out(work(begun(WHEEL, PLAIN), *acts)) is were_out
