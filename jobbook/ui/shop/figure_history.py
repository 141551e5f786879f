"""Under the card of a figure: since when it holds, what was before it, the second look, and jobs done with another."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from jobbook.services.sheet.sheets import Ask
from jobbook.services.vehicle.figure_story import FigureStory, use_words
from jobbook.ui import controls, look
from jobbook.ui.jobs.deed_form import DeedForm
from jobbook.ui.jobs.rows import clear, label
from jobbook.ui.jobs.signing import Signers

MOST_JOBS = 12


class FigureHistory(QWidget):
    """`looked` carries the answers of a second look; `job_wanted` the number of a job that was done with another."""

    looked = Signal(dict)
    job_wanted = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, look.UNIT, 0, 0)
        self._column.setSpacing(look.UNIT // 4)
        self.form: DeedForm | None = None
        self.ask = QWidget(self)  # the button of a second look, where one is wanted
        self.ask.hide()
        self._frame = controls.frame("card")

    def show_story(self, story: FigureStory | None, signers: Signers) -> None:
        """Show it; None where no figure is chosen."""
        self.form = None
        clear(self._column)
        if story is None:
            return
        self._column.addWidget(_line(story.said))
        if story.doubt:
            self._column.addWidget(_line(story.doubt, "caution"))
        for line in (*story.coming, *story.earlier):
            self._column.addWidget(_line(line))
        self._show_jobs(story)
        if story.wants_look:
            ask = controls.button(self.tr("Second look…"))
            ask.clicked.connect(lambda: self._ask(signers))
            self.ask = controls.holding(controls.row(ask, 1))
            self._column.addWidget(self.ask)

    def _show_jobs(self, story: FigureStory) -> None:
        if not story.older:
            return
        heading = self.tr("Done with another figure: {0}").format(len(story.older))
        self._column.addWidget(label(heading, "heading"))
        for use in story.older[:MOST_JOBS]:
            word = controls.button(self.tr("Job {0}").format(use.job), "line")
            word.clicked.connect(lambda _=False, job=use.job: self.job_wanted.emit(job))
            self._column.addWidget(controls.holding(controls.row(word, label(use_words(use), "soft"), 1)))

    def _ask(self, signers: Signers) -> None:
        """Whoever looked signs; what they read otherwise is kept beside the figure."""
        if self.form is not None:
            return
        doubt = Ask("doubt", self.tr("Read otherwise? What the document says"), required=False)
        asks = (doubt, *signers.asks(self.tr("Looked at by"), self.tr("PIN or badge"), another=True))
        self.form = DeedForm(asks, self.tr("Sign"), self.tr("Read the figure in the document yourself, then sign."))
        self.form.handed_in.connect(self.looked)
        self.form.cancelled.connect(self._give_up)
        self._frame = controls.frame("card")
        self._frame.setLayout(controls.column(self.form, margin=look.UNIT * 2))
        self._column.addWidget(self._frame)
        self.ask.hide()
        self.form.begin()

    def _give_up(self) -> None:
        if self.form is not None:
            self._frame.hide()
            self._frame.deleteLater()
            self.form = None
            self.ask.show()

    def refuse(self, sentence: str) -> None:
        if self.form is not None:
            self.form.refuse(sentence)


def _line(words: str, role: str = "soft") -> QLabel:
    """A line that wraps in the card; without its least width it would ask for the height of the narrowest one."""
    made = label(words, role, wrap=True)
    made.setMinimumWidth(look.FIELD_WIDTH)
    return made
