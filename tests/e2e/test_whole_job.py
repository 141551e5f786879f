"""The whole job through the real window: from a folder with no book in it to two papers, read back.

Everything is done by mouse and keys on what the window shows; the book is looked at only through the command line."""

import json
import os
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import QSettings, Qt

from jobbook import app
from jobbook.ui.jobs.arriving.take_in import TakeInPage
from jobbook.ui.jobs.job_page import JobPage
from jobbook.ui.jobs.working.work_begin import OfferLine
from tests.e2e.hands import Hands

ROOT = Path(app.__file__).parent.parent
VIN = "A09VH2AT4KB204117"
FIRST = {
    "name": "Saltmarsh Lane Suspension", "phone": "Quillhaven 5520", "first": "Imke Tolland", "pin": "2468",
    "again": "2468",
}  # fmt: skip
SECOND = {
    "name": "Bram Ferro", "permissions": "do and sign work on vehicles; make second checks", "pin": "1357",
}  # fmt: skip
PINS = {"Imke Tolland": "2468", "Bram Ferro": "1357"}
TOOLS = (
    {"number": "TW-02", "kind": "click wrench", "low": "2", "high": "10"},
    {"number": "TW-07", "kind": "click wrench", "low": "20", "high": "100"},
    {"number": "AG-01", "kind": "angle gauge", "low": "0", "high": "360"},
)
CALIBRATED = {"calibrated_on": "2026-03-14", "due_on": "2099-03-14", "certificate": "QC-26-0307"}
VEHICLE = {
    "vin": VIN, "plate": "KX-07-ALD", "make": "Varnholt", "model": "estate", "year": "2019",
    "variant": "2019, adaptive dampers", "air": "in front only",
}  # fmt: skip
CONCERN = "Front left is right down in the morning."
PERMISSION = {
    "scope": "The repair", "who": "Ansel Harrow", "how": "signed", "what": "Renew the strut FL", "total": "1480",
}  # fmt: skip
CAUSE = {
    "confidence": "proved", "cause": "Sleeve leaks at the lower roll, soap bubbles",
    "correction": "Strut FL renewed, calibrated, aligned",
}  # fmt: skip
FIGURES = {
    "wheel_torque": "90 N*m", "front_strut_lower_torque": "70 N*m, then +90 deg", "front_strut_top_torque": "30 N*m",
    "front_link_torque": "60 N*m", "front_sensor_link_torque": "8 N*m", "front_line_nut_torque": "4 N*m",
    "front_ride_height": "402 mm", "tolerance": "5 %", "document": "VH-SUS-12", "edition": "3, 2024",
}  # fmt: skip
ANGLES = {
    "camber": "-0°45'",
    "caster": "6°30'",
    "inclination": "12°00'",
    "toe": "0°10'",
}  # keys that the test's keyboard has
HEIGHTS = "401; 399; 394; 395"
SAID = {"plugs": "1", "serial": "7H-20611", "module": "Level control", "distance": "6 km", "text": "As it should be"}


@pytest.fixture
def program(qapp, tmp_path):
    """The program on a folder with no book in it, closed at the end as a person would close it."""
    settings = QSettings(str(tmp_path / "window.ini"), QSettings.Format.IniFormat)
    one = app.Program(qapp, str(tmp_path / "book"), settings)
    yield one
    if one.window is not None:
        one.window.close()
    one.end()


@pytest.fixture
def hands(qtbot):
    return Hands(qtbot)


def begin_a_book(hands, program):
    assert program.begin()
    start = program.first_start
    hands.fill(start.form, FIRST)
    hands.click(start, "Create the book")
    hands.until(lambda: start.begin.isVisible())
    hands.click(start, "Open the book")
    hands.until(lambda: program.window is not None and program.window.isVisible())
    return program.window


def keep_a_card(hands, window, act, answers):
    before = window.kept_words()
    hands.click(window, act)
    hands.fill(hands.form(window), answers)
    hands.click(window, "Keep")
    hands.until(lambda: window.kept_words() != before)


