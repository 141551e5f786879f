"""Permissions, PINs, badges, and people who leave."""

from dataclasses import replace
from datetime import timedelta

import pytest

from jobbook.core.errors import NotFound, Refused
from jobbook.core.people import PERMISSIONS
from jobbook.core.vehicle.vehicles import Vehicle
from jobbook.services import papers, work
from jobbook.services.house import people, shop
from jobbook.services.job import release, stores
from jobbook.services.measured.readings import add_odometer
from jobbook.services.office import desk
from jobbook.services.office.intake import take_in
from jobbook.services.sheet.jobsheet import job_sheet
from jobbook.services.vehicle.vehicles import keep_vehicle
from tests.services.workshop import ARRIVAL, OPTIONS, PIN, REPAIR, SHEET, SHOP, TOOLS, VARIANT


@pytest.fixture
def there(at):
    return at("begun")


def may(there, *permissions):
    """A person who may do this and nothing else."""
    return people.add_person(there.book, there.imke, "Perdita Quill", frozenset(permissions), PIN)


DEEDS = {
    "add_person": lambda t, p: people.add_person(t.book, p, "Ned", frozenset(), PIN),
    "change_person": lambda t, p: people.change_person(t.book, p, t.bram),
    "set_pin of another": lambda t, p: people.set_pin(t.book, p, t.bram.id, PIN),
    "set_badge": lambda t, p: people.set_badge(t.book, p, t.bram.id, "SOME-BADGE"),
    "change_shop": lambda t, p: shop.change_shop(t.book, p, SHOP),
    "keep_tool": lambda t, p: shop.keep_tool(t.book, p, TOOLS[0]),
    "keep_specification": lambda t, p: shop.keep_specification(
        t.book, p, variant=VARIANT, key="k", kind="torque", title="k", text="9 N·m", **SHEET
    ),
    "take_in": lambda t, p: take_in(t.book, p, replace(ARRIVAL, vehicle=Vehicle(0, ""))),
    "keep_vehicle": lambda t, p: keep_vehicle(t.book, p, Vehicle(1, "")),
    "add_odometer": lambda t, p: add_odometer(t.book, p, t.job, "128 420", "km", "test"),
    "concern": lambda t, p: desk.concern(t.book, p, t.job, 1, cause="worn"),
    "add_test": lambda t, p: desk.add_test(t.book, p, t.job, "soap", "done", "dry"),
    "give_permission": lambda t, p: desk.give_permission(t.book, p, t.job, REPAIR),
    "ask_authority": lambda t, p: desk.ask_authority(t.book, p, t.job, "the supplier"),
    "issue": lambda t, p: stores.issue(t.book, p, t.job, "strut_line@FL", 1),
    "begin_method": lambda t, p: work.begin_method(t.book, p, t.job, "front-air-strut-renew-one-corner", "FR", OPTIONS),
    "keep": lambda t, p: work.keep(t.book, p, t.job, t.choice(), {}),
    "sign": lambda t, p: work.sign(t.book, p, t.job, ["none"]),
    "allow": lambda t, p: work.allow(t.book, p, t.job, "half-built", "to push it out"),
    "let_go": lambda t, p: work.let_go(t.book, p, t.job, t.sheet().still_to_do[0], "no"),
    "end_finding": lambda t, p: work.end_finding(t.book, p, t.job, "none", "repaired"),
    "release": lambda t, p: release.release(t.book, p, t.job, "128 420", "km"),
    "papers.issue": lambda t, p: papers.issue(t.book, p, t.job, "handover"),
}
WANTED = {
    "add_person": "people", "change_person": "people", "set_pin of another": "people", "set_badge": "people",
    "change_shop": "people", "keep_tool": "tools", "keep_specification": "specifications", "take_in": "desk",
    "keep_vehicle": "desk", "add_odometer": "work desk", "concern": "work desk", "add_test": "work desk",
    "give_permission": "desk", "ask_authority": "desk", "issue": "work desk", "begin_method": "work", "keep": "work",
    "sign": "work", "allow": "allow", "let_go": "release", "end_finding": "work", "release": "release",
    "papers.issue": "desk release",
}  # fmt: skip


@pytest.mark.parametrize("deed", DEEDS)
def test_who_lacks_the_permission_is_refused_and_nothing_is_kept(there, deed):
    person = may(there, *(set(PERMISSIONS) - set(WANTED[deed].split())))
    with there.book.store.read() as reading:
        before = reading.journal.head().size
    with pytest.raises(Refused, match="Nothing was kept: Perdita Quill has no permission to"):
        DEEDS[deed](there, person)
    with there.book.store.read() as reading:
        assert reading.journal.head().size == before


