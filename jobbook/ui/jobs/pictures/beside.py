"""What stands beside the left page: the right page of the job, or in its place its pictures and files."""

from collections.abc import Sequence

from PySide6.QtWidgets import QStackedWidget, QWidget

from jobbook.services.files import Source
from jobbook.ui.jobs.pictures.sheet import PicturesSheet


class Beside(QStackedWidget):
    """Shows the job, until somebody asks for its pictures."""

    def __init__(self, job: QWidget, pictures: PicturesSheet, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._job, self._pictures = job, pictures
        self.addWidget(job)
        self.addWidget(pictures)

    def shows_job(self) -> bool:
        return self.currentWidget() is self._job

    def show_job(self) -> None:
        self.setCurrentWidget(self._job)

    def show_pictures(self, number: int) -> None:
        """Show the pictures of that job; pressed again they go."""
        if not self.shows_job():
            return
        self.setCurrentWidget(self._pictures)
        self._pictures.open_job(number)

    def take_in(self, number: int, sources: Sequence[Source], to: str) -> None:
        """Take files in for that job, also while its pictures are not shown."""
        self._pictures.presenter.job = number
        self._pictures.presenter.take_in(sources, to)

    def refresh(self) -> None:
        """The book changed: what is shown of the pictures is read again."""
        if not self.shows_job():
            self._pictures.presenter.book_changed()
