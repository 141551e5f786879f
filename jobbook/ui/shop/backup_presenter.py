"""Backups: how they stand, one made now while the work goes on, and how often one is asked for."""

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from jobbook.core.errors import BookError
from jobbook.core.people import Person
from jobbook.services.house import backups
from jobbook.services.house.backups import KEY_WORDS, NO_KEY_WORDS, LastBackup
from jobbook.ui.setting import Setting

if TYPE_CHECKING:
    from jobbook.services.house.backups import Written


class BackupView(Protocol):
    """What the page can show."""

    def show_state(self, last: LastBackup) -> None: ...

    def show_busy(self, busy: bool) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_written(self, sentence: str) -> None: ...

    def refuse_days(self, sentence: str) -> None: ...

    def show_days_kept(self) -> None: ...


class BackupPresenter:
    """Writes a backup away from the window's thread, then notes it in the book."""

    def __init__(self, setting: Setting, view: BackupView) -> None:
        self._setting, self._view = setting, view
        self._busy = False

    def open(self) -> None:
        self._view.show_state(backups.last_backup(self._setting.book))

    def back_up(self, answers: Mapping[str, str]) -> None:
        """Begin; the foot of the window shows how far it is, and can stop it."""
        if not self._busy:
            self._setting.begin(lambda who: self._back_up(who, answers), lambda error: self._view.refuse(str(error)))

    def _back_up(self, who: Person, answers: Mapping[str, str]) -> None:
        self._set_busy(True)
        book, place = self._setting.book, Path(answers["place"].strip()).expanduser()
        with_key = answers["with_key"] == "yes"
        self._setting.lanes.slow(
            "Backing up",
            lambda running: backups.write(book, who, place, with_key=with_key, running=running),
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
        self.open()
        manifest = written.manifest
        words = f"{written.file}: written and read back, up to entry {manifest.head.size}."
        self._view.show_written(f"{words} {KEY_WORDS if manifest.with_key else NO_KEY_WORDS}")

    def _refused(self, error: BookError) -> None:
        self._set_busy(False)
        self.open()
        self._view.refuse(str(error))

    def _set_busy(self, busy: bool) -> None:
        self._busy = busy
        self._view.show_busy(busy)

    def keep_days(self, answers: Mapping[str, str]) -> None:
        book = self._setting.book
        self._setting.keep(
            lambda who: backups.keep_backup_days(book, who, answers["days"]),
            lambda _: self._view.show_days_kept(),
            lambda error: self._view.refuse_days(str(error)),
        )
