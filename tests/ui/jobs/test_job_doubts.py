"""Missing figures and added joints on the job page: what looks wrong is confirmed, and nothing is kept before."""

import pytest

from jobbook.core.work.model import Joint
from jobbook.services import work
from jobbook.services.house import shop
from jobbook.ui.jobs.deed_form import DeedForm
from jobbook.ui.jobs.job_page import JobPage
from tests.ui.jobs import strut_book
from tests.ui.jobs.strut_book import METHOD, OPTIONS, SOURCE, VARIANT, Strut
from tests.ui.jobs.test_job_added import ASKED

BOLT = "M12x1.5 10.9"
GIVEN = {"front_strut_lower_torque": "200 N·m", "wheel_torque": "90 N·m", **SOURCE}


@pytest.fixture
def there(tmp_path) -> Strut:
    made = strut_book.allowed(strut_book.strut(tmp_path / "book"))
    work.begin_method(made.book, made.bram, made.job, METHOD, "FL", OPTIONS)
    guard = Joint(
        "guard@FL", "Guard bolt", thread="M12x1.5", grade="10.9", figure="front_strut_lower_torque", corner="FL"
    )
    work.add_thing(made.book, made.bram, made.job, guard)
    yield made
    made.book.close()


@pytest.fixture
def page(qtbot, dressed, there):
    made = JobPage(there.setting())
    qtbot.addWidget(made)
    made.show()
    made.presenter.open(there.job)
    made.right.open_tab("work")
    return made


def kept(there) -> dict[str, str]:
    return {spec.key: spec.conditions for spec in shop.specifications(there.book, VARIANT)}


def form_of(panel) -> DeedForm:
    return panel.findChildren(DeedForm)[-1]


def test_no_figure_is_kept_before_the_doubtful_one_is_confirmed(page, there):
    page.work.ask_figures()
    form = form_of(page.work.figure_form)
    assert BOLT in form.form.fields["front_strut_lower_torque"].ask.label
    form.form.show_answers(GIVEN)
    form.keep.click()
    form.keep.click()
    assert kept(there) == {}
    assert form.confirm.isVisibleTo(form)
    form.confirm.click()
    assert set(kept(there)) == {"front_strut_lower_torque", "wheel_torque"}
    assert kept(there)["front_strut_lower_torque"].endswith("kept as it stands in the document.")


def test_an_added_joint_with_a_doubtful_torque_is_confirmed_too(page, there):
    page.work.ask_thing()
    page.work.begin_panel.ask_thing("joint")
    form = form_of(page.work.begin_panel)
    form.form.show_answers({**ASKED, "torque": "200 N·m", "fastener": BOLT})
    form.keep.click()
    assert kept(there) == {}
    form.confirm.click()
    (said,) = kept(there).values()
    assert "200\u202fN·m is high" in said


def test_another_answer_takes_the_confirmation_away(qtbot, page, there):
    page.work.ask_figures()
    form = form_of(page.work.figure_form)
    form.form.show_answers(GIVEN)
    form.keep.click()
    qtbot.keyClicks(form.form.fields["wheel_torque"].edit, " ")
    assert not form.confirm.isVisibleTo(form)
