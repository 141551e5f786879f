"""The frame: index at the left, find line and who is on duty on top, the last entry and running tasks at the foot."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QByteArray, QSettings, Qt, QTimer, Signal
from PySide6.QtGui import QCloseEvent, QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import QButtonGroup, QMainWindow, QPushButton, QStackedWidget, QVBoxLayout, QWidget

from jobbook.core.errors import BookError
from jobbook.core.written import thousands
from jobbook.services.clock import Pace
from jobbook.services.house.people import get_person
from jobbook.services.opened import last_kept
from jobbook.ui import look, widths
from jobbook.ui.controls import button, column, frame, label, row
from jobbook.ui.duty import Duty
from jobbook.ui.finding import FindLine
from jobbook.ui.moments import hour
from jobbook.ui.places import Place, a_call
from jobbook.ui.rooms import Room
from jobbook.ui.running import RunningTasks
from jobbook.ui.scanning import Scanning
from jobbook.ui.setting import Setting
from jobbook.ui.start.duty_page import DutyPage
from jobbook.ui.tasks import TaskLanes

POLL_MS = 2000
READ_SHOWN_MS = 8000
REST_MS = 200  # between two refreshings of a page
MOST_PLACES_BACK = 50


class Window(QMainWindow):
    """The main window. It remembers its size in `settings`; it owns neither the book nor the lanes."""

    closing = Signal()
    changed = Signal(object)  # the kinds of entries that were written

    def __init__(
        self, setting: Setting, duty: Duty, lanes: TaskLanes, rooms: Sequence[Room], settings: QSettings
    ) -> None:
        super().__init__()
        self._setting, self._duty, self._settings = setting, duty, settings
        self.rooms = {room.key: room for room in rooms}
        self._back: list[Place] = []
        self.find_line = FindLine(setting)
        self.on_duty = label("", "strong")
        self.on_duty_words = label(self.tr("on duty"))
        self.lock = button(self.tr("lock"), "quiet", "Ctrl+L")
        self.kept = label("", "small")
        self.running = RunningTasks(lanes)
        self.index = QButtonGroup(self)
        self.duty_page = DutyPage(setting)
        self._poll = QTimer(self)
        self.read = label("", "cry", wrap=True)  # what a scanner read
        self.read.hide()
        self._read_over = QTimer(self)
        self._read_over.setSingleShot(True)
        self._read_over.setInterval(READ_SHOWN_MS)
        self.scanning = Scanning(setting, self._scanned, self.find_line, Pace().timer)
        self._listening = False
        self._news: set[str] = set()
        self._resting = QTimer(self)
        self._resting.setSingleShot(True)
        self._resting.setInterval(REST_MS)
        self._resting.timeout.connect(self._tell_news)
        self._lay_out(rooms)
        self._connect()
        self._restore()

    def _lay_out(self, rooms: Sequence[Room]) -> None:
        self.setWindowTitle(self.tr("Job book"))
        self.setMinimumSize(*look.SMALLEST_WINDOW)
        self.pages = QStackedWidget()
        for room in rooms:
            self.pages.addWidget(room)
        head = frame("head")
        side = look.MARGIN
        head.setLayout(
            row(
                self.find_line,
                row(self.on_duty, self.on_duty_words, self.lock, gap=look.UNIT // 2),
                gap=look.UNIT * 2,
                margin=(side, look.UNIT, side, look.UNIT),
            )
        )
        foot = frame("foot")
        foot.setLayout(row(self.kept, 1, self.running, margin=(side, look.UNIT // 2, side, look.UNIT // 2)))
        self.desk = QWidget()
        self.desk.setLayout(row(self._index(rooms), column(head, self.pages, self.read, foot, gap=0), gap=0))
        self.sides = QStackedWidget()
        self.sides.addWidget(self.desk)
        self.sides.addWidget(self.duty_page)
        self.setCentralWidget(self.sides)

    def _index(self, rooms: Sequence[Room]) -> QWidget:
        side = frame("index")
        side.setFixedWidth(look.INDEX_WIDTH)
        words = QVBoxLayout(side)
        words.setContentsMargins(0, look.UNIT * 2, 0, look.UNIT * 2)
        words.setSpacing(0)
        title = label(self.tr("Job book"), "book")
        words.addWidget(title)
        words.addSpacing(look.UNIT * 2)
        for place, room in enumerate(rooms):
            if place == len(rooms) - 1:
                words.addStretch(1)
            words.addWidget(self._word(room))
        return side

    def _word(self, room: Room) -> QPushButton:
        made = button(room.title, "index")
        made.setCheckable(True)
        made.setProperty("room", room.key)
        self.index.addButton(made)
        return made

    def _connect(self) -> None:
        self.index.buttonClicked.connect(lambda one: self.go(self.rooms[one.property("room")].list_place()))
        for room in self.rooms.values():
            room.go.connect(self.go)
            room.back.connect(self.go_back)
            room.made.connect(lambda page: widths.restore(page, self._settings))
        self.find_line.chosen.connect(self.go)
        self.lock.clicked.connect(self._duty.lock)
        self._duty.changed.connect(self._show_duty)
        self.duty_page.came.connect(self._duty.come)
        self.changed.connect(self._hear, Qt.ConnectionType.QueuedConnection)
        self._setting.book.on_change(self.changed.emit)
        self.scanning.said.connect(self._show_read)
        self._read_over.timeout.connect(self.read.hide)
        self._poll.timeout.connect(lambda: self.follow(self._setting.book.poll))
        self._shortcut("Ctrl+F", self._to_find)
        self._shortcut("Alt+Left", self.go_back)
        self._shortcut("Ctrl+T", lambda: self.go(a_call()))  # a telephone rings wherever one is
        self._shortcut("Ctrl+N", lambda: self.go(self._room().new_job()))
        for number, room in enumerate(self.rooms.values(), 1):
            self._shortcut(f"Ctrl+{number}", lambda room=room: self.go(room.list_place()))

    def _shortcut(self, keys: str, act: object) -> None:
        made = QShortcut(QKeySequence(keys), self.desk)
        made.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        made.activated.connect(act)

    def _room(self) -> Room:
        room = self.pages.currentWidget()
        assert isinstance(room, Room)
        return room

    def _to_find(self) -> None:
        self.find_line.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.find_line.selectAll()

    def _restore(self) -> None:
        geometry = self._settings.value("geometry")
        if not (isinstance(geometry, QByteArray) and self.restoreGeometry(geometry)):
            self.resize(*look.WINDOW_SIZE)
        first = next(iter(self.rooms.values()))  # what is due comes first, wherever somebody stopped yesterday
        self._poll.start(POLL_MS)
        self._show_kept()
        self.go(first.list_place())
        self._show_duty()

    def go(self, place: Place) -> None:
        """Show that place; where one was before can be gone back to with Alt and the left arrow."""
        here = self.place()
        if here is not None and here != place:
            self._back = [*self._back, here][-MOST_PLACES_BACK:]
        self._show(place)

    def go_back(self) -> None:
        first = next(iter(self.rooms.values()))
        self._show(self._back.pop() if self._back else first.list_place())

    def _show(self, place: Place) -> None:
        room = self.rooms[place.room]
        self.pages.setCurrentWidget(room)
        for one in self.index.buttons():
            one.setChecked(one.property("room") == place.room)
        room.arrive(place)

    def place(self) -> Place | None:
        room = self.pages.currentWidget()
        return room.place if isinstance(room, Room) else None

    def _show_duty(self) -> None:
        person = self._duty.person
        if person is None:
            self.sides.setCurrentWidget(self.duty_page)
            self._mind_the_scanner()
            return
        self.on_duty.setText(person.name)
        self.duty_page.remember(person.id)
        self.sides.setCurrentWidget(self.desk)
        self._mind_the_scanner()
        room = self.pages.currentWidget()
        if isinstance(room, Room):
            room.come_back()

    def listen_for_scans(self) -> None:
        """From now on a burst of keys is a scan, wherever the focus is."""
        self._listening = True
        self._mind_the_scanner()

    def _mind_the_scanner(self) -> None:
        """The locked window has a scanner of its own."""
        if self._listening and self.sides.currentWidget() is self.desk:
            self.scanning.scanner.begin()
        else:
            self.scanning.scanner.end()

    def _scanned(self, code: str) -> bool:
        room = self.pages.currentWidget()
        return isinstance(room, Room) and room.scanned(code)

    def _show_read(self, words: str, of_use: bool) -> None:
        look.as_role(self.read, "cry" if of_use else "held")
        self.read.setText(words)
        self.read.show()
        self._read_over.start()

    def _show_kept(self) -> None:
        look.as_role(self.kept, "small")
        at, entry = last_kept(self._setting.book)
        words = (
            self.tr("kept {0} · entry {1}").format(hour(at), thousands(entry)) if entry else self.tr("nothing kept yet")
        )
        self.kept.setText(words)

    def follow(self, look_for_others: Callable[[], object]) -> None:
        """Look for what other programs wrote. Where the book is out of reach the foot says so until it is back."""
        try:
            look_for_others()
        except BookError as error:
            look.as_role(self.kept, "error")
            self.kept.setText(str(error))
            return
        if self.kept.property("role") == "error":
            self._show_kept()

    def _hear(self, kinds: set[str]) -> None:
        """Something was written. The first change is shown at once, and what follows on its heels together."""
        self._news |= set(kinds)
        if not self._resting.isActive():
            self._tell_news()

    def _tell_news(self) -> None:
        if self._news:
            kinds, self._news = self._news, set()
            self._resting.start()
            self._refresh(kinds)

    def _refresh(self, kinds: set[str]) -> None:
        self._show_kept()
        self._look_at_duty()
        room = self.pages.currentWidget()
        if isinstance(room, Room):
            room.refresh(set(kinds))

    def _look_at_duty(self) -> None:
        """Whoever is on duty may have been given other permissions, or have left: then the window is locked."""
        here = self._duty.person
        if here is None:
            return
        now = get_person(self._setting.book, here.id)
        if not now.active:
            self._duty.lock()
        elif now != here:
            self._duty.come(now)

    def kept_words(self) -> str:
        """The foot's words on what is safely in the book."""
        return self.kept.text()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.find_line.results.hide()

    def closeEvent(self, event: QCloseEvent) -> None:
        self._poll.stop()
        self._read_over.stop()
        self._resting.stop()
        self.scanning.scanner.end()
        self._settings.setValue("geometry", self.saveGeometry())
        widths.keep(self, self._settings)
        self._settings.sync()
        self.closing.emit()
        super().closeEvent(event)
