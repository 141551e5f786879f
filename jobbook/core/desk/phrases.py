"""Phrases by the field in which they are offered, and words that look like a slip of the fingers."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from jobbook.core.measured.guided import ORDER

FIELDS: Mapping[str, str] = MappingProxyType(
    {
        "concern": "The customer's concern",
        "condition": "Condition on arrival",
        "cause": "Cause",
        "correction": "Correction",
        "finding": "Findings",
        "reason": "Why a test was not done",
        "source": "Where limits stand",
        **{f"test {test.key}": test.title for test in ORDER if not test.by},
    }
)
SHORTEST = 5  # letters of a word that is looked at: shorter ones have too many neighbours
ENDINGS = ("s", "d", "r", "n", "y", "")  # another form of the same word, not a slip
# Ordinary words with a near neighbour among those of the trade: they are right as they stand.
ORDINARY = re.compile(
    "about|above|after|again|along|among|being|below|could|eight|every|first|found|later|light|might|month|never|night|"
    "other|right|round|seven|shall|short|should|since|small|sound|stand|start|still|stood|their|there|these|third|those|"
    "three|tight|times|today|under|until|water|weeks|where|which|while|whole|without|would|years"
)
_WORD = re.compile(r"[^\W\d_]+")


@dataclass(frozen=True)
class Phrase:
    """One phrase. `number` is that of the entry that added it, 0 for those that ship."""

    field: str
    text: str
    number: int = 0


def words_of(texts: Iterable[str]) -> frozenset[str]:
    """The words of some texts, folded, as far as they are long enough to be looked at."""
    found = (word.casefold() for text in texts for word in _WORD.findall(text))
    return frozenset(word for word in found if len(word) >= SHORTEST)


def slips(typed: str, known: frozenset[str]) -> tuple[tuple[str, str], ...]:
    """Return the typed words that are one slip away from a known word, each with that word.

    One slip: a letter too many, too few, another one, or two exchanged; an ending that only makes a plural or a past
    is none. It only says so: nothing typed is ever changed. The last word is left out while it is being typed.
    """
    found = []
    for match in _WORD.finditer(typed):
        word = match[0].casefold()
        unfinished = match.end() == len(typed)
        if len(word) < SHORTEST or unfinished or word in known or ORDINARY.fullmatch(word):
            continue
        meant = next((one for one in sorted(known) if _one_slip(word, one)), "")
        found += [(match[0], meant)] if meant else []
    return tuple(dict.fromkeys(found))


def _one_slip(word: str, meant: str) -> bool:
    longer, shorter = (word, meant) if len(word) > len(meant) else (meant, word)
    if len(longer) - len(shorter) > 1 or (longer.startswith(shorter) and longer[len(shorter) :] in ENDINGS):
        return False
    start = next((i for i, (a, b) in enumerate(zip(word, meant, strict=False)) if a != b), min(len(word), len(meant)))
    rest, wanted = word[start:], meant[start:]
    exchanged = len(rest) > 1 and rest[1::-1] + rest[2:] == wanted
    return rest[1:] == wanted[1:] or rest[1:] == wanted or rest == wanted[1:] or exchanged


def slip_words(typed: str, known: frozenset[str]) -> str:
    """A sentence on words that may be slips; empty where there is none."""
    told = [f"“{word}”: {meant}?" for word, meant in slips(typed, known)]
    return f"Perhaps a slip, nothing is changed: {' '.join(told)}" if told else ""
