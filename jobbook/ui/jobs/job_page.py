"""A job as two facing pages: the left one always in sight, the right one in tabs."""

from datetime import date, datetime
from pathlib import Path

from PySide6.QtCore import QEvent, QSettings, QSize, Qt, QTemporaryDir, QUrl, Signal
from PySide6.QtGui import (
    QDesktopServices,
    QDragEnterEvent,
    QDropEvent,
    QKeyEvent,
    QKeySequence,
    QResizeEvent,
    QShortcut,
)
from PySide6.QtWidgets import QLayout, QWidget

from jobbook.core.errors import BookError
from jobbook.services.job.methods import MethodCard
from jobbook.services.sheet.lacking import Lacking
from jobbook.services.sheet.sheets import JobSheet
from jobbook.ui import controls, look
from jobbook.ui.jobs.head import JobHead
from jobbook.ui.jobs.job_presenter import JobPresenter
from jobbook.ui.jobs.left import LeftPage
from jobbook.ui.jobs.pictures.arriving import carries_files, sources_of
from jobbook.ui.jobs.pictures.beside import Beside
from jobbook.ui.jobs.pictures.sheet import PicturesSheet
from jobbook.ui.jobs.right import RightPage
from jobbook.ui.jobs.signing import Signers
from jobbook.ui.jobs.tabs.of_job import TABS
from jobbook.ui.jobs.tabs.page import TabPage
from jobbook.ui.jobs.tabs.records import TabSheet
from jobbook.ui.jobs.working.job_steps import first_tab
from jobbook.ui.jobs.working.work import WorkTab
from jobbook.ui.jobs.working.work_card import StepCard
from jobbook.ui.places import Place
from jobbook.ui.rooms import Page
from jobbook.ui.setting import Setting

WORK, CHECKS = "work", "checks"
ORDER = ("arrival", "diagnosis", "permission", "parts", WORK, CHECKS, "papers")
FILES = {"file/1", "file-assigned/1", "file-chosen/1", "file-marked/1"}  # what changes nothing on the left page
MARGIN = look.UNIT * 5 // 2


