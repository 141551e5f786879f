"""The shipped methods, played as people do them."""

from dataclasses import replace

import pytest

from jobbook.services import papers, work
from jobbook.services.house import shop
from jobbook.services.house.verifying import audit_book
from jobbook.services.job.methods import shipped_methods
from jobbook.services.job.release import release
from jobbook.services.office import desk
from jobbook.services.office.intake import take_in
from jobbook.services.sheet.lacking import lacking
from tests.services.workshop import ARRIVAL, REPAIR, SHEET, VARIANT, VEHICLE, kitted

INVENTED = {"torque": "50 N·m", "length": "402 mm", "pressure": "3 bar", "time": "10 min", "angle": "90°"}


def ways():
    """Every shipped method at its last corner, with every question answered no, then yes, then by turns."""
    for card in shipped_methods():
        asked = list(card.options)
        for answers in ([False] * len(asked), [True] * len(asked), [n % 2 == 0 for n in range(len(asked))]):
            yield pytest.param(
                card.key, card.corners[-1], dict(zip(asked, answers, strict=True)), id=f"{card.key} {answers}"
            )


def test_a_job_that_was_played_to_its_end_has_no_loose_end(at):
    sheet = at("done").sheet()
    assert sheet.loose_now == sheet.still_to_do == ()
    assert all(row.mark == "disc" for row in sheet.steps)


@pytest.mark.parametrize(("key", "corner", "options"), list(ways()))
def test_every_shipped_method_is_worked_to_its_end_released_and_papered(at, key, corner, options):
    there = at("shop")
    there.job = take_in(there.book, there.jonas, replace(ARRIVAL, vehicle=replace(VEHICLE, air="all")))
    desk.give_permission(there.book, there.jonas, there.job, REPAIR)
    work.begin_method(there.book, there.bram, there.job, key, corner, options)
    for figure, kind, title in lacking(there.book, there.job).figures:
        told = {"variant": VARIANT, "key": figure, "kind": kind, "title": title, "text": INVENTED[kind]}
        shop.keep_specification(there.book, there.nadia, **told, **SHEET)
    kitted(there)
    there.play(None)
    assert there.sheet().still_to_do == there.sheet().loose_now == ()
    release(there.book, there.imke, there.job, "128 417", "km")
    for kind in papers.KINDS:
        papers.issue(there.book, there.jonas, there.job, kind)
    there.book.close()
    assert audit_book(str(there.book.folder)).findings == ()
    there.open_again()
