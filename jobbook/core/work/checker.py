"""The method checker: a whole method run with every combination of its options, at each corner, by the same rules.

What only the bay can judge counts as right. After a finding the checker goes on as if the act had been done.
Combinations share one run for as long as no step tells them apart.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product

from jobbook.core.work import language, words
from jobbook.core.work.begin import begin, holds, name_at, propose
from jobbook.core.work.changing import replace
from jobbook.core.work.effects import effect
from jobbook.core.work.findings import Finding, mended, text_findings
from jobbook.core.work.loose_ends import END_RULES
from jobbook.core.work.model import AXLES, CORNERS, Thing
from jobbook.core.work.names import declared
from jobbook.core.work.reading import Document, Method, Step, method_of, read_document, rows
from jobbook.core.work.rules import broken_rules
from jobbook.core.work.state import START, State, standing_of

IN_THE_CHECKER = replace(START, given=True)
Options = dict[str, bool]
Known = Mapping[str, Mapping[str, int]]


@dataclass(frozen=True)
class Fault:
    """A finding before it is known which combinations share it. `about` is the name of what it is about."""

    rule: str
    step: int | str
    message: str
    about: str
    line: int = 0


@dataclass(frozen=True)
class Branch:
    """Combinations of options, by index, that have led to one state so far."""

    state: State
    shared_by: tuple[int, ...]


def check(raw: bytes | str) -> tuple[Finding, ...]:
    """Return everything wrong with a method file, () where nothing is. Unreadable where it cannot be read at all."""
    document = read_document(raw)
    written = mended(document)
    method = method_of(written)
    known = declared(written)
    combinations = [dict(zip(method.options, answers, strict=True)) for answers in _answers(method)]
    runs = {corner: _run(method, known, corner, combinations) for corner in _corners(method, written)}
    found = [_told_once(runs, index, options) for index, options in enumerate(combinations)]
    return (*text_findings(document), *(finding for told in found for finding in told))


def _answers(method: Method) -> Iterator[tuple[bool, ...]]:
    yield from product((False, True), repeat=len(method.options))


def _told_once(runs: Mapping[str, list[list[Fault]]], index: int, options: Options) -> Iterator[Finding]:
    """Tell each fault of one combination once, with the first corner where it shows."""
    seen: set[tuple[str, int | str, str]] = set()
    for corner, faults in runs.items():
        for fault in faults[index]:
            mark = (fault.rule, fault.step, _seen_from(fault.about, corner))
            if mark not in seen:
                seen.add(mark)
                yield Finding(fault.rule, fault.step, dict(options), corner, fault.message, fault.line)


def _corners(method: Method, document: Document) -> tuple[str, ...]:
    """Return the corners to run at. Where the file names no corner of its own, one stands for all of them."""
    tables = ("line", "part", "step")
    named = {str(row.get(key)) for table in tables for row in rows(document, table) for key in ("at", "fills")}
    corners = method.corners or ("",)
    return corners if named & {*CORNERS} else corners[:1]


def _seen_from(about: str, corner: str) -> str:
    """Return what a fault is about in words that are the same at every corner."""
    place = about.removeprefix("air ")
    if place in AXLES.get(corner, ()):
        return about.replace(place, "here" if place == corner else "beside")
    return about.split("@")[0]


def _run(method: Method, known: Known, corner: str, combinations: list[Options]) -> list[list[Fault]]:
    """Return the faults of each combination at one corner, in the order of the steps, the end last."""
    found: list[list[Fault]] = [[] for _ in combinations]
    branches = _begun(method, corner, combinations)
    for step in filter(_can_be_done, method.steps):
        branches = [
            after for branch in branches for after in _stepped(branch, step, known, corner, combinations, found)
        ]
    for branch in branches:
        left = [
            Fault(end.rule, "end", end.sentence, end.on) for rule in END_RULES.values() for end in rule(branch.state)
        ]
        for index in branch.shared_by:
            found[index] += left
    return found


def _begun(method: Method, corner: str, combinations: list[Options]) -> list[Branch]:
    by_things: dict[tuple[Thing, ...], Branch] = {}
    for index, options in enumerate(combinations):
        act = begin(method, corner, options)
        before = by_things.get(act.things)
        state = before.state if before else effect(IN_THE_CHECKER, act)
        by_things[act.things] = Branch(state, (*(before.shared_by if before else ()), index))
    return list(by_things.values())


def _stepped(
    branch: Branch, step: Step, known: Known, corner: str, combinations: list[Options], found: list[list[Fault]]
) -> list[Branch]:
    """Do a step for those that have it; the branch divides where that leaves them in another state than the rest."""
    doing = tuple(index for index in branch.shared_by if holds(step.when, step.unless, combinations[index]))
    if not doing:
        return [branch]
    faults, state = _done(branch.state, step, known, corner)
    for index in doing if faults else ():
        found[index] += faults
    if state is branch.state:
        return [branch]
    rest = (
        tuple(index for index in branch.shared_by if index not in {*doing})
        if len(doing) < len(branch.shared_by)
        else ()
    )
    return [Branch(state, doing), *([Branch(branch.state, rest)] if rest else [])]


def _done(state: State, step: Step, known: Known, corner: str) -> tuple[list[Fault], State]:
    if step.key and not standing_of(state, name_at(step.key, corner), words.ACTS_ON[step.do]):
        there = [Fault("unknown-name", step.number, _not_there(step), step.key, step.line)]
        return there if step.key in known[words.ACTS_ON[step.do]] else [], state
    # Which steps were answered is of no interest here, and would tell apart what is alike.
    act = replace(propose(step, corner, state), step=0)
    faults = [
        Fault(refusal.rule, step.number, refusal.sentence, act.on, step.line) for refusal in broken_rules(state, act)
    ]
    return faults, effect(state, act)


def _not_there(step: Step) -> str:
    return f"{step.key!r} is declared only for other answers: the step needs the same `when` or `unless`."


def _can_be_done(step: Step) -> bool:
    """Tell whether a step says enough to be done; where it does not, the text rules have told so already."""
    args = {**step.args, **({kind: step.key for kind in language.STEP_ARGS.get(step.do, {}) if step.key})}
    if step.do not in language.STEP_ARGS:
        return False
    if step.do == "set":
        return any(key in step.args for key in language.SET_KEYS)
    return all(key in args or key == "text" for key in language.STEP_NEEDED.get(step.do, ()))
