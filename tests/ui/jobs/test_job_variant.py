"""The variant on the Arrival tab: what the vehicle may be, what differs, and the signed choice."""

import pytest

from jobbook.core.people import Person
from jobbook.core.vehicle.variants import Variant
from jobbook.services.house.people import all_people
from jobbook.services.house.shop import keep_specification
from jobbook.services.vehicle.variants import keep_variant, variant_of
from jobbook.ui.jobs.tabs import variant
from jobbook.ui.jobs.tabs.records import Signing
from tests.ui.jobs.presented import at_work

PLAIN, LOW = "Varnholt estate, standard", "Varnholt estate, lowered"
FIGURE = {"key": "height FL", "kind": "length", "title": "Height FL", "tolerance": "± 10 mm"}
NUT = {"key": "nut", "kind": "torque", "title": "Line nut", "text": "4 N·m"}
SHEET = {"document": "maker's sheet VH-SUS-12", "edition": "3, 2024"}
GIVEN = {"variant": LOW, "codes": "1bl", "read_from": "equipment plate", "reason": ""}


@pytest.fixture
def two(there):
    owner = person(there, "people")
    vehicle = variant_of(there.book, vehicle_of(there)).vehicle
    for name, code, height in ((PLAIN, "1BA", "402 mm"), (LOW, "1BL", "382 mm")):
        keep_variant(there.book, owner, Variant(name, vehicle.make, vehicle.model), code)
        keep_specification(there.book, owner, variant=name, text=height, **FIGURE, **SHEET)
        keep_specification(there.book, owner, variant=name, **NUT, **SHEET)
    return there


def person(there, permission) -> Person:
    return next(one for one in all_people(there.book) if permission in one.permissions)


def vehicle_of(there):
    with there.book.store.read() as reading:
        return reading.jobs.get(there.job).vehicle_id


def shown(there):
    presenter, seen = at_work(there)
    presenter.open_tab("arrival")
    blocks = seen.tabs["arrival"].blocks
    return presenter, seen, [one for one in blocks if one.title in (variant.TITLE, "What differs between them")]


def test_variants_that_fit_stand_side_by_side_and_the_rest_is_counted(two):
    _, _, (first, apart) = shown(two)
    assert [line.words for line in first.lines[1:]] == [f"A  {LOW}", f"B  {PLAIN}"]
    assert "equipment codes not read: 1BL" in first.lines[1].beside
    assert apart.headings == ("A", "B")
    assert apart.lines[0].cells == ("382 mm ± 10 mm", "402 mm ± 10 mm")
    assert apart.lines[1].words == "1 figure is the same in all of them"


def test_the_choice_is_signed_and_leaves_what_fits_by_the_codes(two):
    _, _, (first, _) = shown(two)
    (deed,) = first.deeds
    assert deed.signs
    who = person(two, "work")
    assert variant.keep(two.book, Signing(who), vehicle_of(two), GIVEN) == f"Variant {LOW}"
    _, _, (first,) = shown(two)
    assert first.lines[0].words == LOW
    assert "equipment plate · codes 1BL" in first.lines[0].beside
    assert f"signed by {who.name}" in first.lines[0].beside
    assert [line.words for line in first.lines[1:]] == [f"A  {LOW}"]


def test_not_known_is_an_answer_with_its_reason(two):
    given = GIVEN | {"variant": variant.UNKNOWN, "codes": "", "read_from": "", "reason": "plate painted over"}
    assert variant.keep(two.book, Signing(person(two, "work")), vehicle_of(two), given) == "Variant not known"
    _, _, (first, _) = shown(two)
    assert (first.lines[0].words, first.lines[0].mark) == ("Not known", "query")
    assert "plate painted over" in first.lines[0].beside
    assert "nothing is judged" in first.lines[0].beside
