"""Papers as they leave: what they say, which copy they are, and that nothing a person typed breaks them."""

import json
from dataclasses import replace

import pytest

from jobbook.core.errors import Conflict, NotFound, Refused, StoreUnavailable
from jobbook.core.record.journal import Draft
from jobbook.core.record.pack import read_pack
from jobbook.paperwork.attached import attachment
from jobbook.services import papers, work
from jobbook.services.house import people, shop
from jobbook.services.house.verifying import audit_book
from jobbook.services.job.release import release
from jobbook.services.office import desk
from jobbook.services.office.intake import take_in
from jobbook.services.papers import leaving
from jobbook.services.vehicle.vehicles import find_by_vin
from tests.paperwork.reading import close, on_paper
from tests.services.workshop import ARRIVAL, CUSTOMER, TOOLS, VIN


def out(there, **more):
    release(there.book, there.imke, there.job, "128 417", "km", **more)
    return there


def issued(there, kind, who=None):
    paper = papers.issue(there.book, who or there.jonas, there.job, kind)
    return paper, papers.paper_path(there.book, paper).read_bytes()


def says(pdf, *texts):
    page = on_paper(pdf)
    missing = [text for text in texts if close(text) not in page]
    assert not missing, f"not on the paper: {missing}"


def test_the_handover_says_what_was_said_found_done_and_shown(at):
    there = at("done")
    desk.concern(
        there.book, there.bram, there.job, 1, cause="Sleeve leaks.", confidence="proved", correction="Renewed."
    )
    _, pdf = issued(out(there), "handover")
    says(
        pdf, "Saltmarsh Lane Suspension", CUSTOMER.name, VIN, "128 410 km", "128 417 km",
        "Front left is down in the morning.", "Sleeve leaks.", "Renewed.", "AS-4471-L", "7H-20611", "Air strut",
        "Strut top mount nuts FL", "35 N·m", "at ride height", "Bram Ferro", "Nadia Oyelaran-Pike", "Imke Tolland",
        "401", "402", "100 km", "9 Dec 2026", "12 months.", there.book.store.book_id,
    )  # fmt: skip


def test_the_evidence_says_what_the_warranty_desk_asks(at):
    there = at("done")
    desk.add_test(there.book, there.bram, there.job, "Soap test", "done", "bubbles at the lower roll")
    desk.add_test(there.book, there.bram, there.job, "Second strut", "declined", reason="one side only, told why")
    _, pdf = issued(out(there), "evidence")
    says(
        pdf, VIN, "AS-4471-L", "7H-20611", "Quillhaven Spring Supply", "bubbles at the lower roll",
        "one side only, told why", "declined", "maker's sheet VH-SUS-12", "3, 2024", "TW-04", "QC-26-0612", "26-11",
        "clicked at 35 N·m", "N. Oyelaran-Pike", "Level control", "3 of 3",
    )  # fmt: skip


def test_the_evidence_carries_the_entries_of_its_job_with_proofs_that_hold(at):
    there = out(at("done"))
    _, pdf = issued(there, "evidence")
    inside = attachment(pdf, "entries.json")
    pack = read_pack(inside)
    assert pack.findings == ()
    assert pack.book == there.book.store.book_id
    with there.book.store.read() as reading:
        mine = reading.journal.entries(job=there.job)
    kinds = [json.loads(one.body)["kind"] for one in pack.entries]
    assert kinds == [entry.kind for entry in mine if entry.number <= pack.head.size]


def test_the_next_failure_shows_the_part_as_it_was_fitted_and_as_it_failed(at):
    there = out(at("done"))
    known = find_by_vin(there.book, VIN)
    there.clock.now = there.clock.now.replace(year=2027)
    there.job = take_in(there.book, there.jonas, replace(ARRIVAL, vehicle=known, odometer="140 417"))
    desk.give_permission(there.book, there.jonas, there.job, replace(_repair(there), total="900.00"))
    work.begin_method(there.book, there.bram, there.job, "front-air-strut-renew-one-corner", "FL", _options())
    pdf = papers.preview(there.book, there.job, "evidence")
    says(pdf, "job 1", "7H-20611", "365 days, 12 000 km", "128 417 km", "140 417 km")


def _repair(there):
    return desk.permissions(there.book, 1)[0]


def _options():
    return {"link_on_strut": True, "keeps_pressure": False, "battery_off": False}


def test_an_older_jobs_paper_keeps_to_its_own_readings(at):
    there = out(at("done"))
    known = find_by_vin(there.book, VIN)
    there.clock.now = there.clock.now.replace(year=2027)
    take_in(there.book, there.jonas, replace(ARRIVAL, vehicle=known, odometer="140 417"))
    page = on_paper(papers.preview(there.book, 1, "handover"))
    assert close("128 417 km") in page
    assert close("140 417 km") not in page


