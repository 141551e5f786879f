"""The presenter of the job page, on a real book and without a window."""

import subprocess
import sys
from pathlib import Path

import pytest

from jobbook.core.errors import NotFound
from jobbook.core.work.model import Act
from jobbook.services.jobsheet import job_sheet
from jobbook.services.methods import get_method
from jobbook.services.opened import open_book
from jobbook.services.papers import papers
from jobbook.services.sheets import Choice
from jobbook.ui.jobs.job_presenter import JobPresenter
from jobbook.ui.jobs.signing import SECRET, SIGNER
from jobbook.ui.jobs.tabs.records import Deed
from tests.ui.jobs import strut_book
from tests.ui.jobs.strut_book import BADGE, FIGURES, METHOD, PINS, SOURCE, Strut

SIGNED_BY_BRAM = {SIGNER: "bf", SECRET: PINS["bf"]}
TAKEN_IN = {"corner": "FL", "option link_on_strut": "yes", "option keeps_pressure": "no", "option battery_off": "no"}


class Seen:
    """Keeps what it was shown."""

    def __init__(self):
        self.sheet = self.methods = self.lack = None
        self.tabs, self.refusals, self.words, self.files = {}, [], [], []

    def show_sheet(self, sheet, signers):
        self.sheet, self.signers = sheet, signers

    def show_tab(self, key, tab, signers):
        self.tabs[key] = tab

    def show_methods(self, cards):
        self.methods = cards

    def show_lacking(self, lack):
        self.lack = lack

    def open_preview(self, name, content):
        self.files.append((name, content))

    def open_path(self, path):
        self.files.append((path.name, path.read_bytes() if path.is_file() else b""))

    def refuse(self, sentence):
        self.refusals.append(sentence)

    def kept(self, words):
        self.words.append(words)


@pytest.fixture
def there(tmp_path) -> Strut:
    made = strut_book.strut(tmp_path / "book")
    yield made
    made.book.close()


def at_work(there: Strut, lanes=None) -> tuple[JobPresenter, Seen]:
    seen = Seen()
    presenter = JobPresenter(there.setting(lanes), seen)
    presenter.open(there.job)
    return presenter, seen


def main(seen: Seen) -> Choice:
    return next(choice for choice in seen.sheet.card.choices if choice.main)


def deed(seen: Seen, tab: str, key: str, of: str | None = None) -> Deed:
    blocks = seen.tabs[tab].blocks
    deeds = [d for b in blocks for d in (*b.deeds, *(d for line in b.lines for d in line.deeds))]
    return next(d for d in deeds if d.key == key and of in (None, d.of))


