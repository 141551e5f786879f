"""The presenter of the job page with a view that keeps what it was shown, for tests without a window."""

from jobbook.services.sheet.sheets import Choice
from jobbook.ui.jobs.job_presenter import JobPresenter
from jobbook.ui.jobs.signing import SECRET, SIGNER
from jobbook.ui.jobs.tabs.records import Deed
from tests.ui.jobs.strut_book import PINS, Strut

SIGNED_BY_BRAM = {SIGNER: "bf", SECRET: PINS["bf"]}


class Seen:
    """Keeps what it was shown."""

    def __init__(self):
        self.sheet = self.methods = self.lack = None
        self.tabs, self.refusals, self.words, self.files = {}, [], [], []

    def show_sheet(self, sheet, signers):
        self.sheet, self.signers = sheet, signers

    def show_tab(self, key, tab, signers):
        self.tabs[key] = tab

    def show_methods(self, cards):
        self.methods = cards

    def show_lacking(self, lack):
        self.lack = lack

    def show_what_is_open(self, loose, signers):
        self.loose = loose

    def open_preview(self, name, content):
        self.files.append((name, content))

    def open_path(self, path):
        self.files.append((path.name, path.read_bytes() if path.is_file() else b""))

    def refuse(self, sentence):
        self.refusals.append(sentence)

    def kept(self, words):
        self.words.append(words)


def at_work(there: Strut, lanes=None) -> tuple[JobPresenter, Seen]:
    seen = Seen()
    presenter = JobPresenter(there.setting(lanes), seen)
    presenter.open(there.job)
    return presenter, seen


def main(seen: Seen) -> Choice:
    return next(choice for choice in seen.sheet.card.choices if choice.main)


def deed(seen: Seen, tab: str, key: str, of: str | None = None) -> Deed:
    blocks = seen.tabs[tab].blocks
    deeds = [d for b in blocks for d in (*b.deeds, *(d for line in b.lines for d in line.deeds))]
    return next(d for d in deeds if d.key == key and of in (None, d.of))