class JobPage(Page):
    """One job. What a person does goes to the presenter; what it kept or refused is shown here."""

    said = Signal(str)  # what was kept, in words

    def __init__(self, setting: Setting, settings: QSettings | None = None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._setting = setting
        self.presenter = JobPresenter(setting, self)
        self._previews = QTemporaryDir()
        self._shown: tuple[JobSheet, Signers] | None = None
        self._scheme = look.scheme_in_use()
        self.head = JobHead()
        self.left = LeftPage()
        self.work = WorkTab(self._now)
        self.tabs = {key: TabPage(self._today) for key in TABS}
        self.right = RightPage({key: self.work if key == WORK else self.tabs[key] for key in ORDER})
        self.pictures = PicturesSheet(setting, settings)
        self.beside = Beside(self.right, self.pictures)
        self._sentence = controls.Said("caution")
        self._lay_out()
        self._connect()

    def _now(self) -> datetime:
        return self._setting.book.clock()

    def _today(self) -> date:
        return self._now().date()

    def _lay_out(self) -> None:
        facing = controls.row(self.left, self.beside, gap=look.UNIT * 2)
        facing.setStretchFactor(self.beside, 1)
        page = controls.column(self.head, self._sentence, gap=0)
        page.addLayout(facing, 1)
        page.setContentsMargins(MARGIN, look.UNIT // 2, MARGIN, look.UNIT * 3 // 2)
        page.setSizeConstraint(QLayout.SizeConstraint.SetNoConstraint)
        self.setLayout(page)

    def _connect(self) -> None:
        self.left.all_wanted.connect(lambda: self.right.open_tab(CHECKS))
        self.right.tab_opened.connect(self.presenter.open_tab)
        self.right.tab_opened.connect(lambda _: self._show_job())
        self.work.steps.step_wanted.connect(self.presenter.open_step)
        self.work.begin_wanted.connect(self.presenter.ask_to_begin)
        self.work.begin_panel.begun.connect(self.presenter.begin)
        self.work.added.connect(self.presenter.add_thing)
        self.work.passing_wanted.connect(self.presenter.ask_to_pass_on)
        self.work.passing.passed.connect(self.presenter.pass_on)
        self.work.passing.taken.connect(self.presenter.take_on)
        self.work.figure_form.entered.connect(self.presenter.enter_figures)
        self.work.steps.card_made.connect(self._connect_card)
        self.work.strip.signed.connect(self.presenter.sign)
        self.work.strip.undone.connect(self.presenter.undo)
        for tab in self.tabs.values():
            tab.done.connect(self.presenter.do)
        undo = QShortcut(QKeySequence(QKeySequence.StandardKey.Undo), self)
        undo.activated.connect(self.work.strip.undo_last)
        self.head.files.clicked.connect(self.open_pictures)
        self.pictures.said.connect(self.said)
        self.pictures.counted.connect(self.head.show_files)
        self.pictures.closed.connect(self._back_from_pictures)
        self.setAcceptDrops(True)
        paste = QShortcut(QKeySequence(QKeySequence.StandardKey.Paste), self)
        paste.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        paste.activated.connect(self.paste)

    def _connect_card(self, card: StepCard) -> None:
        card.chosen.connect(self.presenter.choose)
        card.happened.connect(self.presenter.keep_as_happened)
        card.allowed.connect(self.presenter.allow)
        card.corrected.connect(self.presenter.correct)
        card.undone.connect(self.presenter.undo)
        card.wait_over.connect(self.presenter.refresh)
        card.figures_wanted.connect(self.work.ask_figures)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.left.stand_beside(self.width())

    def minimumSizeHint(self) -> QSize:
        return QSize(look.LEFT_PAGE_WIDTH * 2, look.LEFT_PAGE_WIDTH)

    def arrive(self, place: Place) -> None:
        """Show the job of that number, with the focus on the act that comes next."""
        try:
            self.presenter.open(place.number)
        except BookError as error:
            self._say(str(error))
            return
        self._say("")
        if place.name:
            self.right.open_tab(place.name)
        self._take_focus()

    def open_pictures(self) -> None:
        """Show the job's pictures and files in the place of its right page."""
        if self._shown is not None:
            self.beside.show_pictures(self._shown[0].number)

    def _back_from_pictures(self) -> None:
        self.presenter.book_changed()
        self._show_job()

    def _show_job(self) -> None:
        self.beside.show_job()
        self._take_focus()

    def paste(self) -> None:
        """Take in the picture or the files that lie in the clipboard."""
        self.open_pictures()
        self.pictures.paste_here()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if carries_files(event.mimeData()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """What is dropped on the open step belongs to it; what is dropped elsewhere waits in the tray."""
        sources = sources_of(event.mimeData())
        card, at = self.work.card, event.position().toPoint()
        on_step = card is not None and card.isVisible() and card.rect().contains(card.mapFrom(self, at))
        to = self.presenter.step_at_hand() if on_step else ""
        event.acceptProposedAction()
        if not on_step:
            self.open_pictures()
        self.beside.take_in(self._shown[0].number if self._shown else 0, sources, to)

    def _take_focus(self) -> None:
        """The focus is where work goes on: on the act that comes next, or on the open tab."""
        if self.right.current() == WORK:
            self.work.take_focus()
        else:
            self.right.focus_tab()

    def come_back(self) -> None:
        """Somebody is on duty again: what is open stays open, and it is they who are asked to sign."""
        self.presenter.refresh()
        if not self._is_asking():
            self._take_focus()

    def _is_asking(self) -> bool:
        if not self.beside.shows_job():
            return self.pictures.is_asking()
        if self.right.current() != WORK:
            return self.tabs[self.right.current()].is_asking()
        if self.work.passing.is_asking():
            return True
        return self.work.card is not None and self.work.card.is_asking()

    def refresh(self, kinds: set[str]) -> None:
        if self.beside.shows_job() or not kinds <= FILES:
            self.presenter.book_changed()
        self.beside.refresh()

    def scanned(self, code: str) -> bool:
        """Take a scanned badge as the signature that is being asked for; false where none is."""
        shown = self.work if self.right.current() == WORK else self.tabs[self.right.current()]
        return shown.scanned(code)

    # what the presenter shows

    def show_sheet(self, sheet: JobSheet, signers: Signers) -> None:
        other = self._shown is None or self._shown[0].number != sheet.number
        if other:
            self._close_forms()
            self.work.steps.drop_card()
            self.beside.show_job()
            for tab in self.tabs.values():
                tab.about = sheet.number
        self._shown = (sheet, signers)
        self.head.show_sheet(sheet)
        self.left.show_sheet(sheet, self._today())
        self.right.show_tabs(sheet.tabs)
        self.work.show_sheet(sheet, signers)
        if other:
            self.right.open_tab(first_tab(sheet))

    def show_tab(self, key: str, tab: TabSheet, signers: Signers) -> None:
        self.tabs[key].show_tab(tab, signers)

    def show_methods(self, cards: tuple[MethodCard, ...]) -> None:
        self.work.offer(cards)

    def show_what_is_open(self, loose: tuple[str, ...], signers: Signers) -> None:
        self.work.passing.ask(loose, signers)

    def show_lacking(self, lack: Lacking) -> None:
        self.work.show_lacking(lack)

    def refuse(self, sentence: str) -> None:
        """Say it where it was asked: on the card, under the strip, or on the open tab."""
        current = self.right.current()
        (self.work if current == WORK else self.tabs[current]).refuse(sentence)

    def ask_to_confirm(self, sentence: str) -> None:
        self.work.ask_to_confirm(sentence)

    def kept(self, words: str) -> None:
        self.work.close_forms()
        for tab in self.tabs.values():
            tab.kept()
        if words:
            self.said.emit(words)

    def _close_forms(self) -> None:
        self.work.close_forms()
        for tab in self.tabs.values():
            tab.close_form()

    def open_preview(self, name: str, content: bytes) -> None:
        """Show a preview in the system's viewer. It lies in a folder of its own that goes when the page goes."""
        path = Path(self._previews.path()) / name
        path.write_bytes(content)
        self.open_path(path)

    def open_path(self, path: Path) -> None:
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(path)))

    def _say(self, sentence: str) -> None:
        self._sentence.setText(sentence)

    def changeEvent(self, event: QEvent) -> None:
        """Words in several colours carry them in their text, so they are written again when the scheme changes."""
        super().changeEvent(event)
        if self._scheme != look.scheme_in_use() and self._shown is not None:
            self._scheme = look.scheme_in_use()
            self.left.show_sheet(self._shown[0], self._today())
            self.work.steps.drop_card()
            self.work.show_sheet(*self._shown)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys that nothing with the focus wanted: they mean the acts of the open step."""
        if self.beside.shows_job() and self.right.current() == WORK and self.work.press(event):
            return
        if event.text().upper() == "P" and self.beside.shows_job():
            self.open_pictures()
            return
        event.ignore()
