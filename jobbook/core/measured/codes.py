"""Fault codes at work: as shown by the tool, in both published forms where it has one, and compared before and after.

Codes stay free text, since forms differ by maker: what has no published form is kept and compared as it was shown."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from jobbook.core.errors import Refused
from jobbook.core.figures.faultcodes import FaultCode as Read
from jobbook.core.figures.faultcodes import fault_code
from jobbook.core.jobs import FaultCode

STATUSES = ("active", "stored", "intermittent")
GONE, STILL, NEW, UNREAD, READ = "gone", "still there", "new", "not read again", "none stored"
KINDS = {
    "generic": "one of the standard's own codes",
    "maker": "defined by the maker",
    "reserved": "kept back by the standard",
    "padding": "no code: it fills empty places",
}


@dataclass(frozen=True)
class Compared:
    """One code of one module over the job, or with an empty code a module that showed none.

    `found` says what became of it; a module that was not read again says nothing about its codes. `before` and `after`
    are the readings that count, None where there is none."""

    module: str
    code: str
    found: str
    before: FaultCode | None = None
    after: FaultCode | None = None

    @property
    def last(self) -> FaultCode:
        """The reading that speaks for it now."""
        reading = self.after or self.before
        assert reading is not None
        return reading


def read_code(shown: str) -> Read | None:
    """The code in both published forms, typed as its text or as its two or three bytes; None where it has neither."""
    for given in ("code", "bytes"):
        try:
            return fault_code(**{given: shown})
        except Refused:
            continue
    return None


def both_forms(shown: str) -> str:
    """A code as it is written for people: text and bytes, or as it was shown."""
    read = read_code(shown)
    return f"{read.code} ({read.bytes})" if read is not None else " ".join(shown.split())


def code_words(shown: str) -> str:
    """What is said beside a code while it is typed: both forms, who defines it, and what is worth knowing."""
    if not shown.strip():
        return ""
    read = read_code(shown)
    if read is None:
        return f"{_why_not(shown)} It can be kept as it was shown."
    return f"{read.code}, bytes {read.bytes}: {KINDS[read.kind]}. {' '.join(read.findings)}".strip()


def _why_not(shown: str) -> str:
    try:
        fault_code(code=shown)
    except Refused as refusal:
        said = str(refusal).partition("was not taken: ")[2].partition(";")[0]
    return f"Not a published form: {said}."


def compare(codes: Sequence[FaultCode]) -> tuple[Compared, ...]:
    """The codes of a job by module: what was there before, and what became of it.

    Before the work everything that was ever shown counts. After it a module's last word counts: read again and found
    without codes, it has none."""
    modules = {_folded(one.module): one.module for one in reversed(codes)}
    order = dict.fromkeys(_folded(one.module) for one in codes)
    return tuple(
        row for key in order for row in _of_module(modules[key], [c for c in codes if _folded(c.module) == key])
    )


def _of_module(module: str, codes: list[FaultCode]) -> Iterable[Compared]:
    before = _by_code(one for one in codes if one.when == "before" and one.code)
    read_after = [one for one in codes if one.when == "after"]
    after = _by_code(_since_last_none(read_after))
    for key in dict.fromkeys((*before, *after)):
        was, now = before.get(key), after.get(key)
        found = NEW if was is None else STILL if now is not None else GONE if read_after else UNREAD
        shown = (now or was or codes[0]).code
        if found == GONE:
            now = replace(read_after[-1], code="", text="", status="")
        yield Compared(module, shown, found, was, now)
    if not before and not after:
        none_before = [one for one in codes if one.when == "before"]
        yield Compared(
            module,
            "",
            READ,
            none_before[-1] if none_before else None,
            read_after[-1] if read_after else None,
        )


def _since_last_none(codes: list[FaultCode]) -> list[FaultCode]:
    last = max((place for place, one in enumerate(codes) if not one.code), default=-1)
    return codes[last + 1 :]


def _by_code(codes: Iterable[FaultCode]) -> dict[str, FaultCode]:
    """The last reading of each code, in the order in which they first came."""
    found: dict[str, FaultCode] = {}
    for one in codes:
        found[_key(one.code)] = one
    return found


def _key(shown: str) -> str:
    read = read_code(shown)
    return read.code if read is not None else _folded(shown)


def _folded(text: str) -> str:
    return " ".join(text.split()).casefold()
