"""Showing papers: a preview made aside, a paper that left, or the folder that they lie in. No Qt in here."""

from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from jobbook.core.errors import BookError
from jobbook.services import files, papers
from jobbook.ui.jobs.tabs.codes import OPEN_FILE
from jobbook.ui.jobs.tabs.papers import FOLDER, KINDS, OPEN, PREVIEW
from jobbook.ui.jobs.tabs.records import Deed
from jobbook.ui.setting import Setting


class Viewer(Protocol):
    """What can show a file of this machine."""

    def open_preview(self, name: str, content: bytes) -> None: ...

    def open_path(self, path: Path) -> None: ...

    def refuse(self, sentence: str) -> None: ...


class OpenedPapers:
    """Opens what a deed of the Papers tab names. Nothing of it writes the book."""

    def __init__(self, setting: Setting, viewer: Viewer) -> None:
        self._setting, self._viewer = setting, viewer
        self._shows: dict[str, Callable[[int, Deed], None]] = {
            PREVIEW: self._preview,
            OPEN: self._open,
            FOLDER: self._folder,
            OPEN_FILE: self._open_file,
        }

    def show(self, job: int, deed: Deed) -> None:
        try:
            self._shows[deed.key](job, deed)
        except BookError as error:
            self._viewer.refuse(str(error))

    def _preview(self, job: int, deed: Deed) -> None:
        book, kind = self._setting.book, deed.of
        self._setting.lanes.slow(
            f"Preview of the {KINDS[kind][0].lower()} paper, job {job}",
            lambda progress: papers.preview(book, job, kind),
            lambda content: self._viewer.open_preview(f"job-{job}-{kind}-preview.pdf", content),
            lambda error: self._viewer.refuse(str(error)),
        )

    def _open(self, job: int, deed: Deed) -> None:
        paper = next(one for one in papers.papers(self._setting.book, job) if one.digest == deed.of)
        self._viewer.open_path(papers.paper_path(self._setting.book, paper))

    def _folder(self, job: int, deed: Deed) -> None:
        paper = papers.papers(self._setting.book, job)[0]
        self._viewer.open_path(papers.paper_path(self._setting.book, paper).parent)

    def _open_file(self, job: int, deed: Deed) -> None:
        """A copy aside, so that another program cannot alter what the book keeps."""
        file = next(one for one in files.files_of(self._setting.book, job) if str(one.entry) == deed.of)
        self._viewer.open_preview(files.safe_name(file), files.content(self._setting.book, file.digest))
