"""Pictures and files beside the job: the shelf with its tray, what is said of the chosen ones, one picture large."""

from collections.abc import Mapping, Sequence
from pathlib import Path

from PySide6.QtCore import QFileSystemWatcher, QMimeData, QSettings, Qt, QTemporaryDir, QTimer, QUrl, Signal
from PySide6.QtGui import QDesktopServices, QGuiApplication, QKeyEvent
from PySide6.QtWidgets import QApplication, QFileDialog, QFrame, QStackedWidget, QWidget

from jobbook.core.record.files import KeptFile
from jobbook.services.files import Again, ShelfOf, Shown
from jobbook.ui import controls, look
from jobbook.ui.jobs.deed_form import DeedForm
from jobbook.ui.jobs.pictures.acts import ACTS, Act, ActsLine
from jobbook.ui.jobs.pictures.arriving import of_paths, sources_of
from jobbook.ui.jobs.pictures.presenter import PicturesPresenter
from jobbook.ui.jobs.pictures.shelf import Shelf
from jobbook.ui.jobs.pictures.viewer import Viewer
from jobbook.ui.jobs.pictures.words import already_there, in_tray
from jobbook.ui.jobs.rows import label
from jobbook.ui.setting import Setting

TRAY, ALL, AWAY = "tray", "all", "taken away"
FOLDER_SETTING = "pictures/folder"
LOOK_AGAIN_MS = 2_000  # after so long a file that was still being written may be whole


