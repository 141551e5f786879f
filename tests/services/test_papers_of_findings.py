"""What papers say of findings and their answers, of the price beyond what was allowed, and of reaching the customer."""

import pytest

from jobbook.core.desk.answers_to_findings import FindingAnswered
from jobbook.core.desk.permission import Contact, Declined, Overrun
from jobbook.core.measured.diagnosis import Finding
from jobbook.services import papers
from jobbook.services.agreed import asking, permission
from jobbook.services.job.release import release
from jobbook.services.measured.findings import correct_finding, keep_finding
from tests.paperwork.reading import close, on_paper
from tests.services.agreeing import LABOUR, PHONE, STRUT, give, line

BUSH = Finding("Lower arm bush cracked", "to be put right soon", corner="RL")


@pytest.fixture
def there(at):
    return at("taken in")


def printed(there, kind):
    return on_paper(papers.preview(there.book, there.job, kind))


def says(page, *texts):
    missing = [text for text in texts if close(text) not in page]
    assert not missing, f"not on the paper: {missing}"


def find(there, *words, severity=BUSH.severity, needs=True):
    return [keep_finding(there.book, there.bram, there.job, Finding(w, severity, 0, needs)).entry for w in words]


def answer(there, finding, said, why):
    told = FindingAnswered(finding, said, why, "Ansel Harrow", "by telephone", there.book.now())
    asking.keep_answer(there.book, there.jonas, there.job, told)


def test_every_finding_prints_with_what_became_of_it(there):
    told, covered, right, none, allowed, declined, _ = find(
        there, "One", "Two", "Three", "Four", "Five", "Six", "Seven"
    )
    find(there, "Eight", severity="to be watched", needs=False)
    give(there)
    answer(there, told, "told", "after the holidays")
    answer(there, covered, "covered", "comes off with the strut")
    answer(there, right, "put right", "tightened, 70 N·m")
    answer(there, none, "withdrawn", "washing water")
    give(there, finding=str(allowed))
    said = Declined("finding", "", "", "Ansel Harrow", "by telephone", there.book.now(), PHONE, declined)
    asking.keep_declined(there.book, there.jonas, there.job, said)
    for kind in ("handover", "evidence"):
        says(
            printed(there, kind), "What was found", "told to Ansel Harrow, by telephone", "after the holidays",
            "done under another permission: comes off with the strut", "tightened, 70 N·m", "no finding after all",
            "washing water", "allowed: Ansel Harrow", "declined: Ansel Harrow", "nobody was asked",
            "told with this paper",
        )  # fmt: skip


def test_a_corrected_finding_prints_both_wordings(there):
    (first,) = find(there, "Hose wet with oil")
    now = Finding("Hose wet with water", "to be watched")
    correct_finding(there.book, there.bram, there.job, first, now, "looked again dry")
    says(printed(there, "evidence"), "Hose wet with oil (to be put right soon)", "Hose wet with water (to be watched)")


def test_what_is_unsafe_is_called_out_at_the_head_of_the_handover_until_it_was_put_right(there):
    (hose,) = find(there, "Brake hose chafed to its cords", severity="unsafe to drive")
    says(printed(there, "handover"), "Not safe to drive: Brake hose chafed to its cords")
    answer(there, hose, "put right", "new hose, bled")
    assert close("Not safe to drive") not in printed(there, "handover")


def test_case_47_attempts_and_a_higher_price_print_with_their_times(there):
    give(there)
    over = Overrun("2026-11-25T09:00:00+01:00", "1 990.00", "both plates are corroded")
    entry = asking.keep_overrun(there.book, there.jonas, there.job, over)
    tried = Contact(there.book.now(), "by telephone", PHONE, "no answer", about=entry)
    asking.keep_contact(there.book, there.jonas, there.job, tried)
    page = printed(there, "handover")
    says(
        page,
        "about 1 990.00 EUR, known since 25 Nov 2026 09:00: both plates are corroded",
        "not reached, tried once",
    )
    says(page, "Reaching the customer", "no answer", "Jonas Wexley")
    assert close(PHONE) not in page[page.index(close("Reaching the customer")) :]
    told = Contact(there.book.now(), "by telephone", PHONE, "reached", "then leave the plates", entry)
    asking.keep_contact(there.book, there.jonas, there.job, told)
    says(printed(there, "handover"), "the customer was told", "then leave the plates")


def test_case_48_a_price_above_permission_prints_with_the_owners_reason(there):
    give(there, total="700.00")
    for one in (STRUT, LABOUR):
        line(there, one)
    release(there.book, there.imke, there.job, "128 411", "km", let_go_reason="plates at our cost")
    says(
        printed(there, "handover"), "Allowed 700.00 EUR, tax included; nothing over it without asking",
        "It comes to 1 226.40 EUR", "1 226.40 EUR in the lines, 700.00 allowed", "Let go by Imke Tolland",
        "plates at our cost",
    )  # fmt: skip


def test_a_payer_reads_what_they_allowed_and_nothing_of_what_the_customer_pays_or_said(there):
    give(there)
    permission.ask_authority(there.book, there.jonas, there.job, "Tideway Cover")
    give(there, scope="authority", authority="TC-1", total="600.00", what="The strut")
    line(there, STRUT, payer="Tideway Cover")
    line(there, LABOUR)
    told = Contact(there.book.now(), "by telephone", PHONE, "reached", "I am short of money")
    asking.keep_contact(there.book, there.jonas, there.job, told)
    page = printed(there, "evidence")
    says(
        page,
        "The payer allowed 600.00 EUR",
        "Tideway Cover pays 840.00 EUR",
        "and allowed 600.00",
        "by telephone, reached",
    )
    assert close("386.40") not in page
    assert close("short of money") not in page
