"""A room makes its pages when somebody first goes there."""

from jobbook.ui.places import JOBS, LIST, ONE, Place
from jobbook.ui.rooms import Page, Room


def test_a_page_is_made_once_and_only_when_somebody_goes_there(qtbot):
    made = []

    def maker(what):
        def make():
            made.append(what)
            return Page()

        return make

    room = Room(JOBS, "Jobs", {what: maker(what) for what in (LIST, ONE)})
    qtbot.addWidget(room)
    assert made == []
    room.arrive(Place(JOBS, LIST))
    room.arrive(Place(JOBS, LIST))
    assert made == [LIST]
    room.arrive(Place(JOBS, ONE, 7))
    assert made == [LIST, ONE]
    assert room.currentWidget() is room.page(ONE)


def test_a_page_that_was_made_late_can_lead_elsewhere(qtbot):
    room = Room(JOBS, "Jobs", {LIST: Page})
    qtbot.addWidget(room)
    room.arrive(Place(JOBS))
    with qtbot.waitSignal(room.go) as gone:
        room.page(LIST).go.emit(Place(JOBS, ONE, 3))
    assert gone.args == [Place(JOBS, ONE, 3)]
