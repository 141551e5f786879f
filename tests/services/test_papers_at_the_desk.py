"""The arrival paper and the estimate through the services: what they say, and which copy they are."""

from dataclasses import replace

import pytest

from jobbook.core.desk.estimate import Terms
from jobbook.core.desk.handed_in import HandedIn
from jobbook.core.desk.permission import Change, Declined
from jobbook.core.errors import Conflict, Refused
from jobbook.services import papers
from jobbook.services.agreed import asking, estimate, permission
from jobbook.services.house.verifying import audit_book
from jobbook.services.job.release import release
from jobbook.services.office import desk
from jobbook.services.office.handed_in import keep_handed_in, of_job
from jobbook.services.office.intake import take_in
from jobbook.services.vehicle.vehicles import find_by_vin
from tests.paperwork.reading import close, on_paper
from tests.services.agreeing import DRAWN, LABOUR, PHONE, STRUT, agreed, give, line, settle
from tests.services.workshop import ARRIVAL, VIN


@pytest.fixture
def there(at):
    return at("taken in")


def printed(there, kind, job=0):
    return on_paper(papers.preview(there.book, job or there.job, kind))


def says(page, *texts):
    missing = [text for text in texts if close(text) not in page]
    assert not missing, f"not on the paper: {missing}"


def test_the_arrival_paper_says_what_was_handed_over_in_what_state_and_what_may_be_done(there):
    facts = replace(ARRIVAL, condition="Scratch on the tailgate", fuel="half", load="empty", brought_by="his son",
                    heights={"FL": "366", "FR": "399", "RL": "394", "RR": "395"}, odometer="128 500")  # fmt: skip
    there.job = take_in(there.book, there.jonas, replace(facts, vehicle=find_by_vin(there.book, VIN)))
    told = HandedIn("2", "child seat", "KX-11-LON, till Thursday", "level, yellow", "tow bar off")
    keep_handed_in(there.book, there.jonas, there.job, told)
    give(there, scope="diagnosis", what="Find the leak", total="200", reassembly="60", parts_back="see")
    says(
        printed(there, "arrival"), "Scratch on the tailgate", "his son", "128 500 km", "2", "child seat",
        "KX-11-LON, till Thursday", "level, yellow", "tow bar off", "Front left is down in the morning.", "366",
        "Find the leak", "200.00 EUR", "60.00 EUR, tax included", "wants to see the old parts",
        "Nothing is done beyond what is allowed here.", "name, date, signature",
    )  # fmt: skip


def test_the_arrival_paper_of_a_later_day_still_shows_the_heights_as_it_came(at):
    there = at("done")
    page = printed(there, "arrival")
    assert close("heights as it stood") in page.lower()
    assert close("after the road test") not in page


def test_what_was_handed_over_is_corrected_by_a_whole_entry_and_never_by_two_at_once(there):
    keep_handed_in(there.book, there.jonas, there.job, HandedIn("1"))
    first = of_job(there.book, there.job)
    keep_handed_in(there.book, there.jonas, there.job, replace(first, keys="2"))
    assert of_job(there.book, there.job).keys == "2"
    with pytest.raises(Conflict, match="somebody else"):
        keep_handed_in(there.book, there.jonas, there.job, replace(first, keys="3"))
    with pytest.raises(Refused, match="is an answer"):
        keep_handed_in(there.book, there.jonas, there.job, HandedIn())
    assert audit_book(there.book.folder).findings == ()


def test_the_estimate_says_parts_with_condition_labour_tax_validity_and_what_it_leaves_out(there):
    settle(there, profile="ontario")
    line(there, STRUT, condition="reconditioned")
    line(there, LABOUR)
    line(there, replace(LABOUR, words="Alignment"), price="")
    estimate.keep_terms(there.book, there.jonas, there.job, Terms("quotation", "2026-12-23", "seized bolts"))
    page = printed(there, "estimate")
    says(
        page, "Quotation", "Air strut FL", "AS-4471-L · reconditioned", "3.5 h", "92.00", "700.00", "322.00",
        "Before tax 1 022.00", "Tax at 20 % 204.40", "1 226.40 EUR", "1 of the lines has no price yet",
        "not known yet", "23 Dec 2026", "seized bolts", "does not exceed this estimate by more than 10 %",
    )  # fmt: skip


def test_what_was_declined_or_struck_is_not_in_the_sum_and_still_on_the_paper(there):
    kept = line(there, STRUT)
    estimate.change_state(there.book, there.bram, there.job, line(there, LABOUR), "declined")
    page = printed(there, "estimate")
    says(page, "840.00 EUR", "Declined or struck: not in the sum", "Strut FL renewed")
    with pytest.raises(Conflict, match="somebody else changed line 1"):
        estimate.keep_line(there.book, there.jonas, there.job, replace(kept, entry=kept.entry - 1))


