"""The leaves of a vehicle's page: what is on it, what was there before, and its years drawn; and the same on a job."""

from datetime import timedelta

import pytest

from jobbook.core.errors import Refused
from jobbook.services.house.people import all_people
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.jobsheet import job_sheet
from jobbook.ui.duty import Duty
from jobbook.ui.jobs.tabs import joiner_lines, parts
from jobbook.ui.jobs.tabs.records import Deed, Signing
from jobbook.ui.paint import DrawingWidget
from jobbook.ui.places import a_job, a_vehicle
from jobbook.ui.setting import Setting
from jobbook.ui.vehicles import parts_block, years_block
from jobbook.ui.vehicles.leaves import Leaves
from jobbook.ui.vehicles.vehicle_page import VehiclePage
from tests.services.part_book import START, part_book


@pytest.fixture
def there(tmp_path):
    """A vehicle with two struts one after the other, heights of two visits, a joiner and something declined."""
    made = part_book(tmp_path / "book")
    first = made.visit("a", 0, 50_000)
    old = made.fit(first, 0, "FL", serial="S1", warranty_months="24")
    act = {"do": "measure", "what": "heights", "readings": [["FL", "402"], ["FR", "401"]], "how": "SR-01"}
    made.keep("act/1", first, 0, act=act)
    made.keep("test/1", first, 0, name="Aim of the lamps", answer="declined", result="", reason="no time")
    second = made.visit("a", 400, 62_000)
    made.fit(second, 400, "FL", serial="S2", warranty_months="24")
    made.off(second, 400, old, "failed")
    made.keep("act/1", second, 400, act=act)
    joiner = {"line": "line to the rear", "corner": "RL", "whose": "others", "state": "in", "of": "", "note": ""}
    made.keep("line-joiner/1", second, 400, **joiner)
    yield made
    made.book.close()


@pytest.fixture
def book(there):
    return OpenBook(there.book.store, lambda: START + timedelta(days=420), there.book.chance)


def lines(sheet):
    return {block.title: [(line.words, line.beside, line.mark) for line in block.lines] for block in sheet.blocks}


def test_the_part_that_is_on_stands_first_with_its_warranty_and_the_one_before_under_it(book):
    told = lines(parts_block.show(book, 1))
    now, before = told["On it now, and what was there before"]
    assert now == (
        "FL · Air strut · A-1 · serial S2",
        "fitted 9 Feb 2021, job 2 · Quillhaven · the supplier's warranty runs to 9 Feb 2023",
        "double",
    )
    assert before[:2] == (
        "before: Air strut · A-1 · serial S1",
        "from 6 Jan 2020, job 1 · until 9 Feb 2021, job 2: it failed · Quillhaven",
    )
    assert told["Joiners in the air lines"][1][:2] == (
        "RL · line to the rear",
        "found, put in by others · 9 Feb 2021, job 2",
    )
    assert told["Declined by the customer"] == [("Aim of the lamps", "6 Jan 2020, job 1 · no time", "bar")]


def test_the_years_are_drawn_and_say_what_will_stand_there_where_there_is_nothing(book):
    heights, losses = years_block.show(book, 1).blocks
    assert heights.drawing.words.startswith("Heights over the visits, mm. FL: Jan 2020 402, Feb 2021 402")
    assert (losses.drawing, losses.nothing[:33]) == (None, "No leak-down stand was made yet. ")


def test_nothing_is_kept_from_these_leaves_and_a_line_leads_to_its_job(book):
    deed = parts_block.show(book, 1).blocks[0].lines[0].deeds[0]
    assert parts_block.place(deed) == years_block.place(deed) == a_job(2)
    for leaf in (parts_block, years_block):
        with pytest.raises(Refused, match="kept in a job"):
            leaf.keep(book, all_people(book)[0], 1, deed, {})


def test_the_page_turns_to_its_leaves_by_keys_and_goes_on_to_the_job(qtbot, lanes, book):
    page = VehiclePage(Setting(book, Duty(all_people(book)[0]), lanes))
    qtbot.addWidget(page)
    page.show()
    page.arrive(a_vehicle(1))
    page.findChild(Leaves).open(2)
    drawn = [one for one in page.years.findChildren(DrawingWidget) if one.accessibleName().startswith("Heights")]
    qtbot.waitUntil(lambda: bool(drawn) and drawn[0].isVisible())
    page.findChild(Leaves).open(1)
    with qtbot.waitSignal(page.go) as gone:
        page.parts.tab.done.emit(Deed("job", "Open the job", of="2", opens=True), {})
    assert gone.args == [a_job(2)]


def tab(book, job):
    return lines(parts.show(book, job_sheet(book, job)))


def test_on_the_job_it_is_said_why_a_part_came_off_and_taken_back_again(book):
    by = Signing(all_people(book)[0])
    title = "Fitted by this shop before: what came off, and why"
    assert tab(book, 2)[title] == [("Air strut FL · serial S1 · job 1", "came off · it failed", "disc")]
    block = next(one for one in parts.show(book, job_sheet(book, 2)).blocks if one.title == title)
    deed = block.lines[0].deeds[0]
    assert parts.keep(book, by, 2, deed, {"reason": "damaged", "note": "kerb"}) == "Why the part came off is kept"
    assert tab(book, 2)[title][0][1] == "came off · damaged by something else"


def test_a_joiner_is_added_and_goes_with_its_line(book):
    by = Signing(all_people(book)[0])
    given = {"line": "line to the front left", "whose": "ours", "corner": "FL", "note": ""}
    parts.keep(book, by, 2, Deed(joiner_lines.ADD, "Found or put in…"), given)
    counted, *named = tab(book, 2)["Joiners in the air lines"]
    assert counted[0].startswith("2 joiners in the air lines: 1 put in by us, 1 found, put in by others.")
    assert [one[0] for one in named] == ["RL · line to the rear", "FL · line to the front left"]
    gone = next(one for one in parts.show(book, job_sheet(book, 2)).blocks if one.title.startswith("Joiners"))
    parts.keep(book, by, 2, gone.lines[1].deeds[0], {"note": "line renewed"})
    assert [one[0] for one in tab(book, 2)["Joiners in the air lines"][1:]] == ["FL · line to the front left"]
