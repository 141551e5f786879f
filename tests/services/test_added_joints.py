"""A joint that no method names, worked from loose to checked through its own card."""

import pytest

from jobbook.core.errors import Refused
from jobbook.services import work
from jobbook.services.house.shop import specifications
from jobbook.services.job.added import add_joint, add_named
from jobbook.services.sheet.added_sheet import BEGUN, with_added
from jobbook.services.sheet.jobsheet import job_sheet
from tests.services.workshop import SHEET, VARIANT, usual

ANSWERS = {
    "title": "Hose bracket bolt", "corner": "FL", "count": "2", "single_use": "no", "safety": "yes", "loaded": "no",
    "torque": "20 N·m", "tolerance": "± 10 %", **SHEET,
}  # fmt: skip


@pytest.fixture
def there(at):
    return at("vent")


def card(there):
    return with_added(there.book, job_sheet(there.book, there.job), (BEGUN, 1), there.bram.id).card


def do(there, key, by, **given):
    choice = next(choice for choice in card(there).choices if choice.key == key)
    answers = usual(choice) | given
    work.keep(there.book, by, there.job, choice, answers, signer=by if choice.signs else None)


def test_it_is_added_with_its_torque_and_worked_to_its_second_check(there):
    added = add_joint(there.book, there.nadia, there.job, ANSWERS)
    assert added.words == "Hose bracket bolt added"
    assert "added_hose_bracket_bolt" in [one.key for one in specifications(there.book, VARIANT)]
    do(there, "main", there.bram)
    assert "joint-left-loose" in there.rules()
    do(there, "main", there.bram, tool="TW-04")
    do(there, "main", there.nadia)
    rows = with_added(there.book, job_sheet(there.book, there.job), None, "").steps
    assert (rows[-1].mark, rows[-1].note) == ("double", "checked")
    assert card(there).done[0].words == "loosen"


def test_a_second_one_of_the_same_name_gets_a_name_of_its_own(there):
    for _ in range(2):
        add_joint(there.book, there.nadia, there.job, ANSWERS | {"torque": ""})
    sheet = with_added(there.book, job_sheet(there.book, there.job), None, "")
    assert [row.number for row in sheet.steps if row.begun == BEGUN] == [1, 2]


@pytest.mark.parametrize("count", ["", "0", "41", "two"])
def test_its_fasteners_are_counted(there, count):
    with pytest.raises(Refused, match="count its fasteners"):
        add_joint(there.book, there.nadia, there.job, ANSWERS | {"count": count})
    sheet = job_sheet(there.book, there.job)
    assert with_added(there.book, sheet, None, "") == sheet


WORKED = {
    "line": ("vent", {"places": "", "single_use": "no"}, (("main", "open"), ("main", "plugged"), ("main", "joined"))),
    "part": (
        "vent",
        {"renewed": "no", "sets_height": "no", "near_restraints": "no"},
        (("main", "off"), ("main", "on")),
    ),
    "connector": ("vent", {"near_restraints": "no"}, (("main", "out"), ("main", "in"))),
    "aid": ("vent", {}, (("main", "placed"), ("main", "away"))),
}


@pytest.mark.parametrize("kind", WORKED)
def test_other_things_are_added_and_worked_and_are_loose_ends_in_between(at, kind):
    place, asked, words = WORKED[kind]
    there = at(place)
    before = there.rules()
    added = add_named(there.book, there.bram, there.job, kind, {"title": "Guard plate", "corner": "FL"} | asked)
    assert added.words == "Guard plate added"
    for key, word in words:
        do(there, key, there.bram)
        rows = with_added(there.book, job_sheet(there.book, there.job), None, "").steps
        assert rows[-1].note == word
        ends = [end.sentence for end in (*there.sheet().loose_now, *there.sheet().still_to_do)]
        closed = word in ("on", "in", "away")
        assert any("Guard plate" in sentence for sentence in ends) != closed, word
        assert rows[-1].mark == ("disc" if closed else "half")
    if kind != "line":
        assert there.rules() - {"not-signed"} == before - {"not-signed"}