def furnish_the_shop(hands, window):
    hands.click(window, "The shop")
    keep_a_card(hands, window, "Add a person", SECOND)
    hands.click(window, "Tools")
    for tool in TOOLS:
        keep_a_card(hands, window, "Add a tool", tool | CALIBRATED)


def take_in(hands, window):
    hands.click(window, "Jobs")
    hands.click(window, "Take in a vehicle")
    hands.until(lambda: any(page.isVisible() for page in window.findChildren(TakeInPage)))
    page = window.findChild(TakeInPage)
    hands.fill(page.vehicle, VEHICLE)
    hands.fill(page.customer, {"customer": "Ansel Harrow"})
    hands.fill(page.arrival, {"odometer": "128 410", "concerns": CONCERN})
    hands.fill(page.standing, {"heights": "366; 399; 394; 395"})
    hands.click(page, "Take in")
    hands.until(lambda: any(page.isVisible() for page in window.findChildren(JobPage)))
    return window.findChild(JobPage)


TABS = ("Arrival", "Diagnosis", "Permission", "Parts", "Work", "Final checks", "Papers")


def turn_to(hands, page, tab):
    """Alt and a digit turn to a tab."""
    key = Qt.Key(Qt.Key.Key_1 + TABS.index(tab))
    hands.key(page, key, Qt.KeyboardModifier.AltModifier)


def do(hands, page, tab, deed, answers):
    """One deed of a tab: open it, answer it, keep it."""
    window = page.window()
    before = window.kept_words()
    turn_to(hands, page, tab)
    hands.click(page, deed)
    form = hands.form(page)
    hands.fill(form, answers)
    if "secret" in form.fields:
        sign(hands, form, "Imke Tolland")
    hands.click(page, next(words for words in ("Keep", "Sign", "Release") if hands.buttons(page, words)))
    hands.until(lambda: window.kept_words() != before and not hands.forms(page))


def sign(hands, form, person):
    hands.answer(form.fields["signer"], person)
    hands.answer(form.fields["secret"], PINS[person])


def begin_the_method(hands, page):
    window = page.window()
    turn_to(hands, page, "Work")
    hands.click(page, "Begin a method…")
    hands.until(lambda: any(line.isVisible() for line in page.findChildren(OfferLine)))
    hands.press(next(line for line in page.findChildren(OfferLine) if "Front" in line.accessibleName()))
    form = hands.form(page)
    hands.fill(form, {name: "FL" if not name.startswith("option") else "no" for name in form.fields})
    before = window.kept_words()
    hands.click(page, "Begin")
    hands.until(lambda: window.kept_words() != before)
    hands.click(page, "Enter them…")
    form = hands.form(page)
    hands.fill(form, {name: text for name, text in FIGURES.items() if name in form.fields})
    before = window.kept_words()
    hands.click(page, "Keep the figures")
    hands.until(lambda: window.kept_words() != before)


def issue_the_kit(hands, page):
    turn_to(hands, page, "Parts")
    hands.until(lambda: hands.buttons(page, "Issue…"))
    for left in range(len(hands.buttons(page, "Issue…")), 0, -1):
        hands.until(lambda left=left: len(hands.buttons(page, "Issue…")) == left)
        answers = {"number": "AS-4471-L", "serial": "7H-20611", "batch": "26-11", "delivery_note": "91207"}
        do(hands, page, "Parts", "Issue…", answers)


def answers_of(form, second_person):
    """What a person answers who has done what the step says."""
    told = {}
    for name, field in form.fields.items():
        fit = [option for option in field.ask.options if not option.unfit]
        if field.ask.kind == "angles":
            told[name] = f"{ANGLES[name]}; {ANGLES[name]}"  # front left, front right
        if name in ("signer", "secret") or not field.ask.required or not field.is_empty():
            continue
        told[name] = HEIGHTS if field.ask.kind == "heights" else fit[0].label if fit else SAID[name]
    if "signer" in form.fields:
        person = "Bram Ferro" if second_person else "Imke Tolland"
        told |= {"signer": person, "secret": PINS[person]}
    return told


