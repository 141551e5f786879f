"""Today: what waits closes from its line, by the same services as at its own place; a backup is made or put off."""

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt

from jobbook.core.record.journal import Draft
from jobbook.services.house.backups import back_up, last_backup
from jobbook.services.house.putting_off import put_off_words
from jobbook.services.office.visits import visits
from jobbook.ui.places import BACKUP, SHOP, TODAY, Place, a_job
from jobbook.ui.today.asks import ASKED, FIELDS, asks, belongs
from jobbook.ui.today.outcomes import KEEPERS
from jobbook.ui.today.presenter import place_of
from tests.ui.today.test_today_page import choose, kinds, press


def test_what_is_asked_of_a_kind_of_line_is_also_kept():
    assert set(ASKED) == set(KEEPERS)


@pytest.fixture
def page(window):
    window.go(Place(TODAY))
    return window.pages.currentWidget().currentWidget()


def test_a_vehicle_has_to_wait_for_a_part_and_the_part_came(qtbot, book, strut_job, page):
    choose(page, "job")
    told = {"waits_for": "part", "what": "strut FL, back-ordered", "stands": "lift"}
    page.forms["job"].show_answers({"outcome": "to wait"} | told)
    page.forms["job"].changed.emit("outcome")
    assert page.forms["job"].fields["note"].isHidden()
    page.keep.click()
    qtbot.waitUntil(lambda: "held" in kinds(page))
    choose(page, "held")
    assert page.what.text() == f"Job {strut_job} waits for a part: strut FL, back-ordered, on the lift"
    assert place_of(page.lines[kinds(page).index("held")].due) == a_job(strut_job, "checks")
    page.forms["held"].show_answers({"outcome": "came"})
    page.keep.click()
    qtbot.waitUntil(lambda: "held" not in kinds(page))
    assert [one.reminder.outcome for one in visits(book, strut_job)] == ["came"]


def test_a_wait_that_was_begun_by_mistake_is_taken_back_by_keys(qtbot, book, imke, strut_job, page):
    until = (book.clock() + timedelta(minutes=10)).isoformat()
    facts = {"job": strut_job, "method": "m", "corner": "FL", "step": 4, "until": until}
    with book.store.write(imke.id) as tx:
        tx.keep(Draft("waiting/1", f"job/{strut_job}", facts, job=strut_job))
    page.presenter.open()
    choose(page, "wait")
    page.forms["wait"].show_answers({"outcome": "taken back", "note": "Wrong job."})
    page.forms["wait"].fields["outcome"].setFocus()
    press(qtbot, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: "wait" not in kinds(page))


def forget_something(book, imke):
    """The last backup holds what was erased since: a new one is due at once."""
    with book.store.write(imke.id) as tx:
        tx.keep(Draft("erased/1", "book", {"commitments": [tx.seal("somebody")], "reason": "asked for"}))


def test_a_backup_that_is_due_is_made_from_its_line_or_put_off(qtbot, book, imke, strut_job, window, tmp_path):
    back_up(book, imke, tmp_path)
    forget_something(book, imke)
    window.go(Place(TODAY))
    page = window.pages.currentWidget().currentWidget()
    choose(page, "backup")
    assert page.forms["backup"].answers()["place"] == str(tmp_path)
    page.forms["backup"].show_answers({"outcome": "later", "moved": "tomorrow", "note": "The stick is at home."})
    page.keep.click()
    qtbot.waitUntil(lambda: "backup" not in kinds(page) and page.keep.isEnabled())
    assert put_off_words(book).endswith("The stick is at home.")
    window.go(Place(SHOP, name=BACKUP))
    assert "put off until" in window.pages.currentWidget().currentWidget().part().where.text()
    forget_something(book, imke)
    window.go(Place(TODAY))
    choose(page, "backup")
    page.forms["backup"].show_answers({"outcome": "now", "place": ""})
    page.keep.click()
    assert "choose the folder" in page.said.text()
    page.forms["backup"].show_answers({"place": str(tmp_path / "stick")})
    (tmp_path / "stick").mkdir()
    page.keep.click()
    qtbot.waitUntil(lambda: "backup" not in kinds(page), timeout=20000)  # a busy machine writes it slowly
    assert last_backup(book).place == str(tmp_path / "stick")


def test_only_what_belongs_to_the_outcome_is_asked():
    assert belongs("wheel FL", "done here", ("FL",))
    assert not belongs("wheel FR", "done here", ("FL",))
    assert belongs("wheel FR", "done here")
    assert not belongs("note", "now")
    assert belongs("note", None)


def test_every_kind_that_closes_here_asks_and_every_question_belongs_to_some_outcome():
    assert asks("kept", str) == ()
    for kind in set(KEEPERS) - {"clock"}:
        asked = asks(kind, str)
        assert [one.name for one in asked] == ["outcome", *FIELDS[kind]]
        outcomes = [option.value for option in asked[0].options]
        assert all(any(belongs(one.name, outcome) for outcome in outcomes) for one in asked), kind
