"""The find line's question: everything that has a name or a number, and nothing for what is not there."""

from dataclasses import replace

import pytest

from jobbook.core.jobs import EXPECTED
from jobbook.core.record.journal import Draft
from jobbook.core.vehicle.vehicles import Customer
from jobbook.services.house.shop import tools
from jobbook.services.office.calls import close_call, take_call
from jobbook.services.office.expected import expected
from jobbook.services.office.finding import Finds, find, find_exactly
from jobbook.services.vehicle.customers import keep_customer
from jobbook.ui.found import grouped
from tests.services.office.test_calls import CALL
from tests.services.workshop import VIN


@pytest.fixture
def there(at):
    return at("kitted")


def counted(finds: Finds) -> dict[str, int]:
    groups = ("jobs", "vehicles", "customers", "pieces", "tools")
    return {name: len(getattr(finds, name)) for name in groups if getattr(finds, name)}


@pytest.mark.parametrize(
    ("typed", "groups"),
    [
        (VIN, {"jobs": 1, "vehicles": 1}),
        (VIN[-8:], {"jobs": 1, "vehicles": 1}),
        (VIN[-6:], {"jobs": 1, "vehicles": 1}),
        ("kx07", {"jobs": 1, "vehicles": 1}),
        ("KX 07-ald", {"jobs": 1, "vehicles": 1}),
        ("harrow", {"jobs": 1, "vehicles": 1, "customers": 1}),
        ("Quillhaven0147", {"jobs": 1, "vehicles": 1, "customers": 1}),
        ("Quillhaven 0147", {"jobs": 1, "vehicles": 1, "customers": 1}),
        ("7h-206", {"pieces": 1}),
        ("as4471l", {"pieces": 1}),
        ("tw-", {"tools": 4}),
        ("tw07", {"tools": 1}),
        ("QC-26-0309", {"tools": 1}),
        ("electronic", {"tools": 1}),
        ("", {}),
        (" - ", {}),
        ("nobody of that name", {}),
    ],
)
def test_whatever_has_a_name_or_a_number_is_found_by_its_beginning(there, typed, groups):
    assert counted(find(there.book, typed)) == groups


def test_a_batch_is_found_with_every_piece_of_it_up_to_the_few_that_are_shown(there):
    assert len(find(there.book, "26-11", limit=3).pieces) == 3
    assert {piece.batch for piece in find(there.book, "2611").pieces} == {"26-11"}


@pytest.mark.parametrize("typed", ["+491725550147", "+49 172 5550147", "0172 555 01", "0172-5550147", "0049172555"])
@pytest.mark.parametrize("kept", ["+49 172 555 0147", "0172 5550147", "+49 (0)172 5550147"])
def test_a_telephone_number_is_found_however_it_is_written(there, kept, typed):
    keep_customer(there.book, there.jonas, Customer(1, "Ansel Harrow", phone=kept))
    assert [one.id for one in find(there.book, typed).customers] == [1]
    assert find(there.book, "0173 5550147").customers == ()


def test_a_serial_read_with_an_o_for_a_nought_is_found_and_said_so(there):
    found = find(there.book, "7H-2O6")
    assert (counted(found), found.read_as) == ({"pieces": 1}, "7H-206")
    titles = [group.title for group in grouped(found)]
    assert titles[0] == "Nothing begins so; read as “7H-206”"
    assert find(there.book, "7H-206").read_as == ""


def test_a_number_that_others_gave_leads_to_its_job(there):
    facts = {"job": there.job, "scope": "authority", "who": "", "how": "", "at": "", "reached_at": "", "what": "all"}
    facts |= {"added": "", "total": "", "currency": "", "authority": "CL/2026-3381", "wording": ""}
    with there.book.store.write(there.imke.id) as tx:
        tx.keep(Draft("permission/1", f"job/{there.job}", facts, job=there.job))
    for typed in ("CL/2026", "cl20263381", "3381"):
        assert [row.number for row in find(there.book, typed).by_others] == [there.job]
    assert find(there.book, "CL/2027").by_others == ()
    beginning = VIN[-6:-1]
    with there.book.store.write(there.imke.id) as tx:
        tx.keep(Draft("permission/1", f"job/{there.job}", facts | {"authority": beginning}, job=there.job))
    found = find(there.book, beginning)
    assert (len(found.vehicles), len(found.by_others)) == (1, 1), "what only begins so does not hide it"
    assert find(there.book, VIN[-6:]).by_others == (), "a number that was typed whole is meant"


def test_the_job_of_just_that_number_stands_first(there):
    assert [row.number for row in find(there.book, str(there.job)).jobs] == [there.job]
    assert find(there.book, "9" * 30).jobs == ()


@pytest.mark.parametrize(
    ("code", "groups"),
    [
        ("7H-20611", {"pieces": 1}),
        ("7h20611", {"pieces": 1}),
        ("7H-2061", {}),
        ("TW-07", {"tools": 1}),
        ("TW-0", {}),
        (VIN, {"vehicles": 1}),
        (VIN[-6:], {}),
        ("*-*", {}),
    ],
)
def test_a_scanned_code_names_only_what_bears_it_whole(there, code, groups):
    assert counted(find_exactly(there.book, code)) == groups


def test_a_scanned_number_of_a_job_names_the_job(there):
    assert [row.number for row in find_exactly(there.book, str(there.job)).jobs] == [there.job]


def test_the_whole_crib_is_within_reach(there):
    assert {tool.number for tool in tools(there.book)} == {
        found.number for tool in tools(there.book) for found in find(there.book, tool.number).tools
    }


@pytest.mark.parametrize(
    "typed", ["Söllner", "soellner", "sollner quill", "kx07", "01000555231", "01000 555 231", "stop"]
)
def test_whoever_called_is_found_until_something_came_of_it(there, typed):
    told = replace(CALL, caller="Ida Söllner, Quillhaven", phone="01000 555 231")
    number = take_call(there.book, there.jonas, told)
    assert [call.number for call in find(there.book, typed).calls] == [number]
    assert find(there.book, "zeppelin").calls == ()
    close_call(there.book, there.jonas, number, "went elsewhere")
    assert find(there.book, typed).calls == ()


def test_a_call_stands_among_the_jobs_as_expected_and_is_narrowed_like_them(there):
    first = take_call(there.book, there.jonas, replace(CALL, expected=""))
    second = take_call(there.book, there.jonas, CALL)
    rows = expected(there.book).rows
    assert [(row.number, row.stage, row.plate) for row in rows] == [
        (second, EXPECTED, "KX-07-ALD"),
        (first, EXPECTED, "KX-07-ALD"),
    ]
    assert expected(there.book, "harr kx").rows == rows
    assert expected(there.book, "nobody").rows == ()


def test_a_caller_who_was_forgotten_is_found_by_no_word(there):
    number = take_call(there.book, there.jonas, CALL)
    with there.book.store.write(there.imke.id) as tx:
        sealed = tx.journal.get(number).payload["caller"]
        tx.keep(Draft("erased/1", "call", {"commitments": [sealed], "reason": "asked for"}))
    assert find(there.book, "harrow").calls == ()
    assert [call.caller for call in find(there.book, "kx07").calls] == [None]
