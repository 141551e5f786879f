"""The crash report: enough to find the fault, nothing of customers or of this machine's folders."""

import sys

import pytest
from PySide6.QtWidgets import QApplication

from jobbook.core.errors import Refused, StoreUnavailable
from jobbook.services.vehicle.odometers import read_odometer
from jobbook.ui.crash import CrashWatch, report

FACTS = {"job book": "0.1.0", "Python": "3.11"}


def failed(message):
    try:
        raise KeyError(message)
    except KeyError as error:
        return error


def test_the_report_names_versions_kind_and_places():
    text = report(failed("strut"), FACTS)
    assert "job book: 0.1.0" in text
    assert "error: KeyError" in text
    assert "test_crash.py, line" in text
    assert "in failed" in text


@pytest.mark.parametrize(
    "secret", ["Wilma Harcourt-Dene", "01000555077", "(psycopg) [parameters: ('Wilma', 3)]", 'a "quoted" name']
)
def test_the_report_holds_nothing_that_could_be_a_customers(secret):
    text = report(failed(secret), FACTS)
    assert "Wilma" not in text
    assert "0100055" not in text
    assert "quoted" not in text


def test_places_are_named_from_the_program_on_and_not_from_this_machines_root():
    try:
        read_odometer("twelve")
    except Refused as error:
        text = report(error, FACTS)
    assert "  jobbook/services/vehicle/odometers.py, line" in text
    assert "/home/" not in text
    assert __file__ not in text


@pytest.fixture
def watch(qtbot, dressed):
    made = CrashWatch(lambda: FACTS, lambda: "Kept up to entry 1204.", lambda: None)
    before = sys.excepthook
    made.begin()
    yield made
    made.end()
    assert sys.excepthook is before
    if made.dialog is not None:
        made.dialog.close()


def test_an_error_that_nobody_caught_opens_the_dialog_and_says_what_was_kept(qtbot, watch, capsys):
    error = failed("strut")
    sys.excepthook(type(error), error, error.__traceback__)
    assert watch.dialog.isVisible()
    assert "KeyError" in watch.dialog.report.toPlainText()
    assert "Kept up to entry 1204." in [label.text() for label in watch.dialog.findChildren(type(watch.dialog.title))]
    assert "KeyError" in capsys.readouterr().err


def test_a_second_error_is_added_to_the_report_that_stands(qtbot, watch, capsys):
    for message in ("first", "second"):
        error = failed(message)
        sys.excepthook(type(error), error, error.__traceback__)
    assert watch.dialog.report.toPlainText().count("KeyError") == 2


def test_the_report_can_be_copied_and_the_program_goes_on(qtbot, watch, capsys):
    error = failed("strut")
    sys.excepthook(type(error), error, error.__traceback__)
    watch.dialog.copy.click()
    assert QApplication.clipboard().text() == watch.dialog.report.toPlainText()
    watch.dialog.go_on.click()
    assert not watch.dialog.isVisible()


def test_an_expected_error_that_no_page_took_is_a_sentence_and_no_report(qtbot, watch, capsys):
    error = StoreUnavailable("The disk is full; nothing of this was kept.")
    sys.excepthook(type(error), error, None)
    assert watch.dialog is None
    assert watch.trouble.sentence.text() == "The disk is full; nothing of this was kept."
    watch.trouble.close_button.click()
    assert not watch.trouble.isVisible()
