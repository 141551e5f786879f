"""What can be done with the chosen files: assign, show in the evidence, move, take away, copy out."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QWidget

from jobbook.core.record.files import KeptFile
from jobbook.services.files import Place
from jobbook.services.sheet.sheets import Ask
from jobbook.ui import controls, look
from jobbook.ui.jobs.pictures.presenter import PicturesPresenter
from jobbook.ui.jobs.rows import label
from jobbook.ui.language import said

Given = Mapping[str, str]
Do = Callable[[PicturesPresenter, Sequence[int], Given], None]


@dataclass(frozen=True)
class Act:
    """One act that asks something first."""

    label: str
    asks: tuple[Ask, ...]
    keep: str
    explain: str = ""
    do: Do = lambda presenter, entries, given: None

    def with_value(self, value: str) -> "Act":
        """The same with its first question answered beforehand."""
        return replace(self, asks=(replace(self.asks[0], value=value), *self.asks[1:]))


REASON = Ask("reason", "Why")
ACTS: Mapping[str, Act] = {
    "move": Act(
        "Move…",
        (Ask("to", "To the job of this number", "number"), REASON),
        "Move",
        "Both jobs show it. The files arrive in the other job's tray.",
        lambda presenter, entries, given: presenter.move(entries, given["to"], given["reason"]),
    ),
    "away": Act(
        "Take away…",
        (REASON,),
        "Take away",
        "They count no longer. The book keeps them, since its journal names them.",
        lambda presenter, entries, given: presenter.take_away(entries, given["reason"]),
    ),
    "back": Act(
        "Bring back…",
        (REASON,),
        "Bring back",
        "They lie in the tray again.",
        lambda presenter, entries, given: presenter.bring_back(entries, given["reason"]),
    ),
    "erase": Act(
        "Erase…",
        (REASON,),
        "Erase for good",
        "Bytes and names go from the book and cannot be brought back; digest, times, who erased them and why stay. "
        "Papers that show them stay as they left. Backups made before hold them: make a new one, throw the older away.",
        lambda presenter, entries, given: presenter.erase(entries, given["reason"]),
    ),
    "copy": Act(
        "Copy out…",
        (Ask("folder", "Into this folder", "folder"),),
        "Copy",
        "Pictures leave without the place where they were taken, and covered where something is covered. Look at them "
        "for plates and faces first.",
        lambda presenter, entries, given: presenter.copy_out(entries, given["folder"]),
    ),
    "watch": Act(
        "Watch a folder…",
        (Ask("folder", "Folder of this workstation; empty: none", "folder", required=False),),
        "Watch",
        "What comes new into it is offered on the open job. Nothing is taken in by itself.",
    ),
    "here": Act("Move them to this job…", (REASON,), "Move", "Both jobs show it."),
}


class ActsLine(QWidget):
    """The line under the shelf. `assigned` carries the key of a place, `asked` the key of an act."""

    assigned = Signal(str)
    asked = Signal(str)
    evidence = Signal(bool)
    all_wanted = Signal()
    undone = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._count = label("", "soft")
        self.place = controls.ListBox()
        self.place.setAccessibleName(self.tr("What they belong to"))
        self.assign = self._button(self.tr("Assign"), "S", lambda: self.assigned.emit(self.place.currentData() or ""))
        self.all = self._button(self.tr("Choose all"), "L", self.all_wanted.emit, "quiet")
        self.show_in_evidence = self._button(self.tr("Show in the evidence"), "V", self._turn)
        others = [self._asking(key) for key in ("copy", "move", "away", "back", "erase")]
        self._needing = [self.assign, self.show_in_evidence, *others[:3]]
        *_, self._back, self._erase = others
        self.undo = self._button(self.tr("Undo"), "U", self.undone.emit, "quiet")
        self.undo.setAccessibleName(self.tr("Undo: they belong to what they belonged to before"))
        first = controls.row(self._count, self.undo, 1, label(self.tr("Belongs to:"), "soft"), self.place, self.assign)
        self.place.setMinimumWidth(look.FIELD_WIDTH)
        second = controls.row(self.all, 1, self.show_in_evidence, *others)
        self.setLayout(controls.column(first, second, gap=look.UNIT // 2))
        self._on = True

    def _button(self, words: str, key: str, do: Callable[[], object], role: str = "plain") -> QPushButton:
        made = controls.button(words, role)
        made.setToolTip(f"{words}  {key}")
        made.setProperty("letter", key)
        made.clicked.connect(lambda _=False: do())
        return made

    def _asking(self, key: str) -> QPushButton:
        made = controls.button(said(ACTS[key].label), "quiet")
        made.clicked.connect(lambda _=False: self.asked.emit(key))
        return made

    def _turn(self) -> None:
        self.evidence.emit(self._on)

    def show_places(self, places: Sequence[Place]) -> None:
        here = self.place.currentData()
        self.place.clear()
        for place in places:
            self.place.addItem(place.words, place.key)
        self.place.addItem(self.tr("nothing: back to the tray"), "")
        self.place.setCurrentIndex(max(0, self.place.findData(here)))

    def show_choice(self, chosen: Sequence[KeptFile], away: bool = False) -> None:
        """Say how many are chosen; without any, nothing can be done with them. Those that were taken `away` can be
        brought back or erased, and nothing else."""
        many = len(chosen)
        self._count.setText(self.tr("{0} chosen").format(many) if many else self.tr("none chosen"))
        self._on = not (chosen and all(file.chosen for file in chosen))
        words = self.tr("Show in the evidence") if self._on else self.tr("Not in the evidence")
        self.show_in_evidence.setText(words)
        self.show_in_evidence.setAccessibleName(words)
        for button in self._needing:
            button.setEnabled(bool(chosen) and not away)
        for button in self._needing[1:]:
            button.setVisible(not away)
        self._back.setVisible(away)
        for button in (self._back, self._erase):
            button.setEnabled(bool(chosen) and not any(file.is_erased for file in chosen))

    def show_undo(self, possible: bool) -> None:
        self.undo.setVisible(possible)

    def press(self, letter: str) -> bool:
        """Press the button of that letter; false where there is none, or it cannot be pressed now."""
        for button in (self.assign, self.all, self.show_in_evidence, self.undo):
            if letter and button.property("letter") == letter and button.isVisible() and button.isEnabled():
                button.click()
                return True
        return False
