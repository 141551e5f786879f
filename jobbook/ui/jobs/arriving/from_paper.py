"""The form with which an old job is keyed in from its paper."""

from PySide6.QtWidgets import QWidget

from jobbook.services.work import Written
from jobbook.ui import look
from jobbook.ui.controls import Facing, Said, button, column, frame, label, row, scrolling
from jobbook.ui.forms import Form, Section
from jobbook.ui.jobs.arriving.from_paper_presenter import FromPaperPresenter
from jobbook.ui.places import Place
from jobbook.ui.rooms import Page
from jobbook.ui.setting import Setting

NAMED = ("vin", "plate", "customer")  # what the book may know already


class FromPaperPage(Page):
    """Paper and vehicle on the left, what it was about on the right. After one paper the form waits for the next."""

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = FromPaperPresenter(setting, self, self._kept)
        asked = self.presenter.asks()
        self.paper = Form((Section(self.tr("The paper")), *asked.paper), columns=2)
        self.vehicle = Form((Section(self.tr("The vehicle")), *asked.vehicle), columns=2)
        self.found = Form((Section(self.tr("What it was about")), *asked.found))
        self.forms = (self.paper, self.vehicle, self.found)
        self.explain = label(
            self.tr("What the paper does not say is left empty, and stands as unknown in the book."), "soft", wrap=True
        )
        self.said = Said("caution")
        self.told = Said("cry")
        self.keep = button(self.tr("Keep the paper"), "main", "Ctrl+Return")
        self.leave = button(self.tr("Leave"), "quiet", "Esc")
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        left, right = frame("sheet"), frame("sheet")
        left.setLayout(column(self.paper, self.vehicle, 1, margin=look.UNIT * 2, gap=look.UNIT * 2))
        right.setLayout(column(self.found, 1, margin=look.UNIT * 2))
        head = row(label(self.tr("An old job from its paper"), "title"), 1, self.leave, self.keep)
        content = (head, self.explain, self.told, self.said, scrolling(Facing(left, right, alike=True)))
        self.setLayout(column(*content, margin=look.MARGIN, gap=look.UNIT * 3 // 2))
        self.found.leads_to(self.keep, self.leave)

    def _connect(self) -> None:
        for before, after in zip(self.forms, self.forms[1:], strict=False):
            before.goes_on_in = after
        self.keep.clicked.connect(self._hand_in)
        self.leave.clicked.connect(self.back)
        for form in self.forms:
            form.changed.connect(self._typed)

    def answers(self) -> dict[str, str]:
        return {name: text for form in self.forms for name, text in form.answers().items()}

    def _typed(self, name: str) -> None:
        self.refuse("")
        if name in NAMED:
            told = self.answers()
            self.presenter.typed(told["vin"], told["plate"], told["customer"])

    def _hand_in(self) -> None:
        if self.paper.is_complete():
            self.presenter.keep(self.answers())

    def arrive(self, place: Place) -> None:
        """What was begun and left still stands."""
        self._tell("")
        self.paper.focus_first()

    def _kept(self, kept: Written) -> None:
        for form in self.forms:
            form.clear()
        self._tell(self.tr("{what}. The next paper can be keyed in.").format(what=kept.words))
        self.paper.focus_first()

    def _tell(self, sentence: str) -> None:
        self.told.setText(sentence)

    def hint(self, name: str, sentence: str) -> None:
        (self.paper if name in self.paper.fields else self.vehicle).fields[name].hint(sentence)

    def refuse(self, sentence: str) -> None:
        self.said.setText(sentence)

    def show_busy(self, busy: bool) -> None:
        self.keep.setEnabled(not busy)
