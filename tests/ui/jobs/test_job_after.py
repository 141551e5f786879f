"""After the release the job shows its visits: who tried to reach the customer, and what came of each."""

from jobbook.core.record.journal import Draft
from jobbook.services.office.calls import keep_tried
from jobbook.services.office.visits import Outcome, close_visit
from jobbook.services.office.waits import hold
from jobbook.ui.jobs.tabs import after


def visit(book, imke, job, what="Wheel joints tightened once more"):
    facts = {"job": job, "what": what, "due_on": "2026-12-09", "due_at": "100 km"}
    with book.store.write(imke.id) as tx:
        return tx.keep(Draft("reminder/1", f"job/{job}", facts, job=job)).number


def test_a_job_without_visits_shows_nothing_of_them(book, strut_job):
    assert after.blocks(book, strut_job) == ()


def test_a_visit_stands_with_its_attempts_and_its_outcome(book, imke, strut_job):
    number = visit(book, imke, strut_job)
    ((line,),) = [block.lines for block in after.blocks(book, strut_job)]
    assert (line.words, line.mark) == ("Wheel joints tightened once more: not yet", "ring")
    assert line.beside == "due 9 Dec 2026 or after 100 km"
    keep_tried(book, imke, f"reminder/{number}", "by telephone", "no answer", "rang twice", strut_job)
    close_visit(book, imke, number, Outcome("did not come", "Moved away."))
    (block,) = after.blocks(book, strut_job)
    closed, tried = block.lines
    assert (closed.words, closed.mark) == ("Wheel joints tightened once more: the customer did not come", "bar")
    assert closed.beside == "due 9 Dec 2026 or after 100 km · Moved away. · kept by Imke Tolland"
    assert (tried.words, tried.beside) == ("Tried by telephone: no answer", "rang twice · by Imke Tolland")


def test_a_visit_here_names_its_tool_and_each_wheel(book, imke, strut_job, wrench):
    done = Outcome("done here", tool="TW-02", told={"RL": "9"})
    close_visit(book, imke, visit(book, imke, strut_job), done)
    ((line, wheel),) = [block.lines for block in after.blocks(book, strut_job)]
    assert "with TW-02" in line.beside
    assert line.mark == "disc"
    assert wheel.words == "RL: clicked at 9\u202fN·m, none turned further"
    assert wheel.beside == "with TW-02 · by Imke Tolland"


def test_what_a_vehicle_waits_for_stands_in_a_block_of_its_own(book, imke, strut_job):
    hold(book, imke, strut_job, "part", "strut FL", "", "lift")
    (block,) = after.blocks(book, strut_job)
    assert (block.title, block.lines[0].words) == ("Waited for", "a part: strut FL, on the lift: not yet")
    assert block.lines[0].beside == ""
