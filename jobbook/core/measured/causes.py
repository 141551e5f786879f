"""What a cause line must name so that somebody who was not there believes it: part, place, failure, and the test that
proves it, with its figures. Common practice; where somebody else pays, a line without them is not paid."""

import re
from collections.abc import Mapping
from types import MappingProxyType

PART = (
    "strut|spring|bellows|sleeve|damper|line|pipe|hose|fitting|valve|block|compressor|dryer|relay|fuse|sensor|connector|"
    "reservoir|tank|module|wiring|harness|filter|intake|exhaust|arm|bush|mount|link|joint|seal|ring|bracket"
)
PLACE = (
    "fl|fr|rl|rr|front|rear|left|right|upper|lower|top|bottom|inner|outer|roll|fold|crimp|port|piston|flange|pin|plug|"
    "terminal|shoulder|end|both|all four"
)
FAILURE = (
    "leak|chaf|crack|cut|torn|tear|worn|stuck|stick|burnt|burned|broke|bent|corro|blocked|wet|water|saturat|"
    "open circuit|short|loose|seiz|weld|drift|fail|oil|melt|perish|porous|disconnect|slack|silent|dead|"
    "no fault|nothing found"
)
TEST = (
    "soap|bubble|stand|drop|fell|lost|fall|pressure|measured|changed over|swapped|plugged|voltage|resistance|current|"
    "read|code|looked|seen|dry|tight|test"
)
NUMBER_WITH_UNIT = re.compile(
    r"[0-9][0-9.,]*\s*(?:mm|cm|in\b|bar|psi|mbar|kpa|v\b|mv|a\b|ma\b|ohm|ω|s\b|min|h\b|km|mi\b|°|%)", re.IGNORECASE
)
CHECKS: Mapping[str, str] = MappingProxyType(
    {
        "the part": PART,
        "the place on it, with the corner": PLACE,
        "the kind of failure": FAILURE,
        "the test that proves it": TEST,
    }
)
NO_FAULT = re.compile(r"\b(?:no fault|nothing found|no cause found)", re.IGNORECASE)
OF_NO_FAULT = ("the test that proves it",)  # of no fault no part and no place can be named; what was tested must be
FIGURES = "the test's figures, with their units"


def lacking(cause: str) -> tuple[str, ...]:
    """Return what a cause line does not seem to name. Nothing is judged of a line that is still empty.

    It looks for words of the trade, so it can be wrong either way: it helps to write and holds nothing up.
    """
    words = cause.casefold()
    if not words.strip():
        return ()
    wanted = OF_NO_FAULT if NO_FAULT.search(words) else tuple(CHECKS)
    missing = [what for what in wanted if not re.search(rf"\b(?:{CHECKS[what]})", words)]
    return (*missing, *(() if NUMBER_WITH_UNIT.search(words) else (FIGURES,)))


def advice(cause: str) -> str:
    """A sentence on what would make the line stronger; empty where nothing seems to be missing."""
    missing = lacking(cause)
    if not missing:
        return ""
    told = f"{', '.join(missing[:-1])} and {missing[-1]}" if len(missing) > 1 else missing[0]
    return f"Not named yet, as far as can be seen: {told}."
