"""The composition root: opens the book or begins one, builds the window, wires them. It alone knows every layer."""

import os
import platform
import sys
from pathlib import Path

import platformdirs
from PySide6.QtCore import QSettings, QSize, QTimer, qVersion
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication

from jobbook.core.errors import BookError
from jobbook.core.people import Person
from jobbook.services.opened import OpenBook, needs_start, open_book
from jobbook.ui import look
from jobbook.ui.crash import CrashWatch
from jobbook.ui.duty import Duty
from jobbook.ui.frame import build_window
from jobbook.ui.setting import Setting
from jobbook.ui.start.first_start import FirstStart
from jobbook.ui.start.trouble import TroubleDialog
from jobbook.ui.tasks import TaskLanes
from jobbook.ui.window import Window

NAME = "jobbook"
TROUBLE = 2  # exit status where the book cannot be opened


def run(place: str | None = None) -> int:
    """Open the window on the book at that place, or on the user's own book. The exit status of the program."""
    place = place or str(default_place())
    sentence = screen_trouble(dict(os.environ))
    if sentence:
        sys.stderr.write(sentence + "\n")
        return TROUBLE
    application = QApplication([NAME])
    program = Program(application, place, window_settings())
    if not program.begin():
        return TROUBLE
    status = application.exec()
    program.end()
    return status


def default_place() -> Path:
    return platformdirs.user_data_path(NAME) / "book"


def window_settings() -> QSettings:
    """Where the window remembers its size, its room and its scheme; nothing of the workshop stands in it."""
    folder = platformdirs.user_config_path(NAME)
    return QSettings(str(folder / "window.ini"), QSettings.Format.IniFormat)


def screen_trouble(environment: dict[str, str]) -> str:
    """The sentence where no window can be shown on this machine, or nothing."""
    shown = any(environment.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"))
    if sys.platform.startswith("linux") and not shown:
        return "The window cannot be opened: there is no screen here. The commands of `jobbook --help` need none."
    return ""


def place_trouble(place: str) -> str:
    """The sentence where no book can lie at this place, or nothing."""
    if "://" not in place and Path(place).exists() and not Path(place).is_dir():
        return (
            f"{place} is a file, and a book is a folder: nothing was changed. Name the folder of a book, or a new one."
        )
    return ""


def fits(window: QSize, screen: QSize) -> bool:
    """Whether a window of that size, with its title and edges, stands on the screen with its foot in sight."""
    return window.width() < screen.width() and window.height() + look.TITLE_BAR < screen.height()


class Program:
    """One run of the window: from `begin` until the last window is closed, then `end`."""

    def __init__(self, application: QApplication, place: str, settings: QSettings) -> None:
        self._application, self._place, self._settings = application, place, settings
        self.lanes = TaskLanes()
        self.book: OpenBook | None = None
        self.window: Window | None = None
        self.first_start: FirstStart | None = None
        self._crash = CrashWatch(program_facts, self._kept_words, lambda: self.window or self.first_start)
        self._follow_the_system()

    def begin(self) -> bool:
        """Show the first start or the book. False where the book cannot be opened; the sentence was shown then."""
        self._crash.begin()
        sentence = place_trouble(self._place)
        try:
            if not sentence and needs_start(self._place):
                self._ask_for_a_book()
            elif not sentence:
                self._open(open_book(self._place), None)
        except BookError as error:
            sentence = str(error)
        if sentence:
            self._say(sentence)
            self.end()
        return not sentence

    def end(self) -> None:
        """Finish what is being written, then close the book."""
        self.lanes.close()
        if self.book is not None:
            self.book.close()
            self.book = None
        self._crash.end()

    def _ask_for_a_book(self) -> None:
        self.first_start = FirstStart(self._place, self.lanes)
        self.first_start.resize(*look.WINDOW_SIZE)
        self.first_start.created.connect(self._open)
        self.first_start.show()

    def _open(self, book: OpenBook, person: Person | None) -> None:
        self.book = book
        duty = Duty(person)
        setting = Setting(book, duty, self.lanes)
        is_first = not self._settings.contains("geometry")
        self.window = build_window(setting, duty, self.lanes, self._settings, self._wish)
        if is_first and not fits(self.window.size(), self.window.screen().availableSize()):
            self.window.showMaximized()
        else:
            self.window.show()
        self.window.listen_for_scans()
        QTimer.singleShot(0, self.window, lambda: self._go_on_with_imports(setting))
        if self.first_start is not None:
            self.first_start.close()

    def _go_on_with_imports(self, setting: Setting) -> None:
        from jobbook.ui.shop.lists_presenter import go_on_with_imports  # the window is there before it is read

        go_on_with_imports(setting)

    def _say(self, sentence: str) -> None:
        sys.stderr.write(sentence + "\n")
        if QGuiApplication.platformName() not in ("offscreen", "minimal"):
            TroubleDialog("The book was not opened", sentence).exec()

    def _kept_words(self) -> str:
        if self.window is None:
            return "Nothing was written yet."
        return (
            f"What was in the book stays in it, up to the foot of the window: {self.window.kept_words()}. "
            "What you were just doing may not have been kept: look before you do it again."
        )

    def _follow_the_system(self) -> None:
        self._dress()
        QGuiApplication.styleHints().colorSchemeChanged.connect(lambda _: self._dress())

    def _wish(self, scheme: str) -> None:
        """Somebody chose "system", "light" or "dark"."""
        self._settings.setValue("scheme", scheme)
        self._dress()

    def _dress(self) -> None:
        wish = str(self._settings.value("scheme", "system"))
        look.dress(self._application, wish if wish in look.SCHEMES else look.scheme_of_the_system())


def program_facts() -> dict[str, str]:
    """What a report of an error says of the program and the machine; nothing of the workshop."""
    from importlib.metadata import PackageNotFoundError, version  # only a report asks for them

    try:
        own = version(NAME)
    except PackageNotFoundError:
        own = "from source"
    return {
        "job book": own,
        "Python": platform.python_version(),
        "Qt": qVersion() or "",
        "system": f"{platform.system()} {platform.release()}",
        "screen": QGuiApplication.platformName(),
    }
