"""A joint tightened with an adapter through the page, by keys, and read back from book and paper."""

import io
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt

from jobbook.services.papers import preview
from jobbook.ui.jobs.job_page import JobPage
from jobbook.ui.jobs.working.work_adapter import AdapterForm
from jobbook.ui.setting import Setting
from tests.services.workshop import PIN, Played
from tests.ui.at_once import AtOnce
from tests.ui.jobs.strut_book import Here


@pytest.fixture
def there(tmp_path: Path):
    """The job at its top nuts: 35 N·m ± 10 %, started by hand with new pieces."""
    made = Played(tmp_path / "played").at("top nuts", tmp_path)
    yield made
    made.close()


@pytest.fixture
def page(qtbot, dressed, there):
    made = JobPage(Setting(there.book, Here(there.bram), AtOnce()))
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.presenter.open(there.job)
    made.right.open_tab("work")
    return made


def write(qtbot, form, name: str, text: str) -> None:
    edit = form.fields[name].edit
    edit.clear()
    qtbot.keyClicks(edit, text)


def sign_with_adapter(qtbot, page, setting: str) -> AdapterForm:
    qtbot.keyClick(page.work.card.buttons[0], "A")
    form = page.work.card.findChild(AdapterForm)
    write(qtbot, form.measures, "lever", "400")
    write(qtbot, form.measures, "extension", "50")
    write(qtbot, form.form, "setting", setting)
    form.form.fields["tool"].set_text("TW-04")
    write(qtbot, form.form, "secret", PIN)
    qtbot.keyClick(form.form.fields["secret"].edit, Qt.Key.Key_Return)
    return form


def test_what_was_set_stands_on_the_step_in_the_book_and_on_the_paper(qtbot, page, there):
    sign_with_adapter(qtbot, page, "31.1")
    row = next(row for row in there.sheet().steps if "clicked" in row.note)
    assert row.mark == "disc"
    words = "clicked at 31.1 N·m with adapter L 400 mm, E 50 mm, 0°, equals 34.99 N·m"
    assert row.note.replace("\u202f", " ") == words
    pages = PdfReader(io.BytesIO(preview(there.book, there.job, "evidence"))).pages
    printed = " ".join("\n".join(one.extract_text() for one in pages).replace("\u202f", " ").split())
    assert all(word in printed for word in ("with adapter", "L 400 mm", "equals 34.99"))


def test_a_setting_far_off_is_said_on_the_form_and_nothing_is_kept(qtbot, page, there):
    form = sign_with_adapter(qtbot, page, "45")
    assert page.work.card.is_asking()
    assert "asked for 31.5" in form._refusal.text().replace("\u202f", " ")
    assert form.measures.answers()["lever"] == "400"
    assert form.form.answers()["secret"] == ""
    assert not [row for row in there.sheet().steps if "clicked" in row.note]
