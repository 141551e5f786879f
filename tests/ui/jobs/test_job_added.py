"""A joint that no method names: added on the spot, loosened, tightened, checked, and a loose end in between."""

import pytest

from jobbook.core.work.model import Act
from jobbook.services import work
from jobbook.services.sheet.sheets import Choice
from jobbook.ui.jobs.signing import SECRET, SIGNER
from tests.ui.jobs import strut_book
from tests.ui.jobs.presented import at_work, deed
from tests.ui.jobs.strut_book import PINS, Strut

ASKED = {
    "title": "Brake hose bracket bolt",
    "corner": "FL",
    "count": "1",
    "single_use": "no",
    "safety": "yes",
    "loaded": "no",
    "torque": "20 N·m",
    "tolerance": "± 10 %",
    "document": "VH-BRK-2",
    "edition": "1, 2022",
}
OPEN = (-1, 1)


@pytest.fixture
def there(tmp_path) -> Strut:
    made = strut_book.begun(strut_book.strut(tmp_path / "book"))
    for what, to in (("levelling", "off"), ("support", "lift")):
        choice = Choice("main", "Done", "Enter", Act("set", what=what, to=to))
        work.keep(made.book, made.bram, made.job, choice, {})
    yield made
    made.book.close()


def take(presenter, seen, key: str, **given: str) -> None:
    presenter.open_step(*OPEN)
    presenter.choose(next(choice for choice in seen.sheet.card.choices if choice.key == key), given)


def loose(seen) -> list[str]:
    return [end.sentence for end in (*seen.sheet.loose_now, *seen.sheet.still_to_do) if "bracket" in end.sentence]


def test_it_stands_as_a_line_of_its_own_and_is_no_loose_end_before_it_is_touched(there):
    presenter, seen = at_work(there)
    presenter.add_thing("joint", ASKED)
    assert seen.refusals == []
    row = seen.sheet.steps[-1]
    assert (row.title, row.corner, row.mark, row.begun) == ("Brake hose bracket bolt", "FL", "ring", -1)
    assert loose(seen) == []


def test_loosened_it_is_a_loose_end_until_it_is_tightened_with_a_fit_tool_and_checked_by_another(there):
    presenter, seen = at_work(there)
    presenter.add_thing("joint", ASKED)
    take(presenter, seen, "main")
    assert seen.sheet.steps[-1].mark == "half"
    assert len(loose(seen)) == 1
    presenter.open_step(*OPEN)
    tools = next(ask for ask in seen.sheet.card.choices[0].asks if ask.name == "tool").options
    assert {tool.value for tool in tools if not tool.unfit} == {"TW-07"}
    take(presenter, seen, "main", tool="TW-07", **{SIGNER: "bf", SECRET: PINS["bf"]})
    assert seen.sheet.steps[-1].mark == "disc"
    assert len(loose(seen)) == 1  # its second check
    take(presenter, seen, "main", tool="TW-07", **{SIGNER: "bf", SECRET: PINS["bf"]})
    assert seen.refusals
    take(presenter, seen, "main", tool="TW-07", **{SIGNER: "nop", SECRET: PINS["nop"]})
    assert seen.sheet.steps[-1].mark == "double"
    assert loose(seen) == []


def test_its_figure_stands_with_document_and_edition_on_the_card(there):
    presenter, seen = at_work(there)
    presenter.add_thing("joint", ASKED)
    presenter.open_step(*OPEN)
    said, shelf = seen.sheet.card.sources
    assert said == "VH-BRK-2, edition 1, 2022 · read by B. Ferro"
    assert shelf.endswith("TW-07 (20 to 100 N·m)")


def test_without_a_torque_it_is_tightened_by_feel_and_says_so(there):
    presenter, seen = at_work(there)
    presenter.add_thing("joint", ASKED | {"torque": "", "document": "", "edition": "", "safety": "no"})
    take(presenter, seen, "main")
    presenter.open_step(*OPEN)
    assert seen.sheet.card.choices[0].label == "Tightened by feel"
    take(presenter, seen, "main", **{SIGNER: "bf", SECRET: PINS["bf"]})
    assert seen.sheet.card is not None
    assert seen.sheet.steps[-1].mark == "disc"


def test_single_use_pieces_are_asked_for_under_parts_before_it_is_tightened(there):
    presenter, seen = at_work(there)
    presenter.add_thing("joint", ASKED | {"single_use": "yes"})
    take(presenter, seen, "main")
    presenter.open_step(*OPEN)
    assert not any(choice.act.do == "tighten" for choice in seen.sheet.card.choices)
    assert "new" in seen.sheet.card.needs[0]
    presenter.open_tab("parts")
    assert deed(seen, "parts", "issue").of == "brake_hose_bracket_bolt@FL"


def test_two_of_the_same_name_keep_apart(there):
    presenter, seen = at_work(there)
    presenter.add_thing("joint", ASKED)
    presenter.add_thing("joint", ASKED | {"torque": "", "document": "", "edition": ""})
    assert [row.number for row in seen.sheet.steps if row.begun == -1] == [1, 2]
    take(presenter, seen, "main")
    assert [row.mark for row in seen.sheet.steps if row.begun == -1] == ["half", "ring"]


@pytest.mark.parametrize(
    ("changed", "said"),
    [({"count": "some"}, "count its fasteners"), ({"document": ""}, "document"), ({"torque": "20"}, "20")],
)
def test_what_cannot_be_kept_is_said_and_no_joint_is_added(there, changed, said):
    presenter, seen = at_work(there)
    presenter.add_thing("joint", ASKED | changed)
    assert said in seen.refusals[0]
    assert not any(row.begun == -1 for row in seen.sheet.steps)
