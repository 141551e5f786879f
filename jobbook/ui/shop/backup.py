"""Backup: how it stands, one made now, and what to do when the machine is lost."""

from PySide6.QtWidgets import QFrame, QWidget

from jobbook.services.house.backups import LastBackup
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.ui import look
from jobbook.ui.controls import Said, button, column, frame, label, row, rule, scrolling
from jobbook.ui.forms import Form
from jobbook.ui.moments import day_and_hour
from jobbook.ui.places import BACKUP
from jobbook.ui.setting import Setting
from jobbook.ui.shop.backup_presenter import BackupPresenter
from jobbook.ui.shop.part import Part


class BackupPage(Part):
    """Two facing pages: backing up on the left, restoring explained on the right."""

    key = BACKUP

    def __init__(self, setting: Setting, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.presenter = BackupPresenter(setting, self)
        self.state = label("", "cry", wrap=True)
        self.where = Said("small")
        self.form = Form(self._asks())
        self.back_up = button(self.tr("Back up now"), "main", "Ctrl+Return")
        self.said = Said("error")
        self.days = Form((Ask("days", self.tr("Remind of a backup after so many days"), "number"),))
        self.keep_days = button(self.tr("Keep"))
        self.days_said = Said("error")
        self._lay_out()
        self._connect()

    def _asks(self) -> tuple[Ask, ...]:
        key = (Option("no", self.tr("leave it out")), Option("yes", self.tr("put it in, and lock the file away")))
        return (
            Ask("place", self.tr("Into this folder, or onto this stick"), "folder"),
            Ask("with_key", self.tr("The key that seals papers"), "choice", key, value="no"),
        )

    def _lay_out(self) -> None:
        left, right = frame("sheet"), self._restoring()
        inside = QWidget()
        inside.setLayout(
            column(
                *(label(self.tr("Back up"), "title"), self.state, self.where, self.form, self.said),
                *(row(1, self.back_up), rule(), self.days, self.days_said, row(1, self.keep_days), 1),
                margin=look.UNIT * 2,
            )
        )
        left.setLayout(column(scrolling(inside), margin=1))
        facing = row(gap=look.UNIT * 2)
        facing.addWidget(left, 1)
        facing.addWidget(right, 1)
        self.setLayout(facing)

    def _restoring(self) -> QFrame:
        """What to do when it is needed: nobody reads it before, so it stands where backups are made."""
        words = (
            self.tr("When this machine is lost, stolen or broken, take the newest backup to another one."),
            self.tr("Start the job book there. Where it asks for a new book, choose “Restore a backup”."),
            self.tr("Or by command: jobbook restore FILE FOLDER. A book that is there is never written over."),
            self.tr("Have the newest paper that left the shop at hand: the entry at its foot tells what is missing."),
            self.tr("Numbers that may have been given since are left out, so that none of them comes twice."),
            self.tr("Name what is left of the old folder: what was erased for somebody since is then erased again."),
            self.tr("The key: where it was left out of the backup, put your own copy back into the folder keys."),
            self.tr("Try it once while nothing is wrong. Only a backup that was restored is known to be good."),
        )
        made = frame("sheet")
        inside = QWidget()
        lines = [label(sentence, wrap=True) for sentence in words]
        title = label(self.tr("When the book has to come back"), "title")
        inside.setLayout(column(title, *lines, 1, margin=look.UNIT * 2, gap=look.UNIT * 3 // 2))
        made.setLayout(column(scrolling(inside), margin=1))
        return made

    def _connect(self) -> None:
        self.back_up.clicked.connect(self.form.hand_in)
        self.form.handed_in.connect(self.presenter.back_up)
        self.form.changed.connect(lambda _: self.refuse(""))
        self.keep_days.clicked.connect(self.days.hand_in)
        self.days.handed_in.connect(self.presenter.keep_days)
        self.days.changed.connect(lambda _: self.refuse_days(""))

    def open(self) -> None:
        self.refuse("")
        self.refuse_days("")
        self.presenter.open()
        self.form.focus_first()

    def refresh(self) -> None:
        self.presenter.open()

    def show_state(self, last: LastBackup, put_off: str) -> None:
        look.as_role(self.state, "needs" if last.is_due else "cry")
        self.state.setText(last.sentence)
        made = self.tr("Made {0}, in {1}").format(day_and_hour(last.at), last.place) if last.place else ""
        told = " · ".join(filter(None, (made, put_off)))
        self.where.setText(told)
        self.back_up.setEnabled(not last.on_server)
        if not self.form.answers()["place"]:
            self.form.show_answers({"place": last.place})
        if not self.days.fields["days"].has_focus():
            self.days.show_answers({"days": str(last.most_days)})

    def show_busy(self, busy: bool) -> None:
        self.back_up.setText(self.tr("Backing up…") if busy else self.tr("Back up now"))

    def refuse(self, sentence: str) -> None:
        self.said.say(sentence, "error")

    def show_written(self, sentence: str) -> None:
        self.said.say(sentence, "kept")

    def refuse_days(self, sentence: str) -> None:
        self.days_said.say(sentence, "error")

    def show_days_kept(self) -> None:
        self.days_said.say(self.tr("Kept."), "kept")
