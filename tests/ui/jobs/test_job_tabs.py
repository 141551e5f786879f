"""The tabs beside Work, through the presenter and on a real book."""

from jobbook.services.papers import papers
from tests.ui.jobs import strut_book
from tests.ui.jobs.presented import SIGNED_BY_BRAM, at_work, deed

ORDER = "The order that wastes least time"


def titled(seen, title):
    return next(block for block in seen.tabs["diagnosis"].blocks if block.title == title)


def test_a_concern_and_a_reading_are_added_to_the_arrival(there):
    presenter, seen = at_work(there)
    presenter.open_tab("arrival")
    presenter.do(deed(seen, "arrival", "concern"), {"words": "It also squeaks."})
    presenter.do(deed(seen, "arrival", "odometer"), {"value": "128 400", "unit": "km", "what": "test", "note": ""})
    assert "less than" in seen.refusals[0]
    presenter.do(deed(seen, "arrival", "odometer"), {"value": "128 414", "unit": "km", "what": "test", "note": ""})
    lines = [line.words for block in seen.tabs["arrival"].blocks for line in block.lines]
    assert "“It also squeaks.”" in lines
    assert "128\u202f414 km (79\u202f793 mi)" in lines


def test_a_test_that_was_not_done_needs_its_reason_and_never_looks_done(there):
    presenter, seen = at_work(there)
    presenter.open_tab("diagnosis")
    asked = deed(seen, "diagnosis", "guided", "stand")
    presenter.do(asked, {"answer": "not possible", "reason": ""})
    assert "needs its reason" in seen.refusals[0]
    presenter.do(asked, {"answer": "not possible", "reason": "Recovered with no air"})
    line = next(line for line in titled(seen, ORDER).lines if line.words == "Leak-down stand")
    assert line.mark == "bar"
    assert "Recovered with no air" in line.beside


def test_codes_are_kept_as_shown_and_a_module_without_one_says_none_stored(there):
    presenter, seen = at_work(there)
    presenter.open_tab("diagnosis")
    code = {"module": "Levelling", "when": "before", "code": "C1A20", "status": "stored", "text": "", "odometer": ""}
    presenter.do(deed(seen, "diagnosis", "code", ""), code | {"cleared": ""})
    presenter.do(deed(seen, "diagnosis", "code", "none"), {"module": "Brakes", "when": "before"})
    lines = [line.words for line in titled(seen, "Fault codes").lines]
    assert sorted(lines) == ["Brakes: read, none stored", "Levelling: C1A20 (5A20)"]


def test_cause_and_correction_stand_beside_their_concern(there):
    presenter, seen = at_work(there)
    presenter.open_tab("diagnosis")
    said = {"cause": "Strut FL, lower fold, bubbles", "confidence": "proved", "correction": ""}
    presenter.do(deed(seen, "diagnosis", "cause", "1"), said)
    line = titled(seen, "Cause and correction").lines[0]
    assert line.mark == "half"
    assert "Cause (proved): Strut FL, lower fold, bubbles" in line.beside


def test_a_permission_keeps_its_seven_facts_and_says_which_are_missing(there):
    presenter, seen = at_work(there)
    presenter.open_tab("permission")
    told = {"scope": "repair", "who": "Ada Winterbourne", "how": "by telephone", "at": "8:50", "reached_at": ""}
    told |= {"what": "Strut FL", "added": "", "total": "1480.00", "wording": ""}
    presenter.do(deed(seen, "permission", "permission"), told)
    assert "number or address" in seen.refusals[0]
    presenter.do(deed(seen, "permission", "permission"), told | {"reached_at": "+44 1632 960123"})
    assert "limit 1\u202f480.00 EUR" in seen.tabs["permission"].blocks[1].lines[0].beside
    assert next(tab for tab in seen.sheet.tabs if tab.key == "permission").mark == "disc"


def test_authority_that_was_asked_for_holds_the_work_until_it_is_given(there):
    presenter, seen = at_work(strut_book.allowed(there))
    presenter.open_tab("permission")
    presenter.do(deed(seen, "permission", "asked"), {"payer": "Tideway Cover"})
    assert next(tab for tab in seen.sheet.tabs if tab.key == "permission").mark == "half"
    told = {"authority": "A-77", "who": "Rook", "how": "by mail", "at": "8:55", "reached_at": "rook@tideway.example"}
    presenter.do(deed(seen, "permission", "authority"), told | {"what": "Strut FL", "total": "", "wording": ""})
    assert seen.refusals == []
    assert next(tab for tab in seen.sheet.tabs if tab.key == "permission").mark == "disc"