def test_a_preview_is_marked_and_nothing_is_kept(at):
    there = at("lower bolt")
    pdf = papers.preview(there.book, there.job, "handover")
    says(pdf, "preview", "work in hand")
    assert papers.papers(there.book, there.job) == ()


def test_a_paper_after_a_correction_is_a_new_version_that_names_the_one_it_replaces(at):
    """Nasty cases 29 and 83 of the trade notes."""
    there = at("done")
    step = there.step_of("tighten", "strut_top_nuts")
    entry = there.card(step).done[0].entry
    first, old = issued(out(there), "evidence")
    work.correct(there.book, there.bram, entry, {"tool": "TW-07"}, "took the other wrench")
    release(there.book, there.imke, there.job, "128 417", "km")
    second, new = issued(there, "evidence")
    assert (first.version, second.version) == (1, 2)
    says(new, "took the other wrench", "version 1", "TW-07")
    assert papers.paper_path(there.book, first).read_bytes() == old
    assert [paper.version for paper in papers.papers(there.book, there.job)] == [1, 2]


def test_a_corrected_value_prints_beside_the_one_it_replaced(at):
    there = at("top nuts")
    kept = there.do("shown", tool="EW-01", reached="33 N·m")
    work.correct(there.book, there.bram, kept.entry, {"reached": "35 N·m"}, "typing slip")
    says(papers.preview(there.book, there.job, "handover"), "33 N·m", "35 N·m", "typing slip")


def test_what_was_let_go_allowed_and_restricted_prints_with_who_and_why(at):
    there = at("top nuts")
    shop.keep_tool(there.book, there.imke, replace(TOOLS[1], due_on="2026-11-24"))
    work.allow(there.book, there.imke, there.job, "wrong-tool", "the other wrench is away")
    there.do(tool="TW-04")
    end = next(end for end in there.sheet().still_to_do if end.rule == "not-driven")
    work.let_go(there.book, there.imke, there.job, end, "no plates on it")
    out(there, let_go_reason="towed away", restriction="not to be driven")
    says(
        papers.preview(there.book, there.job, "handover"), "not to be driven", "towed away", "Imke Tolland",
        "Allowed beforehand: wrong tool", "the other wrench is away", "Road test after the work.", "no plates on it",
    )  # fmt: skip
    says(papers.preview(there.book, there.job, "evidence"), "calibration of TW-04 ended on 24 Nov 2026")


def test_the_same_loose_end_is_printed_once(at):
    there = at("top nuts")
    out(there, let_go_reason="towed away", restriction="not to be driven")
    page = on_paper(papers.preview(there.book, there.job, "handover"))
    assert page.count(close("Road test after the work.")) == 1


ODD = {
    "markup": ("<b>bold</b> & <para> &amp; <script>", "<b>bold</b>&<para>&amp;<script>", 1),
    "long": ("morning " * 625, "morning", 625),
    "unbroken": ("x" * 5000, "x", 5000),
    "right to left": ("דופק", "[U+05D3U+05D5U+05E4U+05E7]", 1),
    "emoji": ("sinks 🚗💨 at night", "sinks[U+1F697U+1F4A8]atnight", 1),
    "percent": ("100 % {0} %s \\n", "100%{0}%s\\n", 1),
}


@pytest.mark.parametrize("odd", ODD)
@pytest.mark.parametrize("kind", ["handover", "evidence"])
def test_whatever_was_typed_stands_on_the_paper_and_breaks_nothing(at, odd, kind):
    there = at("taken in")
    text, piece, times = ODD[odd]
    desk.concern(there.book, there.bram, there.job, 1, words=text, cause=text, confidence="proved")
    page = on_paper(papers.preview(there.book, there.job, kind))
    assert page.count(piece) >= 2 * times


def test_a_long_concern_is_no_heading(at):
    there = at("taken in")
    says(papers.preview(there.book, there.job, "handover"), "Front left is down in the morning: work in hand")
    desk.concern(there.book, there.bram, there.job, 1, words="It sinks, and " * 30)
    says(papers.preview(there.book, there.job, "handover"), "Job 1: work in hand")


def test_a_customer_who_was_forgotten_prints_as_erased_and_the_audit_stays_sound(at):
    there = out(at("done"))
    _, pdf = issued(there, "handover")
    says(pdf, CUSTOMER.name)
    with there.book.store.write(there.imke.id) as tx:
        (entry,) = [e for e in tx.journal.entries(kind="customer/1") if e.payload["customer"] == 1]
        seals = [entry.payload[key] for key in ("name", "address", "phone") if entry.payload[key]]
        tx.keep(Draft("erased/1", "book", {"commitments": seals, "reason": "asked for"}, reason="asked for"))
    page = on_paper(papers.preview(there.book, there.job, "handover"))
    assert "(erased)" in page
    assert close(CUSTOMER.name) not in page
    there.book.close()
    assert audit_book(str(there.book.folder)).findings == ()
    there.open_again()


