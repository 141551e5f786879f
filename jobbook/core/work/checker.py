"""The method checker: a whole method run with every combination of its options, at each corner, by the same rules.

What only the bay can judge counts as right. After a finding the checker goes on as if the act had been done.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import product

from jobbook.core.work import language
from jobbook.core.work.begin import begin, name_at, propose, steps_for
from jobbook.core.work.effects import effect
from jobbook.core.work.findings import Finding, mended, text_findings
from jobbook.core.work.loose_ends import END_RULES
from jobbook.core.work.model import AXLES, CORNERS
from jobbook.core.work.names import declared
from jobbook.core.work.reading import Document, Method, Step, method_of, read_document, rows
from jobbook.core.work.rules import broken_rules
from jobbook.core.work.state import START, State

IN_THE_CHECKER = replace(START, given=True)


def check(raw: bytes | str) -> tuple[Finding, ...]:
    """Return everything wrong with a method file, () where nothing is. Unreadable where it cannot be read at all."""
    document = read_document(raw)
    written = mended(document)
    method = method_of(written)
    known = {key for keys in declared(written).values() for key in keys}
    runs = (run for options in _combinations(method) for run in _at_every_corner(method, written, known, options))
    return (*text_findings(document), *runs)


def _combinations(method: Method) -> Iterator[dict[str, bool]]:
    for answers in product((False, True), repeat=len(method.options)):
        yield dict(zip(method.options, answers, strict=True))


def _at_every_corner(
    method: Method, document: Document, known: set[str], options: dict[str, bool]
) -> Iterator[Finding]:
    """Tell each fault once for a combination of options, with the first corner where it shows."""
    seen: set[tuple[str, int | str, str]] = set()
    for corner in _corners(method, document):
        for finding, about in _run(method, known, corner, options):
            mark = (finding.rule, finding.step, _seen_from(about, corner))
            if mark not in seen:
                seen.add(mark)
                yield finding


def _corners(method: Method, document: Document) -> tuple[str, ...]:
    """Return the corners to run at. Where the file names no corner of its own, one stands for all of them."""
    named = {
        str(row.get(key))
        for table in ("line", "part", "step")
        for row in rows(document, table)
        for key in ("at", "fills")
    }
    corners = method.corners or ("",)
    return corners if named & {*CORNERS} else corners[:1]


def _seen_from(about: str, corner: str) -> str:
    """Return what a finding is about in words that are the same at every corner."""
    there = dict(zip(AXLES.get(corner, ()), ("left", "right"), strict=False))
    place = about.removeprefix("air ")
    return about.replace(place, "here" if place == corner else "beside") if place in there else about.split("@")[0]


def _run(method: Method, known: set[str], corner: str, options: Mapping[str, bool]) -> Iterator[tuple[Finding, str]]:
    started = begin(method, corner, options)
    state = effect(IN_THE_CHECKER, started)
    for step in steps_for(method, corner, options):
        if not _can_be_done(step):
            continue
        if step.key and name_at(step.key, corner) not in state.things:
            if step.key in known:
                yield _finding("unknown-name", step, options, corner, _not_there(step)), step.key
            continue
        act = propose(step, corner, state)
        for refusal in broken_rules(state, act):
            yield _finding(refusal.rule, step, options, corner, refusal.sentence), act.on
        state = effect(state, act)
    yield from _left_over(state, options, corner)


def _left_over(state: State, options: Mapping[str, bool], corner: str) -> Iterator[tuple[Finding, str]]:
    for rule in END_RULES.values():
        for end in rule(state):
            yield Finding(end.rule, "end", dict(options), corner, end.sentence), end.on


def _finding(rule: str, step: Step, options: Mapping[str, bool], corner: str, message: str) -> Finding:
    return Finding(rule, step.number, dict(options), corner, message, step.line)


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