def test_pieces_are_issued_and_taken_back_and_the_three_numbers_follow(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.open_tab("parts")
    back = deed(seen, "parts", "back")
    presenter.do(back, {"state": "wrong", "reason": "Left-hand side"})
    assert seen.refusals == []
    assert any(line.beside.endswith("short") for line in seen.tabs["parts"].blocks[0].lines)
    issue = deed(seen, "parts", "issue")
    told = {"count": "all", "number": "K-2", "serial": "", "batch": "", "condition": "new", "supplier": ""}
    presenter.do(issue, told | {"delivery_note": "", "purchase_invoice": ""})
    assert "Nothing was issued" in seen.refusals[0]
    presenter.do(issue, told | {"delivery_note": "", "purchase_invoice": "", "count": "1"})
    assert not any(line.beside.endswith("short") for line in seen.tabs["parts"].blocks[0].lines)


def test_it_is_not_released_with_loose_ends_unless_a_person_lets_them_go_with_a_reason(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.open_tab("checks")
    release = deed(seen, "checks", "release")
    told = {"odometer": "128 411", "unit": "km", "restriction": "", "reason": " ", **SIGNED_BY_BRAM}
    presenter.do(release, told)
    assert "was not released" in seen.refusals[0]
    presenter.do(release, told | {"reason": "Customer takes it home, strut on order"})
    assert seen.sheet.stage == "released"
    assert seen.tabs["checks"].blocks[-1].lines[0].words.endswith("by Bram Ferro")


def test_a_loose_end_is_let_go_under_a_signature_with_its_reason(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.open_tab("checks")
    let_go = deed(seen, "checks", "let-go")
    presenter.do(let_go, {"reason": "Customer declined", **SIGNED_BY_BRAM})
    assert seen.refusals == []
    left = (*seen.sheet.loose_now, *seen.sheet.still_to_do)
    assert let_go.end not in left


def test_a_finding_ends_repaired_declined_or_referred(there):
    presenter, seen = at_work(strut_book.begun(there))
    wrong = next(choice for choice in seen.sheet.card.choices if choice.key == "found-wrong")
    presenter.choose(wrong, {"text": "Cap missing on the new strut"})
    presenter.open_tab("checks")
    presenter.do(deed(seen, "checks", "ended"), {"how": "repaired", "reason": "Cap fitted", **SIGNED_BY_BRAM})
    assert seen.refusals == []
    assert not any(end.rule == "finding-open" for end in seen.sheet.still_to_do)


def test_a_preview_is_shown_and_keeps_nothing_and_an_issued_paper_can_be_opened(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.open_tab("papers")
    presenter.do(deed(seen, "papers", "preview", "handover"), {})
    name, content = seen.files[0]
    assert (name, content[:5]) == (f"job-{there.job}-handover-preview.pdf", b"%PDF-")
    assert papers(there.book, there.job) == ()
    presenter.do(deed(seen, "papers", "issue", "handover"), {})
    assert seen.refusals == []
    presenter.do(deed(seen, "papers", "open"), {})
    assert seen.files[1][1][:5] == b"%PDF-"
    assert "issued by Bram Ferro" in seen.tabs["papers"].blocks[1].lines[0].beside


def test_a_code_is_compared_before_and_after_and_cleared_with_a_name(there):
    presenter, seen = at_work(there)
    presenter.open_tab("diagnosis")
    code = {"module": "Levelling", "when": "before", "code": "5a20", "status": "stored", "text": "run too long"}
    code |= {"odometer": "128 402 km", "cleared": ""}
    presenter.do(deed(seen, "diagnosis", "code", ""), code)
    (line,) = titled(seen, "Fault codes").lines
    assert (line.words, line.mark) == ("Levelling: C1A20 (5A20) run too long", "half")
    assert line.beside == "before: stored at 128 402 km · after: not read again"
    presenter.do(deed(seen, "diagnosis", "clear"), {"by": "Bram Ferro", "at": " "})
    assert "who cleared the code, and when" in seen.refusals[-1]
    presenter.do(deed(seen, "diagnosis", "clear"), {"by": "Bram Ferro", "at": "25 Nov, 11:20"})
    presenter.do(deed(seen, "diagnosis", "code", ""), code | {"code": "C1777", "when": "after"})
    gone, new = titled(seen, "Fault codes").lines
    assert gone.beside == "before: stored at 128 402 km · after: gone · cleared by Bram Ferro, 25 Nov, 11:20"
    assert (gone.mark, new.mark, new.loud) == ("disc", "ring", True)
    assert "before: not there · after: new, stored" in new.beside


def test_the_report_of_the_scan_tool_lies_beside_the_codes_and_opens(there, tmp_path):
    presenter, seen = at_work(there)
    presenter.open_tab("diagnosis")
    (tmp_path / "scan 25 Nov.txt").write_bytes(b"every module, as the tool saved it")
    attach = deed(seen, "diagnosis", "report")
    presenter.do(attach, {"when": "before", "path": str(tmp_path / "scan 25 Nov.txt")})
    (line,) = titled(seen, "Fault codes").lines
    assert line.words == "Report: scan 25 Nov.txt"
    assert line.beside.startswith("before the work · SHA-256 ")
    presenter.do(line.deeds[0], {})
    assert seen.files == [("scan-25-Nov.txt", b"every module, as the tool saved it")]
    presenter.do(attach, {"when": "after", "path": str(tmp_path / "scan 25 Nov.txt")})
    presenter.do(attach, {"when": "after", "path": str(tmp_path / "nothing.txt")})
    assert "not kept twice" in seen.refusals[0]
    assert "could not be read" in seen.refusals[1]
