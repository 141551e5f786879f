"""What is asked on a form, decided below the window: the question, its answers to choose from, how one is reckoned."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Option:
    """One answer to choose from: the value that is kept and the words that are shown."""

    value: str
    label: str
    unfit: str = ""  # why this one must not be taken (a tool out of range); shown beside it


def options_of(words: Mapping[str, str] | Iterable[str]) -> tuple[Option, ...]:
    """Answers that are kept as they are shown; of a mapping its keys are kept and its words shown."""
    named = words if isinstance(words, Mapping) else {word: word for word in words}
    return tuple(Option(value, label) for value, label in named.items())


@dataclass(frozen=True)
class Reckoned:
    """How an answer can be reckoned: by which figure, and which of its results is taken over.

    `given` is known already (input, text); `fields` names the answers of the same form that go in (input, answer).
    The figure's name is kept as the answer `note`."""

    figure: str
    result: str
    given: tuple[tuple[str, str], ...] = ()
    fields: tuple[tuple[str, str], ...] = ()
    note: str = "reckoned"


@dataclass(frozen=True)
class Ask:
    """One thing asked before an act is kept.

    `kind`: text, long text, choice, quantity, heights (four corners), tool, pieces, serial, number, time. `unit` is
    shown large beside a quantity; `value` stands there beforehand (never an achieved value). What is `folded` is shown
    only to whoever asks for more, and is never required. `phrases` can be picked into a text; `hint` says beside what
    is typed what may be wrong or missing, and never changes it."""

    name: str
    label: str
    kind: str = "text"
    options: tuple[Option, ...] = ()
    unit: str = ""
    value: str = ""
    required: bool = True
    folded: bool = False
    reckoned: Reckoned | None = None
    phrases: tuple[str, ...] = ()
    hint: Callable[[str], str] | None = None