def do_the_open_step(hands, page):
    """The main act of the open step by its key; the wait is cut short, with its reason."""
    window, card = page.window(), page.work.card
    before = window.kept_words()
    choices = card.card.choices
    early = bool(card.card.waits_until)
    main = next(choice for choice in choices if choice.main or early)
    hands.key(card.buttons[choices.index(main)], Qt.Key.Key_Return)
    if card.is_asking():
        form = hands.form(card)
        hands.fill(form, {"reason": "tried by hand"} if early else answers_of(form, main.second_person))
        hands.click(card, "Sign" if "secret" in form.fields else "Keep")
    hands.until(lambda: window.kept_words() != before)
    hands.until(lambda: page.work.card is not None and page.work.card is not card)


def work_to_the_end(hands, page):
    turn_to(hands, page, "Work")
    done = 0
    while any(choice.main or page.work.card.card.waits_until for choice in page.work.card.card.choices):
        do_the_open_step(hands, page)
        done += 1
        assert done < 120, "the work never ends"
    return done


def sign_the_rest(hands, page):
    window = page.window()
    hands.click(page, "Sign")
    form = hands.form(page)
    sign(hands, form, "Imke Tolland")
    before = window.kept_words()
    hands.click(page.work.strip, "Sign")
    hands.until(lambda: window.kept_words() != before)


def issue_both_papers(hands, page, folder):
    turn_to(hands, page, "Papers")
    for number, paper in enumerate(("Handover", "Evidence"), 1):
        hands.click(page, f"Issue {paper}")
        hands.until(lambda number=number: len(hands.buttons(page, "Open")) == number)
    assert len(list((folder / "papers").glob("*.pdf"))) == 2


def command(*words):
    """The same book from a second process."""
    environment = os.environ | {"PYTHONPATH": str(ROOT)}
    line = [sys.executable, "-m", "jobbook.cli", *map(str, words)]
    return subprocess.run(line, capture_output=True, text=True, env=environment, timeout=120)


def read_papers(folder):
    papers = {}
    for file in (folder / "papers").glob("*.pdf"):
        text = "\n".join(page.extract_text() for page in PdfReader(BytesIO(file.read_bytes())).pages)
        papers["evidence" if "Evidence for a warranty claim" in text else "handover"] = (file, " ".join(text.split()))
    return papers


def test_a_job_goes_from_an_empty_folder_to_two_papers_by_mouse_and_keys(hands, program, tmp_path):
    folder = tmp_path / "book"
    window = begin_a_book(hands, program)
    furnish_the_shop(hands, window)
    page = take_in(hands, window)
    do(hands, page, "Permission", "Permission was given…", PERMISSION)
    do(hands, page, "Diagnosis", "Write…", CAUSE)
    begin_the_method(hands, page)
    issue_the_kit(hands, page)
    assert work_to_the_end(hands, page) > 50
    sign_the_rest(hands, page)
    do(hands, page, "Final checks", "Release…", {"odometer": "128 416"})
    issue_both_papers(hands, page, folder)
    papers = read_papers(folder)
    both = (VIN, "128 416", CONCERN, CAUSE["cause"], CAUSE["correction"], "7H-20611")
    for kind, words in {
        "handover": (*both, "128 410", "Ansel Harrow", "Bram Ferro", "Re-torque visit"),
        "evidence": (*both, "VH-SUS-12", "TW-07", "AG-01", "QC-26-0307", "B. Ferro", "Level control", "26-11"),
    }.items():
        missing = [word for word in words if " ".join(word.split()) not in papers[kind][1].replace("\u202f", " ")]
        assert missing == [], kind
    audit = command("audit", folder, "--json")
    assert (audit.returncode, json.loads(audit.stdout)["findings"]) == (0, [])
    for file, _ in papers.values():
        assert command("verify", file, "--book", folder).returncode == 0