def test_a_permission_taken_away_elsewhere_counts_at_once(there):
    people.change_person(there.book, there.imke, replace(there.bram, permissions=frozenset({"desk"})))
    with pytest.raises(Refused, match="Bram Ferro has no permission to do and sign work"):
        there.do()


def test_a_person_who_left_does_nothing_more_but_what_they_signed_keeps_their_name(at):
    """Nasty case 84 of the trade notes."""
    there = at("vent")
    people.change_person(there.book, there.imke, replace(there.bram, active=False))
    with pytest.raises(Refused, match="Bram Ferro does not work here any more"):
        there.do()
    with pytest.raises(Refused, match="does not work here any more; nothing was signed"):
        people.by_pin(there.book, there.bram.id, PIN)
    with pytest.raises(Refused, match="does not work here any more; nothing was signed"):
        people.by_badge(there.book, "BADGE-Bram Ferro")
    done = job_sheet(there.book, there.job, (0, 1)).card.done
    assert [one.by for one in done] == ["Bram Ferro"]


def test_somebody_always_may_keep_people(there):
    with pytest.raises(Refused, match="nobody would be left"):
        people.change_person(there.book, there.imke, replace(there.imke, active=False))
    with pytest.raises(Refused, match="nobody would be left"):
        people.change_person(there.book, there.imke, replace(there.imke, permissions=frozenset({"work"})))
    people.change_person(there.book, there.imke, replace(there.bram, permissions=frozenset({"people"})))
    people.change_person(there.book, there.imke, replace(there.imke, active=False))
    with pytest.raises(Refused, match="nobody would be left"):
        people.change_person(there.book, there.bram, replace(there.bram, active=False))


def test_a_permission_that_is_none_and_a_name_of_marks_are_refused(there):
    with pytest.raises(Refused, match="no permission “fly”"):
        people.add_person(there.book, there.imke, "Ned", frozenset({"fly"}), PIN)
    with pytest.raises(Refused, match="a name is needed"):
        people.change_person(there.book, there.imke, replace(there.bram, name=" -\t"))


def test_after_five_wrong_pins_one_waits_and_then_the_right_one_counts(there):
    for _ in range(5):
        with pytest.raises(Refused, match="not the PIN of Bram Ferro; nothing was signed"):
            people.by_pin(there.book, there.bram.id, "9999")
    with pytest.raises(Refused, match="wait 30 seconds"):
        people.by_pin(there.book, there.bram.id, PIN)
    assert people.by_pin(there.book, there.nadia.id, PIN).id == there.nadia.id
    there.clock.on(timedelta(seconds=29))
    with pytest.raises(Refused, match="wait"):
        people.by_pin(there.book, there.bram.id, PIN)
    there.clock.on(timedelta(seconds=1))
    assert people.by_pin(there.book, there.bram.id, PIN).id == there.bram.id
    with pytest.raises(Refused, match="not the PIN"):
        people.by_pin(there.book, there.bram.id, "9999")


def test_a_badge_says_whose_it_is(there):
    assert people.by_badge(there.book, " BADGE-Nadia Oyelaran-Pike ").id == there.nadia.id
    with pytest.raises(NotFound, match="belongs to nobody"):
        people.by_badge(there.book, "BADGE-of nobody")


def test_a_badge_of_somebody_else_is_refused_and_nobody_is_half_added(there):
    with pytest.raises(Refused, match="belongs to another person"):
        people.set_badge(there.book, there.imke, there.bram.id, "BADGE-Nadia Oyelaran-Pike")
    count = len(people.all_people(there.book))
    with pytest.raises(Refused, match="belongs to another person"):
        people.add_person(there.book, there.imke, "Ned Ash", frozenset(), PIN, "BADGE-Bram Ferro")
    assert len(people.all_people(there.book)) == count
    people.set_badge(there.book, there.imke, there.bram.id, "BADGE-new")
    with pytest.raises(NotFound):
        people.by_badge(there.book, "BADGE-Bram Ferro")


def test_one_sets_ones_own_pin_and_a_pin_is_digits(there):
    people.set_pin(there.book, there.bram, there.bram.id, "13579")
    assert people.by_pin(there.book, there.bram.id, "13579")
    with pytest.raises(Refused, match="four digits"):
        people.set_pin(there.book, there.bram, there.bram.id, "१२३४")
    with pytest.raises(NotFound, match="no person “nobody”"):
        people.set_pin(there.book, there.imke, "nobody", PIN)


def test_neither_pin_nor_badge_stands_in_the_journal_or_in_a_person(there):
    with there.book.store.read() as reading:
        bodies = " ".join(entry.body for entry in reading.journal.entries())
    assert "argon2" not in bodies
    assert "BADGE" not in bodies
    assert people.get_person(there.book, there.bram.id).has_badge
