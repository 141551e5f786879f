"""The job page's presenter: what the person did becomes one use case, and a fresh sheet or the sentence why not."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Protocol

from jobbook.core.errors import BookError
from jobbook.core.people import Person
from jobbook.services import work
from jobbook.services.files.places import step_key
from jobbook.services.house.people import all_people
from jobbook.services.job.added import add_named
from jobbook.services.job.late import parted
from jobbook.services.job.methods import MethodCard, shipped_methods
from jobbook.services.measured.torque_at_work import Doubtful
from jobbook.services.opened import last_kept
from jobbook.services.sheet.added_sheet import with_added
from jobbook.services.sheet.jobsheet import job_sheet
from jobbook.services.sheet.lacking import Lacking, lacking
from jobbook.services.sheet.sheets import Choice, JobSheet
from jobbook.ui.jobs.job_papers import OpenedPapers
from jobbook.ui.jobs.signing import WHY, Signers, answers_alone, signer_of, signers, to_sign
from jobbook.ui.jobs.tabs.of_job import TABS
from jobbook.ui.jobs.tabs.records import Deed, Signing, TabSheet
from jobbook.ui.jobs.working.job_begin import CORNER, answered_options, keep_figures
from jobbook.ui.jobs.working.job_passing import NOTE, person_named
from jobbook.ui.jobs.working.job_steps import StepKey, key_of, next_open
from jobbook.ui.setting import Setting

Given = Mapping[str, str]


class JobView(Protocol):
    """What the job page can show."""

    def show_sheet(self, sheet: JobSheet, signers: Signers) -> None: ...

    def show_tab(self, key: str, tab: TabSheet, signers: Signers) -> None: ...

    def show_methods(self, cards: tuple[MethodCard, ...]) -> None: ...

    def show_what_is_open(self, loose: tuple[str, ...], signers: Signers) -> None: ...

    def show_lacking(self, lack: Lacking) -> None: ...

    def open_preview(self, name: str, content: bytes) -> None: ...

    def open_path(self, path: Path) -> None: ...

    def refuse(self, sentence: str) -> None:
        """Say why what was asked for was not kept; what was typed stays."""

    def ask_to_confirm(self, sentence: str) -> None:
        """Say what looks wrong, and offer to keep it all the same."""

    def kept(self, words: str) -> None:
        """What was asked for is in the book: close what asked for it, and say so."""


class JobPresenter:
    """One job, from `open` until another is opened. It keeps which step is open, and nothing else of its own."""

    def __init__(self, setting: Setting, view: JobView) -> None:
        self._setting, self._view = setting, view
        self._opened = OpenedPapers(setting, view)
        self._number = 0
        self._open: StepKey | None = None
        self._tab = "work"
        self._busy = False
        self._seen = 0

    def open(self, number: int) -> None:
        """Show this job, at the step that comes next. Raises NotFound where there is no such job."""
        sheet = self._read(number, self._open if number == self._number else None)
        self._number = number
        self._show(sheet)

    def step_at_hand(self) -> str:
        """The open step as files name what they belong to; "" where none is open."""
        return step_key(*self._open) if self._open is not None else ""

    def refresh(self) -> None:
        """Show the job as it stands now, with the same step open. Where it cannot be read, what is shown stays."""
        if self._number:
            self._show_step(self._open)

    def _show_step(self, step: StepKey | None) -> None:
        try:
            self._show(self._read(self._number, step))
        except BookError as error:
            self._view.refuse(str(error))

    def book_changed(self) -> None:
        """Something was written, here or by another program. What this page keeps itself is shown when it is kept."""
        if not self._busy and last_kept(self._setting.book)[1] != self._seen:
            self.refresh()

    def _read(self, number: int, step: StepKey | None) -> JobSheet:
        person = self._setting.duty.person
        who = person.id if person is not None else ""
        return with_added(self._setting.book, job_sheet(self._setting.book, number, step, who), step, who)

    def _show(self, sheet: JobSheet) -> None:
        self._open = key_of(sheet.card.step) if sheet.card is not None else None
        self._sheet = sheet
        self._seen = last_kept(self._setting.book)[1]
        self._view.show_sheet(sheet, self._signers())
        self._view.show_lacking(lacking(self._setting.book, sheet.number))
        self._show_tab()

    def _signers(self) -> Signers:
        return signers(all_people(self._setting.book), self._setting.duty.person)

    def open_tab(self, key: str) -> None:
        self._tab = key
        self._show_tab()

    def _show_tab(self) -> None:
        if self._tab in TABS:
            self._view.show_tab(self._tab, TABS[self._tab].show(self._setting.book, self._sheet), self._signers())

    def open_step(self, begun: int, number: int) -> None:
        self._show_step((begun, number))

    # what a person does at the open step

    def choose(self, choice: Choice, given: Given) -> None:
        """Keep an act of the card, with its answers and the signature where it asks for one; or, where the answers say
        so, as somebody else wrote it on paper."""
        book, job = self._setting.book, self._number
        answers, late = parted(answers_alone(given))
        self._keep(
            lambda who: work.keep(book, who, job, choice, answers, signer=signer_of(book, given), written_down=late)
        )

    def keep_as_happened(self, choice: Choice, given: Given) -> None:
        """Keep what a rule refuses but what has been done already, with its reason."""
        book, job = self._setting.book, self._number
        answers = answers_alone(given)
        reason = answers.pop(WHY)
        self._keep(
            lambda who: work.keep_as_happened(book, who, job, choice, answers, reason, signer=signer_of(book, given))
        )

    def allow(self, rule: str, given: Given) -> None:
        """Allow beforehand what a rule refuses, under the signature of a person who may."""
        book, job = self._setting.book, self._number
        self._keep(lambda who: work.allow(book, signer_of(book, given) or who, job, rule, given["reason"]))

    def correct(self, entry: int, given: Given) -> None:
        """Correct a signed act by a new entry that names it."""
        book = self._setting.book
        answers = answers_alone(given)
        reason = answers.pop(WHY)
        self._keep(lambda who: work.correct(book, signer_of(book, given) or who, entry, answers, reason))

    def undo(self, act_id: str) -> None:
        """Take back an act that is not signed yet."""
        book, job = self._setting.book, self._number
        self._keep(lambda who: work.undo(book, who, job, act_id), go_on=False)

    def sign(self, given: Given) -> None:
        """Put one signature under the acts of this person that wait for one."""
        book, job, waiting = self._setting.book, self._number, self._sheet.unsigned

        def signed(who: Person) -> work.Written:
            signer = signer_of(book, given) or who
            return work.sign(book, signer, job, to_sign(waiting, signer.name))

        self._keep(signed)

    def ask_to_pass_on(self) -> None:
        self._view.show_what_is_open(work.what_is_open(self._setting.book, self._number), self._signers())

    def pass_on(self, given: Given) -> None:
        """Give the job to another technician, with the note that they read before the first act."""
        book, job, to = self._setting.book, self._number, person_named(given)
        self._keep(lambda who: work.pass_on(book, signer_of(book, given) or who, job, given[NOTE], to), go_on=False)

    def take_on(self, given: Given) -> None:
        """Take on a job that was passed on."""
        book, job = self._setting.book, self._number
        self._keep(lambda who: work.take_on(book, signer_of(book, given) or who, job), go_on=False)

    # methods and figures

    def ask_to_begin(self) -> None:
        self._view.show_methods(shipped_methods())

    def begin(self, card: MethodCard, given: Given) -> None:
        """Begin a method at a corner with its options answered."""
        book, job = self._setting.book, self._number
        corner, options = given.get(CORNER, ""), answered_options(given)
        self._keep(lambda who: work.begin_method(book, who, job, card.key, corner, options))

    def add_thing(self, kind: str, given: Given) -> None:
        """Add a joint, line, part, connector or aid that no method names."""
        book, job = self._setting.book, self._number
        self._keep(lambda who: add_named(book, who, job, kind, given), go_on=False)

    def enter_figures(self, lack: Lacking, given: Given) -> None:
        """Keep figures that the variant lacks, with the document that they were read from."""
        book = self._setting.book
        self._keep(lambda who: keep_figures(book, who, lack, given), go_on=False)

    # the desk's tabs

    def do(self, deed: Deed, given: Given) -> None:
        """Keep what was done on the open tab, or show what it opens."""
        if deed.opens:
            self._opened.show(self._number, deed)
            return
        book, job, tab = self._setting.book, self._number, TABS[self._tab]
        self._keep(
            lambda who: tab.keep(book, Signing(who, signer_of(book, given)), job, deed, answers_alone(given)),
            go_on=False,
        )

    def _keep(self, use_case: Callable[[Person], object], go_on: bool = True) -> None:
        """Do one use case in the writing lane. A second press while it is under way does nothing."""
        if not self._busy:
            self._busy = True
            self._setting.keep(use_case, lambda result: self._kept(result, go_on), self._refused)

    def _kept(self, result: object, go_on: bool) -> None:
        self._busy = False
        self._view.kept(result.words if isinstance(result, work.Written) else str(result))
        try:
            self._show(self._following() if go_on else self._read(self._number, self._open))
        except BookError as error:
            self._view.refuse(str(error))

    def _following(self) -> JobSheet:
        """The job with the step open that comes after the one that was just done."""
        sheet = self._read(self._number, self._open)
        step = next_open(sheet.steps, self._open) if self._open is not None else None
        return sheet if step in (None, self._open) else self._read(self._number, step)

    def _refused(self, error: BookError) -> None:
        self._busy = False
        (self._view.ask_to_confirm if isinstance(error, Doubtful) else self._view.refuse)(str(error))
