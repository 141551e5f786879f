"""A typed torque against its bolt: what is said, what asks for a confirmation, what is kept."""

import pytest

from jobbook.core.errors import Refused
from jobbook.core.work.model import Joint
from jobbook.services import work
from jobbook.services.house import shop
from jobbook.services.job.added import add_joint
from jobbook.services.measured.torque_at_work import (
    Doubtful,
    fastener_in,
    fasteners,
    look_at_torque,
    notes_on_torque,
    read_fastener,
    without_look,
)
from jobbook.services.sheet.lacking import lacking
from tests.services.workshop import SHEET, VARIANT

BOLT = "M12x1.5 10.9"  # 94.5 to 156.3 N·m at friction 0.08 to 0.16, computed from VDI 2230 (2001)
FIGURE = {"key": "link", "kind": "torque", "title": "Link nut", **SHEET}


@pytest.mark.parametrize(
    ("text", "verdict", "doubtful"),
    [
        ("110 N·m", "is usual", False),
        ("60 N·m", "is low", True),
        ("60 N·m, then +90°", "is low, as it is where an angle follows", False),
        ("200 N·m", "is high", True),
        ("200 N·m, then +90°", "is high", True),
        ("900 N·m", "is impossible: the bolt would break first", True),
        ("50 N·m, then 110 N·m", "is usual", False),
    ],
)
def test_a_torque_is_usual_low_high_or_impossible_for_its_bolt(text, verdict, doubtful):
    look = look_at_torque(text, "", BOLT)
    assert verdict in look.sentence
    assert look.doubtful == doubtful


def test_a_slip_of_the_unit_is_named():
    """110 lbf·ft is 149.1 N·m (NIST SP 811): usual for this bolt, and 90 N·m is below what is usual."""
    sentence = look_at_torque("90 N·m", "", BOLT).sentence.replace("\u202f", " ")
    assert "90 lbf·ft would be 122.0 N·m: look at the unit." in sentence
    assert "(149.1 N·m) is usual" in look_at_torque("110 lbf·ft", "", BOLT).sentence.replace("\u202f", " ")


@pytest.mark.parametrize("bolt", ["", "M30 10.9"])
def test_where_nothing_is_known_of_the_bolt_nothing_is_said(bolt):
    assert look_at_torque("110 N·m", "", bolt).sentence == ""


@pytest.mark.parametrize("bolt", ["M12x1.5", "M12x1.5 10.8", "M12x1.7 10.9", "12 mm 10.9", "10.9 M12"])
def test_what_is_not_thread_and_grade_is_refused(bolt):
    with pytest.raises(Refused):
        read_fastener(bolt)


def kept(there, **more):
    return shop.keep_specification(there.book, there.imke, variant=VARIANT, **FIGURE | more)


def test_what_was_said_is_kept_with_the_conditions(at):
    there = at("vent")
    spec = kept(there, text="110 N·m", conditions="threads oiled", fastener=BOLT)
    assert spec.conditions.startswith("threads oiled; Looked at as M12x1.5 10.9: 110\u202fN·m is usual")
    assert fastener_in(spec.conditions) == BOLT
    assert without_look(spec.conditions) == "threads oiled"


def test_what_looks_wrong_is_not_kept_before_somebody_says_that_it_stands_so(at):
    there = at("vent")
    with pytest.raises(Doubtful, match=r"is high .* Read the document once more; nothing was kept yet"):
        kept(there, text="200 N·m", fastener=BOLT)
    assert "link" not in {spec.key for spec in shop.specifications(there.book, VARIANT)}
    spec = kept(there, text="200 N·m", fastener=BOLT, confirmed=True)
    assert spec.text == "200 N·m"
    assert spec.conditions.endswith("kept as it stands in the document.")


def test_a_later_look_takes_the_place_of_an_earlier_one(at):
    there = at("vent")
    first = kept(there, text="200 N·m", conditions="dry", fastener=BOLT, confirmed=True)
    again = kept(there, text="110 N·m", conditions=first.conditions, fastener=BOLT)
    assert again.conditions.count("Looked at as") == 1
    assert again.conditions.startswith("dry; Looked at as")
    assert kept(there, text="110 N·m", conditions=again.conditions).conditions == "dry"


def test_a_joint_that_declares_its_bolt_says_so_beside_the_missing_figure(at):
    there = at("vent")
    joint = Joint("guard@FL", "Guard bolt", thread="M12x1.5", grade="10.9", figure="front_strut_lower_torque")
    assert fasteners([joint, Joint("plain@FL", "Plain", figure="x")]) == {"front_strut_lower_torque": BOLT}
    work.add_thing(there.book, there.bram, there.job, joint)
    assert lacking(there.book, there.job).fasteners == {"front_strut_lower_torque": BOLT}


ADDED = {
    "title": "Bracket",
    "corner": "FL",
    "count": "1",
    "single_use": "no",
    "safety": "no",
    "loaded": "no",
    "torque": "200 N·m",
    "tolerance": "",
    "fastener": BOLT,
    "document": "VH-BRK-2",
    "edition": "1",
}


def test_a_joint_added_on_the_spot_is_looked_at_before_anything_is_kept(at):
    there = at("vent")
    with pytest.raises(Doubtful, match="is high"):
        add_joint(there.book, there.nadia, there.job, ADDED)
    assert "added_bracket" not in {spec.key for spec in shop.specifications(there.book, VARIANT)}
    add_joint(there.book, there.nadia, there.job, {**ADDED, "confirmed": "yes"})
    spec = next(spec for spec in shop.specifications(there.book, VARIANT) if spec.key == "added_bracket")
    assert spec.conditions.endswith("kept as it stands in the document.")


def test_while_a_torque_is_typed_its_stages_and_the_tools_for_each_are_said(at):
    there = at("vent")
    said = [line.replace("\u202f", " ") for line in notes_on_torque(there.book, "70 N·m + 90°", "5 %", "")]
    assert said == [
        "Read as 70 N·m ± 5 %, then +90° ± 5 %.",
        "On the shelf for 70 N·m: EW-01 (20 to 100 N·m) or TW-07 (20 to 100 N·m) or TW-09 (40 to 200 N·m); "
        "for +90°: AG-01 (0 to 360 °).",
    ]
    none = notes_on_torque(there.book, "500 N·m", "", "")[1].replace("\u202f", " ")
    assert none == "On the shelf for 500 N·m: no tool on the shelf fits."
    assert notes_on_torque(there.book, "70 mm", "", "") == ()