@pytest.mark.parametrize("kind", ["invoice", "../evil", ""])
def test_a_paper_that_is_none_is_said_so(at, kind):
    there = at("taken in")
    for deed in (
        lambda: papers.preview(there.book, there.job, kind),
        lambda: papers.issue(there.book, there.jonas, there.job, kind),
    ):
        with pytest.raises(
            Refused, match=r"There is no paper “.*”: choose arrival or .* or evidence; nothing was printed"
        ):
            deed()


def test_a_job_that_is_not_there_has_no_paper(at):
    there = at("taken in")
    with pytest.raises(NotFound, match="no job 99"):
        papers.preview(there.book, 99, "handover")
    with pytest.raises(NotFound, match="no job 99"):
        papers.issue(there.book, there.jonas, 99, "handover")


def test_a_paper_that_somebody_else_issued_meanwhile_is_looked_at_first(at):
    there, other = at("taken in"), []

    def issue_first():
        if not other:
            other.append(there.another())
            papers.issue(other[0], there.imke, there.job, "handover")
        return there.clock()

    with pytest.raises(Conflict, match="somebody else issued this paper"):
        papers.issue(replace(there.book, clock=issue_first), there.jonas, there.job, "handover")
    assert len(papers.papers(there.book, there.job)) == 1


def test_papers_are_written_whole_into_a_folder(at, tmp_path):
    there = at("taken in")
    preview = papers.print_to(there.book, there.job, "handover", tmp_path / "new" / "folder")
    assert preview.name == "handover-1-preview.pdf"
    kept = papers.print_to(there.book, there.job, "handover", tmp_path / "new", issuing=True, by=there.jonas.id)
    paper = papers.papers(there.book, there.job)[0]
    assert kept.read_bytes() == papers.paper_path(there.book, paper).read_bytes()
    assert paper.issued_by == there.jonas.id
    assert sorted(file.name for file in (tmp_path / "new").iterdir()) == ["folder", "handover-1.pdf"]


def test_a_paper_that_nobody_is_named_for_is_issued_by_who_released_the_job(at, tmp_path):
    there = out(at("done"))
    papers.print_to(there.book, there.job, "handover", tmp_path, issuing=True)
    assert papers.papers(there.book, there.job)[0].issued_by == there.imke.id
    with pytest.raises(Refused, match="Bram Ferro has no permission"):
        papers.print_to(there.book, there.job, "handover", tmp_path, issuing=True, by=there.bram.id)
    with pytest.raises(NotFound, match="no person “xx”"):
        papers.print_to(there.book, there.job, "handover", tmp_path, issuing=True, by="xx")


def test_where_the_folder_cannot_be_written_nothing_leaves(at, tmp_path):
    there = at("taken in")
    (tmp_path / "file").write_text("no folder")
    with pytest.raises(OSError, match=r"File exists|Not a directory"):
        papers.print_to(there.book, there.job, "handover", tmp_path / "file", issuing=True)
    assert papers.papers(there.book, there.job) == ()


def test_a_paper_that_was_issued_but_not_written_is_said_to_be_in_the_book(at, tmp_path):
    there = at("taken in")
    (tmp_path / "handover-1.pdf").mkdir()
    with pytest.raises(StoreUnavailable, match="was issued and is kept in the book, but nothing of it in"):
        papers.print_to(there.book, there.job, "handover", tmp_path, issuing=True)
    assert [file.name for file in tmp_path.iterdir() if file.name != "book"] == ["handover-1.pdf"]
    assert len(papers.papers(there.book, there.job)) == 1


def test_a_paper_that_is_gone_from_the_folder_is_said_so(at):
    there = at("taken in")
    paper, _ = issued(there, "handover")
    papers.paper_path(there.book, paper).unlink()
    with pytest.raises(NotFound, match="not in the book's folder any more; run the audit"):
        papers.paper_path(there.book, paper)


def test_where_nobody_may_issue_papers_it_is_said_so(at, tmp_path):
    there = at("taken in")
    for person in people.all_people(there.book):
        left = person.permissions - set(leaving.MAY_ISSUE)
        people.change_person(there.book, there.imke, replace(person, permissions=left))
    with pytest.raises(Refused, match="nobody who works here may issue papers"):
        papers.print_to(there.book, there.job, "handover", tmp_path, issuing=True)
