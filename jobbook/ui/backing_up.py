"""A backup written away from the window's thread, then noted in the book. No Qt in here."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from jobbook.core.errors import BookError
from jobbook.core.people import Person
from jobbook.services.house import backups
from jobbook.ui.keeping import KeepingView
from jobbook.ui.setting import Setting

if TYPE_CHECKING:
    from jobbook.services.house.backups import Written


class BackingUp:
    """One at a time; the foot of the window shows how far it is, and can stop it. `ended` is told either way, before
    the view is told what came of it."""

    def __init__(
        self, setting: Setting, view: KeepingView, written: "Callable[[Written], None]", ended: Callable[[], None]
    ) -> None:
        self._setting, self._view = setting, view
        self._tell, self._ended = written, ended
        self._busy = False

    def begin(self, place: str, *, with_key: bool = False) -> None:
        """Begin to write it into that folder, as the person on duty."""
        if not self._busy:
            self._setting.begin(
                lambda who: self._write(who, place, with_key), lambda error: self._view.refuse(str(error))
            )

    def _write(self, who: Person, place: str, with_key: bool) -> None:
        if not place.strip():
            self._view.refuse("No backup was made: choose the folder or the stick that it goes to.")
            return
        self._set_busy(True)
        book, folder = self._setting.book, Path(place.strip()).expanduser()
        self._setting.lanes.slow(
            "Backing up",
            lambda running: backups.write(book, who, folder, with_key=with_key, running=running),
            lambda written: self._note(who, written),
            self._refused,
        )

    def _note(self, who: Person, written: "Written") -> None:
        book = self._setting.book
        self._setting.lanes.keep(
            lambda: backups.note(book, who, written), lambda _: self._written(written), self._refused
        )

    def _written(self, written: "Written") -> None:
        self._set_busy(False)
        self._ended()
        self._tell(written)

    def _refused(self, error: BookError) -> None:
        self._set_busy(False)
        self._ended()
        self._view.refuse(str(error))

    def _set_busy(self, busy: bool) -> None:
        self._busy = busy
        self._view.show_busy(busy)
