"""Every word of ours on the screen goes through the translation of the window."""

import ast
import re
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QTranslator
from PySide6.QtWidgets import QLabel, QPushButton, QRadioButton

import jobbook.ui
from jobbook.services.sheet.sheets import Ask, Fact, options_of
from jobbook.ui.forms import Form, Section
from jobbook.ui.jobs.signing import Signers
from jobbook.ui.jobs.tabs.page import TabPage
from jobbook.ui.jobs.tabs.records import Block, Deed, Line, TabSheet
from jobbook.ui.language import CONTEXT

UI = Path(jobbook.ui.__file__).parent
SHOWS = {
    *(
        "label",
        "button",
        "growing",
        "Elided",
        "Empty",
        "Section",
        "Column",
        "QLabel",
        "QPushButton",
        "QCheckBox",
    ),
    *(
        "setText",
        "setWindowTitle",
        "setToolTip",
        "setPlaceholderText",
        "setAccessibleName",
        "show_text",
        "say",
        "addItem",
    ),
}
TRANSLATES = {"tr", "_tr", "translate", "said"}
NO_WORDS = {"Alt+"}  # what is printed on a key


class Marked(QTranslator):
    """Puts what it was asked for between marks."""

    def translate(self, context: str, source: str, disambiguation: str | None = None, n: int = -1) -> str:
        return f"«{source}»" if context == CONTEXT else ""

    def isEmpty(self) -> bool:
        return False


@pytest.fixture
def marked(qapp):
    translator = Marked()
    QCoreApplication.installTranslator(translator)
    yield
    QCoreApplication.removeTranslator(translator)


def texts(widget, *kinds):
    return {made.text() for kind in kinds for made in widget.findChildren(kind) if made.text()}


def test_questions_and_answers_of_a_record_are_said_in_the_language_of_the_window(marked, qtbot):
    form = Form((Section("Here"), Ask("why", "Why"), Ask("air", "Air", "choice", options_of({"all": "full"}))))
    qtbot.addWidget(form)
    assert texts(form, QLabel, QRadioButton) == {"Here", "«Why»", "«Air»", "«full»"}
    assert form.fields["why"].edit.accessibleName() == "«Why»"
    form.show_answers({"air": "all"})
    assert form.answers() == {"why": "", "air": "all"}


def test_the_blocks_of_a_tab_are_said_in_the_language_of_the_window(marked, qtbot, opened):
    book, _ = opened
    page = TabPage(book.today)
    qtbot.addWidget(page)
    deed = Deed("keep", "Keep it…", (Ask("why", "Why"),), explain="Both stay.")
    lines = (Line("Nothing was read", "beside it", cells=("12",)),)
    blocks = (
        Block("Heights", lines, (Fact("Driver", "Bram"),), ("mm",), deeds=(deed,)),
        Block("Codes", nothing="None."),
    )
    page.show_tab(TabSheet(blocks, notice="It is held."), Signers())
    plain = {text for text in texts(page, QLabel, QPushButton) if not text.startswith(("«", "<"))}
    assert plain == {"12"}
    page.findChild(QPushButton).click()
    assert "«Both stay.»" in texts(page, QLabel)


def literal(node: ast.AST) -> bool:
    """Whether a word of ours stands in an expression that is shown, without having gone through the translation."""
    if isinstance(node, ast.Call):
        name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        return name not in TRANSLATES and any(map(literal, node.args)) and name in ("format", "join", "filter")
    if isinstance(node, ast.Constant):
        words = node.value.strip() if isinstance(node.value, str) else ""
        return bool(re.search(r"[A-Za-z]{2}", words)) and words not in NO_WORDS
    if isinstance(node, ast.JoinedStr):
        return any(map(literal, node.values))
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        return literal(node.left) or literal(node.right)
    return isinstance(node, ast.IfExp) and (literal(node.body) or literal(node.orelse))


def test_no_word_reaches_a_control_past_the_translation():
    found = []
    for path in sorted(UI.rglob("*.py")):
        source = path.read_text(encoding="utf-8")
        for node in ast.walk(ast.parse(source)) if "PySide6" in source else ():
            if isinstance(node, ast.Call) and node.args:
                name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
                if name in SHOWS and literal(node.args[0]):
                    found.append(f"{path.relative_to(UI)}:{node.lineno}: {ast.unparse(node.args[0])[:70]}")
    assert not found, f"hand these to tr(), or to said() where a record brings them: {found}"