def test_an_estimate_for_two_payers_says_what_each_pays(there):
    line(there, STRUT, payer="Tideway Cover")
    line(there, LABOUR)
    says(printed(there, "estimate"), "of it Tideway Cover pays 840.00", "of it the customer pays 386.40")


def test_a_signature_that_was_drawn_prints_under_the_words_that_were_signed(there):
    of = give(there, how="signed on the screen")
    text = permission.text_to_sign(there.book, there.job, of)
    permission.sign(there.book, there.jonas, there.job, of, text, DRAWN, "Ansel Harrow")
    for kind in ("arrival", "estimate"):
        page = printed(there, kind)
        says(page, text, agreed(there).signature_of(of).signed.digest)
        assert close("name, date, signature") not in page


def test_a_withdrawn_permission_stands_on_the_paper_as_withdrawn(there):
    of = give(there)
    told = Change(of, "withdrawn", "Ansel Harrow", "by telephone", there.book.now(), PHONE, "sells it")
    permission.change_permission(there.book, there.jonas, there.job, told)
    says(printed(there, "estimate"), "withdrawn", "by Ansel Harrow: sells it")


def test_case_44_a_declined_alignment_is_on_the_customers_papers_with_what_may_come_of_it(at):
    there = at("done")
    told = Declined("alignment", "", "", "Ansel Harrow", "by telephone", there.book.now(), PHONE)
    asking.keep_declined(there.book, there.jonas, there.job, told)
    release(there.book, there.imke, there.job, "128 417", "km")
    for kind in ("estimate", "handover", "evidence"):
        page = printed(there, kind)
        says(page, "Wheel alignment after work on the suspension", "declined", "Tyres may wear unevenly")
    says(printed(there, "handover"), "The wheels were not aligned after work on the suspension.")


def test_case_49_the_handover_says_why_the_old_part_is_not_given_back(at):
    there = at("lower bolt")
    give(there, parts_back="back", parts_kept="the strut goes back under warranty; can be seen, not kept")
    says(printed(there, "handover"), "wants the old parts back; the strut goes back under warranty")


def test_cases_82_and_83_an_estimate_that_changed_is_a_new_version_and_the_first_stays_as_it_left(there):
    kept = line(there, STRUT)
    first = papers.issue(there.book, there.jonas, there.job, "estimate")
    before = papers.paper_path(there.book, first).read_bytes()
    estimate.keep_line(there.book, there.jonas, there.job, replace(kept, price="720"))
    second = papers.issue(there.book, there.jonas, there.job, "estimate")
    assert (first.version, second.version) == (1, 2)
    says(on_paper(papers.paper_path(there.book, second).read_bytes()), "864.00 EUR", "replaces version 1 of 2026-11-25")
    assert papers.paper_path(there.book, first).read_bytes() == before
    says(on_paper(before), "840.00 EUR")
    assert audit_book(there.book.folder).findings == ()


def test_terms_that_are_over_or_named_by_no_word_of_the_trade_are_refused(there):
    for terms, said in (
        (Terms("guess"), "the paper is called"),
        (Terms("estimate", "2020-01-01"), "over already"),
        (Terms("estimate", "soon"), "is not a day"),
    ):
        with pytest.raises(Refused, match=said):
            estimate.keep_terms(there.book, there.jonas, there.job, terms)
    assert agreed(there).terms.entry == 0


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"kind": "gift"}, "a part, labour"),
        ({"words": " "}, "say what it is"),
        ({"condition": "shiny"}, "in which condition"),
        ({"price": "1.234"}, "two ways"),
        ({"price": "-5"}, "takes something off"),
        ({"quantity": "0"}, "the quantity"),
        ({"quantity": "two"}, "cannot be read"),
        ({"tax": "101"}, "the tax"),
        ({"state": "paid"}, "a part, labour"),
    ],
)
def test_a_line_that_cannot_be_read_for_certain_is_not_kept(there, changes, said):
    with pytest.raises(Refused, match=said):
        line(there, STRUT, **changes)
    assert agreed(there).lines == ()
    assert line(there, STRUT, kind="other", price="-5", words="Goodwill").price == "-5.00"


def test_an_estimate_for_a_long_concern_is_headed_by_the_vehicle(there):
    desk.concern(there.book, there.bram, there.job, 1, words="It sinks, and " * 30)
    says(printed(there, "estimate"), "Estimate: Varnholt estate")
