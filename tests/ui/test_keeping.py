"""One thing at a time: a second press does nothing while the first is under way, and a refusal frees the form."""

import pytest

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.ui.keeping import Keeping
from jobbook.ui.setting import Setting

BRAM = Person("bf", "Bram Ferro")


class Lane:
    """Does nothing until it is let."""

    def __init__(self):
        self.waiting = []

    def keep(self, work, done, refused):
        self.waiting.append((work, done, refused))

    def go(self):
        for work, done, refused in self.waiting:
            try:
                result = work()
            except Refused as error:
                refused(error)
            else:
                done(result)
        self.waiting.clear()


class Form:
    def __init__(self):
        self.said, self.busy = [], []

    def refuse(self, sentence):
        self.said.append(sentence)

    def show_busy(self, busy):
        self.busy.append(busy)


class Here:
    person = BRAM


@pytest.fixture
def there():
    lane, form, duty = Lane(), Form(), Here()
    return lane, form, duty, Keeping(Setting(None, duty, lane), form)


def test_a_second_press_while_the_first_is_under_way_does_nothing(there):
    lane, form, _, keeping = there
    kept = []
    for _ in range(2):
        keeping.keep(lambda who: who.name, kept.append)
    assert (len(lane.waiting), form.busy) == (1, [True])
    lane.go()
    assert (kept, form.busy) == (["Bram Ferro"], [True, False])
    keeping.do(lambda: "again", kept.append)
    lane.go()
    assert kept[-1] == "again"


def test_a_refusal_is_said_and_the_form_can_be_used_again(there):
    lane, form, _, keeping = there

    def refuse(_who):
        raise Refused("Nothing was kept: say why.")

    keeping.keep(refuse, form.said.append)
    lane.go()
    assert (form.said, form.busy) == (["Nothing was kept: say why."], [True, False])


def test_with_nobody_on_duty_nothing_goes_to_the_lane(there):
    lane, form, duty, keeping = there
    duty.person = None
    keeping.keep(lambda who: who.name, form.said.append)
    assert lane.waiting == []
    assert "Nobody is on duty" in form.said[0]
    assert form.busy[-1] is False
