"""Backups: how they stand, one made now while the work goes on, and how often one is asked for."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Protocol

from jobbook.services.house import backups
from jobbook.services.house.backups import KEY_WORDS, NO_KEY_WORDS, LastBackup
from jobbook.services.house.putting_off import put_off_words
from jobbook.ui.backing_up import BackingUp
from jobbook.ui.setting import Setting

if TYPE_CHECKING:
    from jobbook.services.house.backups import Written


class BackupView(Protocol):
    """What the page can show."""

    def show_state(self, last: LastBackup, put_off: str) -> None: ...

    def show_busy(self, busy: bool) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_written(self, sentence: str) -> None: ...

    def refuse_days(self, sentence: str) -> None: ...

    def show_days_kept(self) -> None: ...


class BackupPresenter:
    """Writes a backup away from the window's thread, then notes it in the book."""

    def __init__(self, setting: Setting, view: BackupView) -> None:
        self._setting, self._view = setting, view
        self._backing_up = BackingUp(setting, view, self._written, self.open)

    def open(self) -> None:
        self._view.show_state(backups.last_backup(self._setting.book), put_off_words(self._setting.book))

    def back_up(self, answers: Mapping[str, str]) -> None:
        """Begin; the foot of the window shows how far it is, and can stop it."""
        self._backing_up.begin(answers["place"], with_key=answers["with_key"] == "yes")

    def _written(self, written: "Written") -> None:
        manifest = written.manifest
        words = f"{written.file}: written and read back, up to entry {manifest.head.size}."
        self._view.show_written(f"{words} {KEY_WORDS if manifest.with_key else NO_KEY_WORDS}")

    def keep_days(self, answers: Mapping[str, str]) -> None:
        book = self._setting.book
        self._setting.keep(
            lambda who: backups.keep_backup_days(book, who, answers["days"]),
            lambda _: self._view.show_days_kept(),
            lambda error: self._view.refuse_days(str(error)),
        )
