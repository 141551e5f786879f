"""The presenter of pictures and files: what comes in is looked at in the slow lane and kept in the writing one."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Protocol

from jobbook.core.errors import BookError
from jobbook.core.people import Person
from jobbook.core.record.files import KeptFile, Mark
from jobbook.services import files
from jobbook.services.files import Added, Again, Ready, ShelfOf, Source
from jobbook.services.opened import last_kept
from jobbook.services.work import Written
from jobbook.ui.setting import Setting

SEEN = 1600  # pixels of the longer side of a picture that fills the sheet


class PicturesView(Protocol):
    """What the sheet can show."""

    def show_files(self, shelf: ShelfOf) -> None: ...

    def show_waiting(self, folder: str, waiting: tuple[Path, ...], coming: int) -> None:
        """What lies in the watched folder and is not in the book; an empty folder's name where none is watched.
        `coming` are still being written, and the folder is to be looked into again."""

    def show_left_out(self, sentences: tuple[str, ...], elsewhere: tuple[Again, ...]) -> None:
        """What was not kept and why; `elsewhere` are pictures that another job has, and that can be moved here."""

    def show_picture(self, file: KeptFile, jpeg: bytes) -> None: ...

    def open_copy(self, name: str, content: bytes) -> None: ...

    def kept(self, words: str) -> None: ...

    def copied(self, words: str) -> None:
        """Copies left the book, which keeps no entry of it: the words stay in sight."""

    def refuse(self, sentence: str) -> None: ...


class PicturesPresenter:
    """The files of one job, from `open` until another is opened."""

    def __init__(self, setting: Setting, view: PicturesView, folder: str = "") -> None:
        self._setting, self._view = setting, view
        self.job, self.folder = 0, folder
        self._looking = False
        self._seen = 0
        self._files: tuple[KeptFile, ...] = ()
        self._before: dict[int, str] = {}  # what the files that were assigned last belonged to

    def open(self, job: int) -> None:
        """Show the files of this job, and what waits in the watched folder."""
        self.job, self._before = job, {}
        self.refresh()
        self.look_into_folder()

    def refresh(self) -> None:
        try:
            self._show(files.shelf_of(self._setting.book, self.job))
        except BookError as error:
            self._view.refuse(str(error))

    def book_changed(self) -> None:
        """Something was written, here or by another program. What this sheet kept itself is shown already."""
        if last_kept(self._setting.book)[1] != self._seen:
            self.refresh()

    def _show(self, shelf: ShelfOf) -> None:
        self._seen = shelf.last
        self._files = tuple(one.file for one in shelf.shown)
        self._view.show_files(shelf)

    def take_in(self, sources: Sequence[Source], to: str = "") -> None:
        """Take files in: looked at away from the window, then kept in one write by whoever is on duty now."""
        if sources:
            self._setting.begin(lambda who: self._take_in(who, sources, to), self._refused)

    def _take_in(self, who: Person, sources: Sequence[Source], to: str) -> None:
        book, job = self._setting.book, self.job
        many = "1 file" if len(sources) == 1 else f"{len(sources)} files"
        self._setting.lanes.slow(
            f"{many} for job {job}",
            lambda pace: files.prepare(book, job, sources, pace=pace),
            lambda ready: self._keep_ready(who, job, ready, to),
            self._refused,
        )

    def _keep_ready(self, who: Person, job: int, ready: Ready, to: str) -> None:
        book = self._setting.book

        def kept() -> tuple[Added, ShelfOf]:
            return files.keep_ready(book, who, job, ready, to), files.shelf_of(book, job)

        self._setting.lanes.keep(kept, lambda result: self._added(job, *result), self._refused)

    def _added(self, job: int, added: Added, shelf: ShelfOf) -> None:
        if job != self.job:
            return
        if added.kept:
            self._view.kept(added.words)
        elsewhere = tuple(one for one in added.again if one.job != self.job)
        here = len(added.again) - len(elsewhere)
        again = ("1 file is here already; it was not kept twice." if here == 1 else f"{here} files are here already; "
                 "none was kept twice.",) if here else ()  # fmt: skip
        self._view.show_left_out((*added.refused, *again), elsewhere)
        self._show(shelf)
        self.look_into_folder()

    def _refused(self, error: BookError) -> None:
        self._view.refuse(str(error))

    # what is said of files

    def assign(self, entries: Sequence[int], to: str) -> None:
        self._before = {file.entry: file.to for file in self._files if file.entry in entries}
        self._say(entries, lambda who: files.assign(self._setting.book, who, self.job, entries, to))

    def can_undo(self) -> bool:
        """Whether the files that were assigned last are all here still."""
        return bool(self._before) and {file.entry for file in self._files} >= self._before.keys()

    def undo(self) -> None:
        """Let the files that were assigned last belong to what they belonged to before."""
        book, job, before = self._setting.book, self.job, self._before

        def undone(who: Person) -> Written:
            for to in sorted(set(before.values())):
                done = files.assign(book, who, job, [entry for entry in before if before[entry] == to], to)
            return done

        self._before = {}
        self._say(tuple(before), undone)

    def choose(self, entries: Sequence[int], chosen: bool) -> None:
        self._say(entries, lambda who: files.choose(self._setting.book, who, self.job, entries, chosen))

    def take_away(self, entries: Sequence[int], reason: str) -> None:
        self._say(entries, lambda who: files.take_away(self._setting.book, who, self.job, entries, reason))

    def bring_back(self, entries: Sequence[int], reason: str) -> None:
        self._say(entries, lambda who: files.bring_back(self._setting.book, who, self.job, entries, reason))

    def erase(self, entries: Sequence[int], reason: str) -> None:
        self._say(entries, lambda who: files.erase(self._setting.book, who, self.job, entries, reason))

    def move(self, entries: Sequence[int], to: str, reason: str) -> None:
        """Move files to the job of that number."""
        number = int(to) if to.strip().isdecimal() else 0
        self._say(entries, lambda who: files.move_files(self._setting.book, who, self.job, entries, number, reason))

    def move_here(self, found: Sequence[Again], reason: str) -> None:
        """Move pictures that another job has to this one."""
        book, job = self._setting.book, self.job

        def moved(who: Person) -> Written:
            for number in sorted({one.job for one in found}):
                these = [one.entry for one in found if one.job == number]
                done = files.move_files(book, who, number, these, job, reason)
            return done

        self._say([one.entry for one in found], moved)

    def mark(self, entry: int, marks: tuple[Mark, ...]) -> None:
        self._say([entry], lambda who: files.set_marks(self._setting.book, who, self.job, entry, marks))

    def _say(self, entries: Sequence[int], use_case: Callable[[Person], Written]) -> None:
        if not entries:
            self._view.refuse("Choose files first: click them, or walk to them and press Space.")
            return
        book, job = self._setting.book, self.job
        self._setting.keep(lambda who: (use_case(who), files.shelf_of(book, job)), self._said, self._refused)

    def _said(self, result: tuple[Written, ShelfOf]) -> None:
        written, shelf = result
        self._view.kept(written.words)
        self._show(shelf)

    # looking

    def look_at(self, file: KeptFile) -> None:
        """Show a picture large; another file is opened by its own program, as a copy."""
        book = self._setting.book
        if not file.is_picture:
            try:
                self._view.open_copy(files.safe_name(file), files.content(book, file.digest))
            except BookError as error:
                self._refused(error)
            return
        self._setting.lanes.slow(
            file.called,
            lambda pace: files.view(book, file, SEEN),
            lambda jpeg: self._view.show_picture(file, jpeg),
            self._refused,
        )

    def small(self, file: KeptFile) -> bytes:
        return files.small_picture(self._setting.book, file)

    def copy_out(self, entries: Sequence[int], folder: str) -> None:
        """Write copies that may leave into a folder, away from the window."""
        book, job = self._setting.book, self.job
        self._setting.lanes.slow(
            f"Copies of files of job {job}",
            lambda pace: files.copies_out(book, job, entries, Path(folder).expanduser()),
            lambda paths: self._view.copied(_copied(paths)),
            self._refused,
        )

    # the watched folder

    def watch(self, folder: str) -> None:
        """From now on say what lies new in this folder; "" watches none."""
        self.folder = folder.strip()
        self.look_into_folder()

    def look_into_folder(self) -> None:
        """Look for new files there, away from the window."""
        if not self.folder or not self.job:
            self._view.show_waiting("", (), 0)
            return
        if self._looking:
            return
        self._looking = True
        book, job, folder = self._setting.book, self.job, self.folder
        self._setting.lanes.slow(
            "The watched folder",
            lambda pace: files.waiting_in(book, job, Path(folder).expanduser()),
            lambda found: self._waiting(job, *found),
            self._not_looked,
        )

    def _waiting(self, job: int, waiting: tuple[Path, ...], coming: int) -> None:
        self._looking = False
        if job == self.job:
            self._view.show_waiting(self.folder, waiting, coming)

    def _not_looked(self, error: BookError) -> None:
        self._looking = False
        self._view.refuse(str(error))


def _copied(paths: Sequence[Path]) -> str:
    many = "1 file was" if len(paths) == 1 else f"{len(paths)} files were"
    return f"{many} copied into {paths[0].parent}."
