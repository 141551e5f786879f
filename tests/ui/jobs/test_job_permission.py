"""The Permission tab through the presenter: lines with live totals, a drawn signature, what was declined."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from jobbook.core.measured.diagnosis import Finding
from jobbook.services.agreed import permission
from jobbook.services.house.shop import change_shop, shop
from jobbook.services.measured.findings import keep_finding
from jobbook.services.papers import issue
from jobbook.ui.jobs.tabs import times
from jobbook.ui.signature_pad import SignatureField, SignaturePad
from tests.ui.jobs import strut_book
from tests.ui.jobs.presented import at_work, deed

SIGNED = {"scope": "repair", "who": "Ada Winterbourne", "how": "signed on the screen", "at": "8:50", "reached_at": ""}
SIGNED |= {"what": "Strut FL", "added": "", "total": "900.00", "wording": "", "parts_back": "see", "reassembly": "80"}
PART = {"words": "Air strut FL", "part": "AS-4471-L", "condition": "new", "quantity": "2", "price": "12,50"}
PART |= {"tax": "20", "payer": ""}


@pytest.fixture
def desk(there):
    presenter, seen = at_work(there)
    presenter.open_tab("permission")
    return presenter, seen


def block(seen, title, tab="permission"):
    return next(one for one in seen.tabs[tab].blocks if one.title.startswith(title))


def do(desk, key, given, of=None):
    presenter, seen = desk
    presenter.do(deed(seen, "permission", key, of) if of is not None else deed(seen, "permission", key), given)
    assert seen.refusals == [], seen.refusals


def test_a_line_says_what_it_comes_to_while_it_is_typed(desk):
    live = deed(desk[1], "permission", "line", "part").live
    assert live(PART) == "2 × 12.50 = 25.00, 30.00 EUR with tax · all 30.00 EUR"
    assert live(PART | {"price": ""}) == "No price yet."
    assert live(PART | {"price": "1.234"}) == ""
    assert live(PART | {"quantity": " "}) == "No quantity yet."


def test_lines_are_kept_changed_done_and_struck_and_the_price_follows(desk):
    do(desk, "line", PART, "part")
    do(desk, "line", PART | {"words": "Fitting", "quantity": "1"}, "labour")
    assert [line.cells for line in block(desk[1], "Lines").lines] == [("25.00",), ("12.50",)]
    do(desk, "line-done", {}, "1")
    do(desk, "line-change", PART | {"words": "Fitting", "quantity": "3", "state": "struck"}, "2")
    lines = block(desk[1], "Lines").lines
    assert [line.mark for line in lines] == ["disc", "bar"]
    facts = {fact.label: fact.value for fact in block(desk[1], "How").facts}
    assert (facts["Lines come to"], facts["Done so far"]) == ("30.00 EUR", "30.00 EUR")
    assert "no limit is allowed" in desk[1].tabs["permission"].notice
    assert {fact.label: fact.value for fact in desk[1].sheet.facts}["Allowed"] == "nothing yet, so far 30.00"


def test_the_terms_of_the_paper_are_kept(desk):
    do(desk, "line-terms", {"word": "quotation", "valid_until": "24 Dec 2026", "exclusions": "seized bolts"})
    assert block(desk[1], "Lines of the quotation")


def test_a_permission_waits_for_its_signature_and_counts_from_then_on(there, desk):
    do(desk, "permission", SIGNED)
    line = block(desk[1], "The customer").lines[0]
    assert line.mark == "ring"
    assert "waits for the signature" in line.beside
    sign = deed(desk[1], "permission", "sign")
    assert "I want to see the old parts." in sign.explain
    do(desk, "sign", {"name": "Ada Winterbourne", "path": "M10 200L60 20L110 200"})
    line = block(desk[1], "The customer").lines[0]
    assert line.mark == "disc"
    assert "signed on the screen" in line.beside
    assert permission.agreed(there.book, there.job).signatures[0].signed.text == sign.explain


def test_a_permission_is_changed_withdrawn_and_moved(there, desk):
    other = strut_book.another(there)
    do(desk, "permission", SIGNED | {"how": "signed"})
    said = {"who": "Ada Winterbourne", "at": "8:55", "how": "spoken", "reached_at": "", "why": "a little more"}
    do(desk, "change", said | {"what": "changed", "total": "950", "valid_until": "2026-12-24"})
    assert "CHANGED to 950 until 24 Dec 2026" in block(desk[1], "The customer").lines[0].beside
    do(desk, "move", {"to": str(other), "why": "the wrong job was open"})
    line = block(desk[1], "The customer").lines[0]
    assert line.mark == "bar"
    assert f"MOVED to job {other}: the wrong job was open" in line.beside
    do(desk, "permission", SIGNED | {"how": "signed"})
    do(desk, "change", said | {"what": "withdrawn", "total": "", "valid_until": ""})
    assert "WITHDRAWN" in block(desk[1], "The customer").lines[1].beside


def test_declined_work_attempts_and_an_overrun_stand_on_the_tab(there, desk):
    said = {"who": "Ada Winterbourne", "at": "8:50", "how": "by telephone", "reached_at": "+44 1632 960123"}
    do(desk, "declined", said | {"subject": "second side", "what": "", "consequence": ""})
    assert "no comeback" in block(desk[1], "Declined").lines[0].beside
    do(desk, "overrun", {"known_at": "8:40", "total": "1100", "why": "seized bolt"})
    line = block(desk[1], "Reaching").lines[0]
    assert line.loud
    assert "not told yet" in line.beside
    over = permission.agreed(there.book, there.job).overruns[0].entry
    tried = {"at": "8:45", "how": "by telephone", "reached_at": "+44 1632 960123", "about": str(over), "by": ""}
    do(desk, "contact", tried | {"outcome": "no answer", "said": ""})
    assert "tried 1 times" in block(desk[1], "Reaching").lines[0].beside
    do(desk, "contact", tried | {"outcome": "reached", "said": "go on"})
    assert "told 12 Mar 2026" in block(desk[1], "Reaching").lines[0].beside


def test_an_authority_that_was_only_spoken_is_asked_for_in_writing_and_may_be_refused(desk):
    do(desk, "asked", {"payer": "Tideway Cover"})
    said = {"who": "Rook", "at": "8:50", "how": "by telephone", "reached_at": "0700", "why": "wear"}
    assert block(desk[1], "The payer").lines[0].beside == "no answer yet"
    do(desk, "refused", said)
    assert block(desk[1], "The payer").lines[0].beside.endswith("by Rook: wear")
    told = {"authority": "A-77", "who": "Rook", "how": "by telephone", "at": "8:55", "reached_at": "0700"}
    do(desk, "authority", told | {"what": "Strut FL", "total": "500", "wording": "strut only", "valid_until": ""})
    assert "A-77 was given by telephone: ask for it in writing" in desk[1].tabs["permission"].notice


def test_what_was_handed_over_stands_on_the_arrival_tab(there):
    presenter, seen = at_work(there)
    presenter.open_tab("arrival")
    given = {"keys": "2", "belongings": "ladder", "loan_car": "", "lamps": "", "said": ""}
    presenter.do(deed(seen, "arrival", "handed-in"), given)
    facts = {fact.label: fact.value for one in seen.tabs["arrival"].blocks for fact in one.facts}
    assert (facts["Keys"], facts["Left in the vehicle"], facts["Loan car"]) == ("2", "ladder", "not recorded")


@pytest.mark.parametrize(
    ("typed", "day"),
    [("2026-12-24", "2026-12-24"), ("24 Dec 2026", "2026-12-24"), ("24.12.2026", "2026-12-24"), ("", "")],
)
def test_a_day_is_read_as_people_write_it(there, typed, day):
    assert times.read_day(typed, there.book.today()) == day


def test_a_signature_is_drawn_with_the_mouse_and_cleared_with_a_key(qtbot, dressed):
    pad = SignaturePad()
    qtbot.addWidget(pad)
    pad.show()
    with qtbot.waitSignal(pad.changed):
        QTest.mousePress(pad, Qt.MouseButton.LeftButton, pos=QPoint(40, 90))
        QTest.mouseMove(pad, QPoint(80, 20))
        QTest.mouseRelease(pad, Qt.MouseButton.LeftButton, pos=QPoint(80, 20))
    assert pad.path().startswith("M83 188")
    with qtbot.waitSignal(pad.changed):
        QTest.keyClick(pad, Qt.Key.Key_Delete)
    assert pad.path() == ""


def test_the_form_holds_the_pad_and_its_clear_button(qtbot, dressed):
    from jobbook.services.sheet.sheets import Ask

    field = SignatureField(Ask("path", "Signature", "signature"))
    qtbot.addWidget(field)
    field.set_text("M10 200L60 20L110 200")
    assert not field.is_empty()
    assert not field.pad.grab().isNull()
    field.clear.click()
    assert field.is_empty()


def test_each_finding_is_allowed_or_declined_by_itself(there, desk):
    for words in ("Link nut seized", "Cap of the fitting missing"):
        keep_finding(there.book, there.bram, there.job, Finding(words, "to be put right soon"))
    desk[0].open_tab("permission")
    first, second = block(desk[1], "Found").lines
    assert (first.mark, second.mark) == ("ring", "ring")
    asks = {ask.name: ask.value for ask in first.deeds[0].asks}
    assert (asks["scope"], asks["what"]) == ("extra", "Link nut seized")
    do(desk, "permission", SIGNED | {"how": "signed", "scope": "extra", "added": "80"}, first.deeds[0].of)
    said = {"who": "Ada Winterbourne", "at": "8:50", "how": "spoken", "reached_at": "", "consequence": ""}
    do(desk, "declined", said | {"subject": "finding", "what": second.words}, second.deeds[0].of)
    assert [line.mark for line in block(desk[1], "Found").lines] == ["disc", "bar"]
    left = [[one.label for one in line.deeds] for line in block(desk[1], "Found").lines]
    assert left == [[], ["Allowed…", "Otherwise…"]]


def test_what_holds_the_release_is_answered_where_it_is_read_too(there, desk):
    keep_finding(there.book, there.bram, there.job, Finding("Link nut seized", "unsafe to drive"))
    desk[0].open(there.job)
    desk[0].open_tab("checks")
    (line,) = (one for one in block(desk[1], "Still to do", "checks").lines if "Link nut" in one.words)
    assert [one.label for one in line.deeds] == ["Allowed…", "Declined…", "Otherwise…", "Let go…"]
    told = {"answer": "put right", "why": "freed, new nut", "at": "8:50", "who": "", "how": ""}
    desk[0].do(line.deeds[2], told)
    assert desk[1].refusals == []
    assert not any("Link nut" in one.words for one in block(desk[1], "Still to do", "checks").lines)
    desk[0].open_tab("permission")
    assert "it was put right · freed, new nut" in block(desk[1], "Found").lines[0].beside


def wished(desk):
    return next(ask.value for ask in deed(desk[1], "permission", "permission").asks if ask.name == "parts_back")


def test_where_a_written_estimate_is_due_the_tab_says_so_until_one_has_left(there, desk):
    change_shop(there.book, there.people["it"], replace(shop(there.book), profile="ontario"))
    desk[0].refresh()
    assert wished(desk) == "back"
    do(desk, "permission", SIGNED | {"how": "signed"})
    assert "a written estimate is due before this work" in desk[1].tabs["permission"].notice
    assert wished(desk) == "see", "what was said with the first permission holds for the next"
    issue(there.book, there.bram, there.job, "estimate")
    desk[0].open_tab("permission")
    assert desk[1].tabs["permission"].notice == ""
