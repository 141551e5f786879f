"""A job passed on through the page: by its key, with a note and a PIN; read and taken on before anything else."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from jobbook.services import work
from jobbook.ui.jobs.signing import SECRET, SIGNER
from jobbook.ui.jobs.working.job_passing import NOTE, TO
from tests.ui.jobs import strut_book
from tests.ui.jobs.presented import at_work
from tests.ui.jobs.strut_book import PINS

SAID = "Link lies on the bench. The line nut is next."
BY_BRAM = {SIGNER: "bf", SECRET: PINS["bf"]}
BY_NADIA = {SIGNER: "nop", SECRET: PINS["nop"]}


def fill(form, **answers):
    for name, answer in answers.items():
        form.form.fields[name].set_text(answer)
    form.form.hand_in()


def test_h_asks_to_whom_it_goes_and_the_note_stands_until_it_is_signed_for(page, there, qtbot):
    strut_book.begun(there)
    shown = page()
    strip = shown.work.passing
    assert not strip.isVisible()
    qtbot.keyClick(shown.work.card, Qt.Key.Key_H)
    assert strip.isVisible()
    assert strip.is_asking()
    fill(strip._form, **{TO: "nop", NOTE: SAID}, **BY_BRAM)
    assert shown.presenter._sheet.passing.note == SAID
    assert strip.isVisible()
    assert not shown.work.hand_on.isVisible()
    assert SAID in [words.text() for words in strip.findChildren(QLabel)]
    fill(strip._form, **BY_NADIA)
    assert not strip.isVisible()
    assert shown.work.hand_on.isVisible()


def test_escape_gives_up_passing_on_and_keeps_nothing(page, there, qtbot):
    strut_book.begun(there)
    shown = page()
    qtbot.keyClick(shown.work.card, Qt.Key.Key_H)
    qtbot.keyClick(shown.work.passing._form, Qt.Key.Key_Escape)
    assert not shown.work.passing.isVisible()
    assert shown.presenter._sheet.passing is None


def test_a_wrong_pin_is_refused_where_it_was_typed_and_the_note_stays(page, there, qtbot):
    strut_book.begun(there)
    shown = page()
    qtbot.keyClick(shown.work.card, Qt.Key.Key_H)
    strip = shown.work.passing
    fill(strip._form, **{TO: "nop", NOTE: SAID, SIGNER: "bf", SECRET: "0000"})
    assert strip.is_asking()
    assert strip._form.form.fields[NOTE].text() == SAID
    assert "not the PIN" in strip._form._refusal.text()


def test_what_another_program_passed_on_is_shown_when_the_book_changes(there):
    strut_book.begun(there)
    presenter, seen = at_work(there)
    assert seen.sheet.passing is None
    work.pass_on(there.book, there.bram, there.job, SAID)
    presenter.book_changed()
    assert (seen.sheet.passing.to, seen.sheet.passing.note) == ("", SAID)
