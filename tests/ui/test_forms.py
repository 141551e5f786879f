"""Forms: what is asked is what is handed in, with the keyboard alone."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from jobbook.services.sheet.sheets import Ask, Option
from jobbook.ui.forms import KINDS, Form, Section, field_for

TOOLS = (
    Option("TW-02", "TW-02, click wrench, 2 to 10 N·m"),
    Option("TW-09", "TW-09", unfit="Its calibration ran out."),
)
ASKS = {
    "text": Ask("who", "Who"),
    "long text": Ask("words", "Words", "long text"),
    "choice": Ask("answer", "Answer", "choice", (Option("yes", "Yes"), Option("no", "No"))),
    "list": Ask("which", "Which", "list", (Option("4", "four"), Option("5", "five"))),
    "quantity": Ask("reached", "Reached", "quantity", unit="N·m"),
    "heights": Ask("heights", "Heights", "heights", unit="mm"),
    "angles": Ask("toe", "Toe", "angles", (Option("FL", "FL"), Option("FR", "FR")), "°"),
    "tool": Ask("tool", "Tool", "tool", TOOLS),
    "signature": Ask("signature", "Signature", "signature"),
    "pieces": Ask("pieces", "Pieces", "pieces", (Option("p1", "Seal 1"), Option("p2", "Seal 2"))),
    "serial": Ask("serial", "Serial", "serial"),
    "number": Ask("number", "Number", "number"),
    "time": Ask("time", "Time", "time"),
    "secret": Ask("pin", "PIN", "secret"),
    "folder": Ask("folder", "Folder", "folder"),
    "file": Ask("file", "File", "file"),
}
GIVEN = {
    "choice": "no",
    "heights": "FL 366; RR 395",
    "angles": "FL 1.5 mm; diameter 16 in",
    "tool": "TW-02",
    "pieces": "p1,p2",
    "signature": "M10 200L40 20L70 200",
}


@pytest.fixture
def shown(qtbot, dressed):
    def show(*asked, columns=1):
        form = Form(asked, columns)
        qtbot.addWidget(form)
        with qtbot.waitActive(form):
            form.show()
            form.activateWindow()
        form.focus_first()
        return form

    return show


def test_there_is_a_sample_question_for_every_kind():
    assert set(ASKS) == set(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_a_field_of_every_kind_gives_back_what_was_put_in(kind, qtbot, dressed):
    field = field_for(ASKS[kind])
    qtbot.addWidget(field)
    assert field.is_empty()
    field.set_text(GIVEN.get(kind, "4"))
    assert field.text() == GIVEN.get(kind, "4")
    assert not field.is_empty()


@pytest.mark.parametrize("kind", KINDS)
def test_the_control_of_every_field_has_a_name_to_be_read_aloud(kind, qtbot, dressed):
    field = field_for(ASKS[kind])
    qtbot.addWidget(field)
    assert ASKS[kind].label in field.focusProxy().accessibleName()


def test_heights_are_answered_corner_by_corner(qtbot, dressed):
    field = field_for(ASKS["heights"])
    qtbot.addWidget(field)
    field.set_text("FL 366; RR 395")
    assert field.answers() == {"heights FL": "366", "heights FR": "", "heights RL": "", "heights RR": "395"}


def test_enter_goes_from_field_to_field_and_the_last_enter_hands_in(qtbot, shown):
    form = shown(ASKS["text"], ASKS["heights"], ASKS["number"])
    qtbot.keyClicks(QApplication.focusWidget(), "Bram")
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    for height in ("366", "399", "394", "395"):
        qtbot.keyClicks(QApplication.focusWidget(), height)
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    qtbot.keyClicks(QApplication.focusWidget(), "7")
    with qtbot.waitSignal(form.handed_in) as handed:
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    assert handed.args == [
        {"who": "Bram", "number": "7"}
        | {"heights FL": "366", "heights FR": "399", "heights RL": "394", "heights RR": "395"}
    ]


def test_what_is_missing_is_said_under_its_field_and_nothing_is_handed_in(qtbot, shown):
    form = shown(ASKS["text"], Ask("note", "Note", required=False))
    with qtbot.assertNotEmitted(form.handed_in):
        form.hand_in()
    assert form.fields["who"].said() == "Who is needed."
    assert form.fields["note"].said() == ""
    assert form.fields["who"].has_focus()


def test_a_refusal_under_a_field_goes_away_with_the_next_keystroke(qtbot, shown):
    form = shown(ASKS["text"])
    form.refuse("who", "Nobody of that name works here.")
    assert form.fields["who"].said() == "Nobody of that name works here."
    qtbot.keyClicks(QApplication.focusWidget(), "x")
    assert form.fields["who"].said() == ""


def test_a_tool_that_is_unfit_cannot_be_taken_and_says_why(qtbot, dressed):
    field = field_for(ASKS["tool"])
    qtbot.addWidget(field)
    field.set_text("TW-09")
    assert field.text() == ""
    assert any("Its calibration ran out." in made.accessibleName() for made in field._buttons.values())


def test_many_answers_open_as_a_list_and_few_stand_side_by_side(qtbot, dressed):
    many = field_for(Ask("a", "A", "choice", tuple(Option(str(n), str(n)) for n in range(9))))
    few = field_for(ASKS["choice"])
    qtbot.addWidget(many)
    qtbot.addWidget(few)
    assert type(many) is not type(few)


def test_what_a_person_typed_is_never_read_as_markup(qtbot, dressed):
    form = Form([Section("<b>Heading</b>"), Ask("a", "<i>A</i>")])
    qtbot.addWidget(form)
    form.fields["a"].refuse("<script>")
    assert form.fields["a"].said() == "<script>"
    assert all(
        label.textFormat() == Qt.TextFormat.PlainText for label in form.findChildren(type(form.fields["a"]._said))
    )
