"""An act written as plain values and read back."""

import json
from typing import Any

import pytest

from jobbook.core.errors import Unreadable
from jobbook.core.work.acts_text import act_from_plain, act_to_plain
from jobbook.core.work.model import Act, Aid, Connector, Figure, Joint, Line, Part, ToolUse

FULL = Act(
    "tighten",
    id="a1",
    on="bolt@FL",
    places=("FL", "reservoir"),
    figure=Figure("k", "torque", "50 N*m", ("50 N*m",), document="d"),
    tool=ToolUse("TW-07", unfit="out of calibration"),
    stage=2,
    readings=(("FL", "401 mm"), ("FR", "402 mm")),
    kept_after=("hand-first",),
    options={"side_tank": False},
    conditions={"air FL": "vented"},
    things=(
        Joint("bolt@FL", "Bolt", single_use=True, pieces=("nut",)),
        Line("line@FL", "Line", places=("FL",)),
        Part("strut@FL", "Strut", held_by=("bolt@FL",)),
        Connector("plug@FL", "Plug"),
        Aid("strap@FL", "Strap"),
    ),
)


def plain_only(value: Any) -> bool:
    if isinstance(value, dict):
        return all(isinstance(key, str) and plain_only(one) for key, one in value.items())
    return all(map(plain_only, value)) if isinstance(value, list) else type(value) in (str, int, bool)


def test_an_act_comes_back_exactly_from_its_text() -> None:
    plain = act_to_plain(FULL)
    assert plain_only(plain)
    assert act_from_plain(json.loads(json.dumps(plain))) == FULL


def test_what_stands_at_its_default_is_left_out() -> None:
    assert act_to_plain(Act("drive", at="10:00")) == {"do": "drive", "at": "10:00"}


@pytest.mark.parametrize(
    "plain",
    [
        {},
        {"do": "drive", "speed": "50"},
        {"do": 5},
        {"do": "drive", "step": "1"},
        {"do": "drive", "step": True},
        {"do": "drive", "places": "FL"},
        {"do": "drive", "places": [1]},
        {"do": "drive", "readings": [["FL"]]},
        {"do": "drive", "options": {"a": "yes"}},
        {"do": "drive", "tool": {"weight": "1"}},
        {"do": "drive", "tool": "TW-07"},
        {"do": "begin", "things": [{"kind": "gear", "name": "a", "title": "b"}]},
        {"do": "begin", "things": [{"kind": "joint", "name": "a"}]},
    ],
)
def test_what_is_not_as_an_act_is_written_is_unreadable(plain: dict[str, Any]) -> None:
    with pytest.raises(Unreadable, match="nothing was changed"):
        act_from_plain(plain)