class PicturesSheet(QFrame):
    """Lives beside the job page's right page and takes its place while it is open."""

    closed = Signal()
    said = Signal(str)
    counted = Signal(int)  # how many files the job has now

    def __init__(self, setting: Setting, settings: QSettings | None = None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        look.as_role(self, "sheet")
        self._settings = settings
        folder = str(settings.value(FOLDER_SETTING, "")) if settings is not None else ""
        self.presenter = PicturesPresenter(setting, self, folder)
        self._copies = QTemporaryDir()
        self._watcher = QFileSystemWatcher(self)
        self._look_again = QTimer(self)
        self._look_again.setSingleShot(True)
        self._shown: tuple[Shown, ...] = ()
        self._away: tuple[Shown, ...] = ()
        self._elsewhere: tuple[Again, ...] = ()
        self._waiting: tuple[Path, ...] = ()
        self._form: DeedForm | None = None
        self.shelf = Shelf(self.presenter.small)
        self.viewer = Viewer()
        self.acts = ActsLine()
        self.part = controls.ListBox()
        self.part.setAccessibleName(self.tr("Which files are shown"))
        self._count = label("", "soft")
        self._nothing = label(
            self.tr("Pictures, scan reports and alignment sheets of this job will stand here. Drop them on the job, "
                    "paste them, add them from a folder, or let a folder be watched that a camera fills."), "soft", True
        )  # fmt: skip
        self._notice = controls.Said("needs")
        self._refusal = controls.Said("caution")
        self.add = controls.button(self.tr("Add files…"), "main")
        self.paste = controls.button(self.tr("Paste"))
        self.watched = controls.button(self.tr("Watch a folder…"), "quiet")
        self.back = controls.button(self.tr("Back to the job"), "quiet")
        self.take_waiting = controls.button(self.tr("Take in what is new"))
        self.move_here = controls.button(self.tr("Move them to this job…"))
        self._asking = controls.frame("card")
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        for hidden in (self.take_waiting, self.move_here, self._asking, self._nothing):
            hidden.hide()
        top = controls.row(label(self.tr("Pictures and files"), "strong"), self._count, 1, self.back)
        bring = controls.row(self.add, self.paste, self.watched, 1, label(self.tr("Shown:"), "soft"), self.part)
        self.part.setMinimumWidth(look.FIELD_WIDTH)
        said = controls.column(
            self._refusal, self._notice, controls.row(self.move_here, self.take_waiting, 1), gap=look.UNIT // 2
        )
        shelf = controls.holding(
            controls.column(bring, said, self._nothing, self.shelf, self._asking, self.acts, gap=look.UNIT)
        )
        self.inside = QStackedWidget()
        self.inside.addWidget(shelf)
        self.inside.addWidget(self.viewer)
        page = controls.column(top, controls.rule(), self.inside, margin=look.UNIT * 3 // 2)
        page.setStretchFactor(self.inside, 1)
        self.setLayout(page)

    def _connect(self) -> None:
        self.back.clicked.connect(self.closed)
        self.add.clicked.connect(self.choose_files)
        self.paste.clicked.connect(self.paste_here)
        self.watched.clicked.connect(self._ask_for_folder)
        self.take_waiting.clicked.connect(lambda: self.presenter.take_in(of_paths(self._waiting)))
        self.move_here.clicked.connect(self._ask_to_move_here)
        self.part.activated.connect(lambda _: self._fill())
        self.shelf.choice_changed.connect(self._show_choice)
        self.shelf.wanted.connect(self.presenter.look_at)
        self.acts.assigned.connect(lambda to: self.presenter.assign(self.shelf.chosen(), to))
        self.acts.asked.connect(self._ask_act)
        self.acts.all_wanted.connect(self.shelf.selectAll)
        self.acts.undone.connect(self.presenter.undo)
        self.acts.evidence.connect(lambda on: self.presenter.choose(self.shelf.chosen(), on))
        self.viewer.marked.connect(self.presenter.mark)
        self.viewer.closed.connect(self._to_shelf)
        self.viewer.turned.connect(self._look_at_next)
        self._look_again.timeout.connect(self.presenter.look_into_folder)
        self._watcher.directoryChanged.connect(lambda _: self.presenter.look_into_folder())

    # what comes in

    def choose_files(self) -> None:
        names, _ = QFileDialog.getOpenFileNames(self, self.tr("Add files to this job"))
        self.presenter.take_in(of_paths([Path(name) for name in names]))

    def paste_here(self) -> None:
        """Take in what lies in the clipboard."""
        sources = sources_of(QGuiApplication.clipboard().mimeData() or QMimeData())  # an emptied one has none
        if not sources:
            self.refuse(self.tr("There is no picture and no file in the clipboard. Copy one, then paste it here."))
        self.presenter.take_in(sources)

    def open_job(self, job: int) -> None:
        self._to_shelf()
        self.close_form()
        self._say("", ())
        self.shelf.clearSelection()
        self.presenter.open(job)
        self.part.setCurrentIndex(0 if any(map(in_tray, self._shown)) else 1)
        self._fill()
        self.shelf.setFocus(Qt.FocusReason.OtherFocusReason)

    # what the presenter shows

    def show_files(self, shelf: ShelfOf) -> None:
        self._shown, self._away, shown = shelf.shown, shelf.away, shelf.shown
        here = self.part.currentData() or TRAY
        self.part.clear()
        tray = sum(in_tray(one) for one in shown)
        self.part.addItem(self.tr("Not assigned yet ({0})").format(tray), TRAY)
        self.part.addItem(self.tr("All ({0})").format(len(shown)), ALL)
        for place in shelf.places:
            count = sum(one.place == place.words for one in shown)
            if count:
                self.part.addItem(f"{place.words} ({count})", place.words)
        if self._away:
            self.part.addItem(self.tr("Taken away ({0})").format(len(self._away)), AWAY)
        self.part.setCurrentIndex(max(0, self.part.findData(here)))
        self._count.setText(self.tr("{0} kept, {1} not assigned").format(len(shown), tray) if shown else "")
        self.counted.emit(len(shown))
        self.acts.show_places(shelf.places)
        self._fill()
        for one in shown:
            self.viewer.show_marks(one.file)

    def _fill(self) -> None:
        part = self.part.currentData()
        listed = [one for one in self._shown if part == ALL or (in_tray(one) if part == TRAY else one.place == part)]
        listed = list(self._away) if part == AWAY else listed
        self.shelf.show_files(listed)
        self._nothing.setVisible(not self._shown)
        self._show_choice()

    def _show_choice(self) -> None:
        chosen = set(self.shelf.chosen())
        away = self.part.currentData() == AWAY
        there = self._away if away else self._shown
        self.acts.show_undo(self.presenter.can_undo())
        self.acts.show_choice([one.file for one in there if one.file.entry in chosen], away)

    def show_waiting(self, folder: str, waiting: tuple[Path, ...], coming: int) -> None:
        self._waiting = waiting
        self._look_again.start(LOOK_AGAIN_MS) if coming else self._look_again.stop()
        self._watch(folder)
        words = self.tr("Watched: {0}").format(Path(folder).name) if folder else self.tr("Watch a folder…")
        self.watched.setText(words)
        self.watched.setAccessibleName(words)
        self.watched.setToolTip(folder)
        self.take_waiting.setVisible(bool(waiting))
        self.take_waiting.setText(self.tr("Take in {0} new from {1}").format(len(waiting), Path(folder).name))
        self.take_waiting.setAccessibleName(self.take_waiting.text())

    def _watch(self, folder: str) -> None:
        if self._watcher.directories() != ([folder] if folder else []):
            if self._watcher.directories():
                self._watcher.removePaths(self._watcher.directories())
            if folder and Path(folder).is_dir():
                self._watcher.addPath(folder)

    def show_left_out(self, sentences: tuple[str, ...], elsewhere: tuple[Again, ...]) -> None:
        sentences = (*sentences, *already_there(elsewhere))
        self._say("\n".join(sentences), elsewhere)

    def _say(self, notice: str, elsewhere: tuple[Again, ...]) -> None:
        self._elsewhere = elsewhere
        self._notice.setText(notice)
        self.move_here.setVisible(bool(elsewhere))
        self._refusal.hide()

    def show_picture(self, file: KeptFile, jpeg: bytes) -> None:
        self.viewer.show_picture(file, jpeg)
        self.inside.setCurrentWidget(self.viewer)
        self.viewer.picture.setFocus(Qt.FocusReason.OtherFocusReason)

    def _look_at_next(self, step: int) -> None:
        """To the next picture of the shelf, or the one before."""
        following = self.shelf.picture_beside(step)
        if following is not None:
            self.presenter.look_at(following)

    def open_copy(self, name: str, content: bytes) -> None:
        path = Path(self._copies.path()) / name
        path.write_bytes(content)
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(path)))

    def kept(self, words: str) -> None:
        self.close_form()
        self._say("", ())
        at = QApplication.focusWidget()
        if at is not None and self.acts.isAncestorOf(at):
            self.shelf.setFocus(Qt.FocusReason.OtherFocusReason)
        self.said.emit(words)

    def copied(self, words: str) -> None:
        self.kept(words)
        self._say(words, ())

    def refuse(self, sentence: str) -> None:
        if self._form is not None:
            self._form.refuse(sentence)
            return
        self._refusal.setText(sentence)

    # what is asked

    def _ask_act(self, key: str) -> None:
        act = ACTS[key]
        if not self.shelf.chosen():
            self.refuse(self.tr("Choose files first: click them, or walk to them and press Space."))
            return
        self._ask(act, lambda given: act.do(self.presenter, self.shelf.chosen(), given))

    def _ask_for_folder(self) -> None:
        self._ask(ACTS["watch"].with_value(self.presenter.folder), self._begin_to_watch)

    def _begin_to_watch(self, given: Mapping[str, str]) -> None:
        if self._settings is not None:
            self._settings.setValue(FOLDER_SETTING, given["folder"].strip())
        self.close_form()
        self.presenter.watch(given["folder"])

    def _ask_to_move_here(self) -> None:
        found: Sequence[Again] = self._elsewhere
        self._ask(ACTS["here"], lambda given: self.presenter.move_here(found, given["reason"]))

    def _ask(self, act: Act, handed_in: object) -> None:
        self.close_form()
        self._form = DeedForm(act.asks, act.keep, act.explain)
        self._form.handed_in.connect(handed_in)
        self._form.cancelled.connect(self.close_form)
        if self._asking.layout() is None:
            self._asking.setLayout(controls.column(margin=look.UNIT * 3 // 2))
        place = self._asking.layout()
        assert place is not None
        place.addWidget(self._form)
        self._asking.show()
        self._form.begin()

    def close_form(self) -> None:
        if self._form is not None:
            self._form.hide()
            self._form.deleteLater()
            self._form = None
            self.shelf.setFocus(Qt.FocusReason.OtherFocusReason)
        self._asking.hide()

    def is_asking(self) -> bool:
        return self._form is not None

    def _to_shelf(self) -> None:
        self.inside.setCurrentIndex(0)
        self.shelf.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.closed.emit()
        elif self.inside.currentWidget() is self.viewer or not self.acts.press(event.text().upper()):
            event.ignore()