def test_it_works_where_no_window_can_be():
    probe = (
        "import sys; sys.modules['PySide6'] = None; import jobbook.ui.jobs.job_presenter, jobbook.ui.jobs.tabs.of_job"
    )
    root = Path(__file__).parents[3]
    done = subprocess.run([sys.executable, "-c", probe], cwd=root, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


def test_a_job_that_is_not_in_the_book_is_not_found(there):
    with pytest.raises(NotFound):
        JobPresenter(there.setting(), Seen()).open(99)


def test_a_method_is_begun_with_its_corner_and_options(there):
    strut_book.allowed(there)
    presenter, seen = at_work(there)
    presenter.ask_to_begin()
    assert METHOD in [card.key for card in seen.methods]
    presenter.begin(get_method(METHOD), TAKEN_IN)
    assert seen.refusals == []
    assert (seen.sheet.card.step.number, seen.sheet.card.step.corner) == (1, "FL")


def test_figures_that_are_missing_are_asked_for_and_kept_with_their_source(there):
    strut_book.allowed(there)
    presenter, seen = at_work(there)
    presenter.begin(get_method(METHOD), TAKEN_IN)
    asked = [key for key, _, _ in seen.lack.figures]
    assert set(asked) == set(FIGURES)  # the holding pressure was answered with no, so it is not asked for
    presenter.enter_figures(seen.lack, {**dict.fromkeys(asked, ""), "wheel_torque": FIGURES["wheel_torque"], **SOURCE})
    assert seen.refusals == []
    assert "wheel_torque" not in [key for key, _, _ in seen.lack.figures]


def test_without_a_figure_nothing_is_kept_and_it_says_so(there):
    strut_book.allowed(there)
    presenter, seen = at_work(there)
    presenter.begin(get_method(METHOD), TAKEN_IN)
    presenter.enter_figures(seen.lack, {**{key: " " for key, _, _ in seen.lack.figures}, **SOURCE})
    assert seen.refusals == ["No figure was kept: none was typed."]


def test_after_an_act_the_next_step_opens(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.choose(main(seen), {})
    assert seen.sheet.card.step.number == 2
    assert seen.sheet.steps[0].mark == "disc"
    assert seen.words


def test_a_refusal_becomes_the_sentence_and_the_step_stays_open(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.open_step(0, 2)
    presenter.choose(main(seen), {"heights FL": "4000", "temperature": ""})
    assert "4000" in seen.refusals[0]
    assert seen.sheet.card.step.number == 2


def test_nobody_on_duty_keeps_nothing(there):
    presenter, seen = at_work(strut_book.begun(there))
    there.duty.person = None
    presenter.choose(main(seen), {})
    assert "Nobody is on duty" in seen.refusals[0]
    assert len(seen.sheet.unsigned) == len(job_sheet(there.book, there.job).unsigned)


def test_a_wrong_pin_signs_nothing_and_the_right_one_does(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.choose(main(seen), {})
    presenter.sign({SIGNER: "bf", SECRET: "9999"})
    assert "not the PIN of Bram Ferro" in seen.refusals[0]
    assert len(seen.sheet.unsigned) == 1
    presenter.sign(SIGNED_BY_BRAM)
    assert len(seen.refusals) == 1
    assert seen.sheet.unsigned == ()


def test_nobody_signs_for_another(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.choose(main(seen), {})
    presenter.sign({SIGNER: "nop", SECRET: PINS["nop"]})
    assert "nobody signs for another" in seen.refusals[0]


def test_a_badge_says_by_itself_whose_it_is(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.choose(main(seen), {})
    there.duty.person = there.people["nop"]
    presenter.choose(next(c for c in seen.sheet.card.choices if c.key == "not-done"), {"answer": "not possible"})
    presenter.sign({SIGNER: "bf", SECRET: BADGE})
    assert seen.refusals == []
    assert [act.by for act in seen.sheet.unsigned] == ["Bram Ferro"]


def test_what_is_not_signed_is_undone_plainly(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.choose(main(seen), {})
    presenter.undo(seen.sheet.unsigned[-1].act_id)
    assert seen.sheet.steps[0].mark == "ring"


def test_a_signed_act_is_corrected_beside_what_was_and_both_can_be_read(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.open_step(0, 2)
    read = {f"heights {corner}": value for corner, value in zip(("FL", "FR", "RL", "RR"), "3456", strict=True)}
    presenter.choose(main(seen), {corner: f"39{value}" for corner, value in read.items()} | {"temperature": ""})
    presenter.sign(SIGNED_BY_BRAM)
    presenter.open_step(0, 2)
    done = seen.sheet.card.done[0]
    changed = {"heights FL": "366", "heights FR": "394", "heights RL": "395", "heights RR": "396"}
    presenter.correct(done.entry, {**changed, "temperature": "", "reason": "Read upside down", **SIGNED_BY_BRAM})
    assert seen.refusals == []
    presenter.open_step(0, 2)
    corrected = seen.sheet.card.done[0]
    assert corrected.words.startswith("FL 366")
    assert corrected.corrected.startswith("FL 393")


def test_what_a_rule_refuses_is_kept_as_happened_with_its_reason(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.open_step(0, 10)  # the sensor link is taken out on the lift only, and it still stands on its wheels
    blocked = seen.sheet.card.blocked[0]
    presenter.keep_as_happened(blocked.choice, {"reason": "Done in the yard before it was driven in"})
    assert seen.refusals == []
    assert next(step for step in seen.sheet.steps if step.number == 10).mark == "disc"


def test_allowing_beforehand_needs_the_permission_to_allow(there):
    presenter, seen = at_work(strut_book.begun(there))
    presenter.allow("levelling-woken", {"reason": "Lift must move", SIGNER: "nop", SECRET: PINS["nop"]})
    assert "no permission" in seen.refusals[0]


def test_a_wait_counts_on_after_the_book_was_closed(there, tmp_path):
    presenter, seen = at_work(strut_book.begun(there))
    wait = next(step for step in seen.sheet.steps if step.title.startswith("Wait"))
    presenter.open_step(wait.begun, wait.number)
    begin = next(choice for choice in seen.sheet.card.choices if choice.key == "wait-begun")
    presenter.choose(begin, {})
    assert seen.refusals == []
    until = job_sheet(there.book, there.job, (wait.begun, wait.number)).card.waits_until
    assert until > there.book.now()
    there.book.close()
    there.book = open_book(tmp_path / "book", clock=there.clock)
    assert job_sheet(there.book, there.job, (wait.begun, wait.number)).card.waits_until == until


def test_a_second_press_while_the_first_is_under_way_does_nothing(there):
    class Held:
        def __init__(self):
            self.work = []

        def keep(self, work, done, refused):
            self.work.append((work, done))

    lanes = Held()
    presenter, seen = at_work(strut_book.begun(there), lanes)
    presenter.choose(main(seen), {})
    presenter.choose(main(seen), {})
    assert len(lanes.work) == 1
    work, done = lanes.work[0]
    done(work())
    assert seen.sheet.card.step.number == 2


def test_a_concern_and_a_reading_are_added_to_the_arrival(there):
    presenter, seen = at_work(there)
    presenter.open_tab("arrival")
    presenter.do(deed(seen, "arrival", "concern"), {"words": "It also squeaks."})
    presenter.do(deed(seen, "arrival", "odometer"), {"value": "128 400", "unit": "km", "what": "test", "note": ""})
    assert "less than" in seen.refusals[0]
    presenter.do(deed(seen, "arrival", "odometer"), {"value": "128 414", "unit": "km", "what": "test", "note": ""})
    lines = [line.words for block in seen.tabs["arrival"].blocks for line in block.lines]
    assert "“It also squeaks.”" in lines
    assert "128\u202f414 km" in lines


def test_a_test_that_was_not_done_needs_its_reason_and_never_looks_done(there):
    presenter, seen = at_work(there)
    presenter.open_tab("diagnosis")
    asked = deed(seen, "diagnosis", "test", "Leak-down stand")
    presenter.do(asked, {"answer": "not possible", "result": "", "reason": ""})
    assert "needs its reason" in seen.refusals[0]
    presenter.do(asked, {"answer": "not possible", "result": "", "reason": "Recovered with no air"})
    line = next(line for line in seen.tabs["diagnosis"].blocks[0].lines if line.words == "Leak-down stand")
    assert line.mark == "bar"
    assert "Recovered with no air" in line.beside


def test_codes_are_kept_as_shown_and_a_module_without_one_says_none_stored(there):
    presenter, seen = at_work(there)
    presenter.open_tab("diagnosis")
    code = {"module": "Levelling", "when": "before", "code": "C1A20", "status": "stored", "text": "", "odometer": ""}
    presenter.do(deed(seen, "diagnosis", "code", ""), code | {"cleared": ""})
    presenter.do(deed(seen, "diagnosis", "code", "none"), {"module": "Brakes", "when": "before"})
    lines = [line.words for line in seen.tabs["diagnosis"].blocks[1].lines]
    assert sorted(lines) == ["Brakes: read, none stored", "Levelling: C1A20"]


def test_cause_and_correction_stand_beside_their_concern(there):
    presenter, seen = at_work(there)
    presenter.open_tab("diagnosis")
    said = {"cause": "Strut FL, lower fold, bubbles", "confidence": "proved", "correction": ""}
    presenter.do(deed(seen, "diagnosis", "cause", "1"), said)
    line = seen.tabs["diagnosis"].blocks[2].lines[0]
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
    assert "limit 1480.00 EUR" in seen.tabs["permission"].blocks[0].lines[0].beside
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
    assert "count from 1" in seen.refusals[0]
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


def test_acts_of_the_sheet_are_what_the_rules_know(there):
    _, seen = at_work(strut_book.begun(there))
    assert all(isinstance(choice.act, Act) for choice in seen.sheet.card.choices)
