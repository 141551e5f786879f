"""The rules by name, and the four functions at the heart: `refusals` judges, `apply` does, `perform` does both.

`apply` never refuses, so that a correction or a sharper rule leaves every old job readable.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from jobbook.core.errors import Refused
from jobbook.core.work import rules_in_the_bay as bay
from jobbook.core.work import rules_on_things as things
from jobbook.core.work import rules_on_vehicle as vehicle
from jobbook.core.work import words
from jobbook.core.work.changing import replace
from jobbook.core.work.effects import effect
from jobbook.core.work.effects_own import answered
from jobbook.core.work.findings import TEXT_RULES
from jobbook.core.work.loose_ends import END_RULES, loose_ends
from jobbook.core.work.mending import after_broken
from jobbook.core.work.model import Act, LooseEnd, Refusal
from jobbook.core.work.state import State

Judge = Callable[[State, Act], str]


@dataclass(frozen=True)
class Rule:
    """A rule. `kind`: act, end or text. `judge` belongs to its kind. `on`: the words of the acts that it looks at.

    `allowable`: a permitted person may allow it to be broken, beforehand and with a reason.
    """

    name: str
    kind: str
    judge: Callable[..., Any]
    on: frozenset[str] = frozenset()
    allowable: bool = False


WORKED = (*words.JOINT_ACTS, *words.LINE_ACTS, *words.PART_ACTS)
NEAR = (*words.PART_ACTS, *words.CONNECTOR_ACTS)
# The order is the order in which `refusals` tells, and `perform` raises the first.
ACT_TABLE: tuple[tuple[str, Judge, Iterable[str], bool], ...] = (
    ("out-of-state", things.out_of_state, tuple(words.ACTS_ON), False),
    ("no-permission", bay.no_permission, ("loosen", "take_out", "open", "vent", "take_off"), False),
    ("lift-with-levelling-active", vehicle.lift_with_levelling_active, ("set",), True),
    ("levelling-woken", vehicle.levelling_woken, ("set",), True),
    ("weight-on-empty-spring", vehicle.weight_on_empty_spring, ("set", "vent"), True),
    ("promise-to-fill", vehicle.promise_to_fill, (*WORKED, "set", "vent", "fill"), True),
    ("half-built", vehicle.half_built, ("set",), True),
    ("under-load", things.under_load, ("open", "loosen", "take_out", "take_off", "put_on"), False),
    ("under-pressure", things.under_pressure, ("open", "loosen", "take_out", "take_off", "prove"), False),
    ("open-line-left", things.open_line_left, WORKED, True),
    ("filled-while-open", vehicle.filled_while_open, ("fill", "set"), False),
    ("still-held", things.still_held, ("take_off", "start", "join", "plug_in"), True),
    ("restraints-live", things.restraints_live, NEAR, False),
    ("restraints-live", vehicle.isolated_too_soon, ("set",), False),
    ("single-use-again", things.single_use_again, ("tighten", "join"), True),
    ("hand-first", things.hand_first, ("tighten",), True),
    ("tightened-hanging", things.tightened_hanging, ("tighten",), True),
    ("figure-unknown", bay.figure_unknown, ("tighten", "vent", "fill", "wait"), False),
    ("wrong-tool", bay.wrong_tool, ("tighten",), True),
    ("same-person", bay.same_person, ("second_check",), False),
    ("not-fit-to-drive", vehicle.not_fit_to_drive, ("drive",), False),
)
ACT_RULES = tuple(Rule(name, "act", judge, frozenset(on), allow) for name, judge, on, allow in ACT_TABLE)
RULES: Mapping[str, Rule] = MappingProxyType(
    {rule.name: rule for rule in reversed(ACT_RULES)}
    | {name: Rule(name, "end", judge) for name, judge in END_RULES.items()}
    | {name: Rule(name, "text", judge) for name, judge in TEXT_RULES.items()}
)
RULES_ON: Mapping[str, tuple[Rule, ...]] = MappingProxyType(
    {word: tuple(rule for rule in ACT_RULES if word in rule.on) for word in words.ACT_WORDS}
)
FORM = "out-of-state"


def refusals(state: State, act: Act) -> tuple[Refusal, ...]:
    """Return every rule that the act would break now, in the order of the table, () where it may be done.

    A rule that was allowed beforehand is not among them, nor one that the act names as broken when it happened.
    """
    allowed = {allowance.rule for allowance in state.allowances} | set(act.kept_after)
    form = _form(state, act)
    if act.kept_after and not act.reason:
        form = (*form, Refusal(FORM, "Say why this was done before it was kept here."))
    return (*form, *(refusal for refusal in broken_rules(state, act) if refusal.rule not in allowed))


def apply(state: State, act: Act) -> State:
    """Return the state after the act. What it broke stays as a loose end until it is put right or let go."""
    form, broken = _form(state, act), broken_rules(state, act)
    change = _let_go if act.do == "let_go" else effect
    after = state if form else change(state, act)
    if not (form or broken or act.kept_after or state.broken or state.allowances):
        return after
    return after_broken(state, act, after, (*form, *broken))


def perform(state: State, act: Act) -> State:
    """Return the state after the act. Refused, with the first rule that says no."""
    for refusal in refusals(state, act):
        raise Refused(refusal.sentence, refusal.rule)
    return apply(state, act)


def broken_rules(state: State, act: Act) -> tuple[Refusal, ...]:
    """Return what the act breaks, allowed or not. What was not done breaks nothing."""
    if act.answer != "done":
        return ()
    judged = ((rule.name, rule.judge(state, act)) for rule in RULES_ON.get(act.do, ()))
    return tuple(Refusal(name, sentence) for name, sentence in judged if sentence)


def _form(state: State, act: Act) -> tuple[Refusal, ...]:
    if act.answer != "done":
        return ()
    if act.do == "allow":
        return _allowance(act)
    sentence = _let_go_form(state, act) if act.do == "let_go" else bay.own_form(state, act)
    return (Refusal(FORM, sentence),) if sentence else ()


def _allowance(act: Act) -> tuple[Refusal, ...]:
    rule = RULES.get(act.rule)
    if rule is None or rule.kind != "act":
        return (Refusal(FORM, f"There is no rule {act.rule!r} that an act could break."),)
    if not rule.allowable:
        return (Refusal(act.rule, f"Nobody may allow {act.rule} beforehand: do what the rule asks for."),)
    return () if act.reason else (Refusal(FORM, "Say why this is allowed: the reason prints on the paper."),)


def _matched(state: State, act: Act) -> list[LooseEnd]:
    return [end for end in loose_ends(state) if end.on == act.on and act.rule in ("", end.rule)]


def _let_go_form(state: State, act: Act) -> str:
    found = _matched(state, act)
    if not found:
        return "There is no such loose end in this job."
    if not act.reason:
        return "Say why this is let go: the reason prints on the paper."
    finding = state.findings.get(act.on)
    if finding and finding.kind == "must not leave so" and not act.text:
        return "This must not leave so: name the restriction under which the vehicle is let go."
    return ""


def _let_go(state: State, act: Act) -> State:
    gone = {(end.rule, end.on, end.since): answered(act) for end in _matched(state, act)}
    return replace(state, let_go={**state.let_go, **gone})
