"""What a use case of the work hands back."""

from dataclasses import dataclass

from jobbook.core.record.journal import Entry
from jobbook.core.work.model import Act
from jobbook.core.work.state import State, called


@dataclass(frozen=True)
class Written:
    """What was kept: the entry's number, when, and the words for the foot of the window."""

    entry: int
    at: str
    words: str


def written(entry: Entry, words: str) -> Written:
    return Written(entry.number, str(entry.facts["entered_at"]), words)


def words_of(state: State, act: Act) -> str:
    """What an act was about, in a word or two."""
    return called(state, act.on) if act.on else (act.what or act.do).replace("_", " ").capitalize()
