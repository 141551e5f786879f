"""The Work tab: the steps of the begun methods with their marks, and the open step as a card."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from jobbook.core.work.begin import propose
from jobbook.core.work.effects import effect
from jobbook.core.work.model import CORNERS, Act, Joint
from jobbook.core.work.reading import Step
from jobbook.core.work.rules import refusals
from jobbook.core.work.state import Answered, State, stages_of
from jobbook.services.job.methods import Running
from jobbook.services.job.replay import Kept
from jobbook.services.measured.adapters import MEASURES, SET_TO, has_adapter
from jobbook.services.measured.alignment_answers import is_about_geometry, typed_answer
from jobbook.services.measured.heights import TYPED
from jobbook.services.sheet.asks import asks_of
from jobbook.services.sheet.bay import Bay
from jobbook.services.sheet.choices import choices, judged
from jobbook.services.sheet.joint_rows import joint_rows, source
from jobbook.services.sheet.sheets import Ask, Card, Choice, Done, StepRow
from jobbook.services.sheet.shelf import on_the_shelf
from jobbook.services.sheet.step_words import SAID, step_title
from jobbook.services.work.waiting import is_running

LOOKED_AHEAD = 8  # so many open steps after the open one are asked what they need


@dataclass(frozen=True)
class WorkFacts:
    """What the Work tab is made from. `waits`: when the waits that were begun are over, by method, corner and step."""

    bay: Bay
    running: tuple[Running, ...]
    kept: tuple[Kept, ...]
    names: Mapping[str, str]
    waits: Mapping[tuple[str, str, int], str]
    now: datetime
    who: str = ""


@dataclass(frozen=True)
class _Place:
    """One step in the row of all steps."""

    run: Running
    step: Step

    @property
    def key(self) -> tuple[str, str, int]:
        return self.run.method.key, self.run.corner, self.step.number


def places(facts: WorkFacts) -> list[_Place]:
    return [_Place(run, step) for run in facts.running for step in run.steps]


def step_rows(facts: WorkFacts) -> tuple[StepRow, ...]:
    """Every step with its mark. A step before the last one done that was not answered shows as skipped."""
    answers = facts.bay.state.steps
    there = places(facts)
    last = max((n for n, place in enumerate(there) if place.key in answers), default=-1)
    needs = _needs(facts, [place for place in there if place.key not in answers])
    return tuple(_row(facts, place, answers.get(place.key), needs, n < last) for n, place in enumerate(there))


def _row(
    facts: WorkFacts, place: _Place, answer: Answered | None, needs: Mapping[tuple[str, str, int], str], passed: bool
) -> StepRow:
    title = step_title(place.step, facts.bay.state.things, place.run.corner)
    mark = "ring" if answer is None else "disc" if answer.answer == "done" else "bar"
    act = propose(place.step, place.run.corner, facts.bay.state)
    begun = isinstance(facts.bay.state.things.get(act.on), Joint) and act.do == "tighten" and act.stage > 1
    return StepRow(
        place.run.begun,
        place.step.number,
        title,
        place.run.corner,
        "half" if answer is None and begun else mark,
        _note(facts, place, answer),
        answer.at if answer else "",
        needs.get(place.key, ""),
        skipped=answer is None and passed,
    )


def _note(facts: WorkFacts, place: _Place, answer: Answered | None) -> str:
    if answer is None:
        return ""
    if answer.answer != "done":
        return f"{answer.answer}: {answer.reason}".rstrip(": ")
    act = next((k.act for k in reversed(facts.kept) if _answers(k.act, place)), None)
    return act_note(act) if act else ""


def act_note(act: Act) -> str:
    """What an act adds to its step's title: the serial, what was reached, the heights."""
    if act.serial:
        return f"serial {act.serial}"
    if act.finding:
        return f"{act.finding}: {act.text}"
    if act.do == "measure":
        noted = (*CORNERS, "temperature") if act.what == "heights" else dict(act.readings)
        return ", ".join(f"{name} {value}" for name, value in act.readings if name in noted)
    return act.reached or act.ends


def _answers(act: Act, place: _Place) -> bool:
    return (act.method_key, act.corner, act.step) == place.key


def _needs(facts: WorkFacts, waiting: list[_Place]) -> dict[tuple[str, str, int], str]:
    """For the next open steps that a rule refuses now: the number of the step after which it would not."""
    state = replace(facts.bay.state, given=True)
    states = [state]
    for place in waiting[:LOOKED_AHEAD]:
        states.append(effect(states[-1], propose(place.step, place.run.corner, states[-1])))
    found = {}
    for n, place in enumerate(waiting[1:LOOKED_AHEAD], 1):
        for before in range(n + 1):
            act = propose(place.step, place.run.corner, states[before])
            if not refusals(states[before], act):
                if before:
                    found[place.key] = str(waiting[before - 1].step.number)
                break
    return found


def find_open(facts: WorkFacts, wanted: tuple[int, int] | None) -> _Place | None:
    """The step that is open: the one asked for, or the first that is not answered yet."""
    there = places(facts)
    asked = next((p for p in there if (p.run.begun, p.step.number) == wanted), None)
    answers = facts.bay.state.steps
    passed = max((n for n, p in enumerate(there) if p.key in answers), default=-1)
    ahead = [p for p in there[passed + 1 :] if p.key not in answers]
    return asked or next(iter(ahead), None) or next((p for p in there if p.key not in answers), None)


def card(facts: WorkFacts, place: _Place, row: StepRow) -> Card:
    """The open step with what may be said of it now, what the rules refuse, and what was said already."""
    state = facts.bay.state
    act = propose(place.step, place.run.corner, state)
    waits_until = facts.waits.get(place.key, "")
    offered = _offered(facts, act, waits_until)
    refused = tuple((choice, judged(choice, state, facts.who)) for choice in offered)
    if place.key in state.steps:
        refused = tuple((_again(choice), None) for choice, said in refused if said is None)
    blocked = tuple(said for _, said in refused if said is not None)
    joint = state.things.get(act.on)
    sources = [source(state, key, facts.names) for key in (getattr(joint, "figure", ""), act.figure_key)]
    sources.append(on_the_shelf(facts.bay, act))
    return Card(
        row,
        "" if place.step.do in SAID and place.step.text.rstrip(".") == row.title else place.step.text,
        place.step.caution,
        joint_rows(state, act.on, facts.kept, facts.names),
        tuple(filter(None, sources)),
        tuple(choice for choice, said in refused if said is None),
        tuple(dict.fromkeys(one.sentence for said in blocked for one in said.refusals)),
        waits_until if is_running(waits_until, facts.now) else "",
        blocked,
        _done(facts, place),
        _lacking(state, act, joint),
    )


def _offered(facts: WorkFacts, act: Act, waits_until: str) -> tuple[Choice, ...]:
    made = choices(act, facts.bay)
    if act.do != "wait":
        return made
    running = is_running(waits_until, facts.now)
    over = bool(waits_until) and not running
    wanted = ("main",) if over else ("early",) if running else ("wait-begun",)
    return tuple(choice for choice in made if choice.key in wanted)


def _again(choice: Choice) -> Choice:
    """A choice of a step that was answered: a joint loosened once more, a second road test. Never the first at hand."""
    shortcut = "G" if choice.shortcut == "Enter" else choice.shortcut
    return replace(choice, label=f"{choice.label} again", shortcut=shortcut, main=False)


def _lacking(state: State, act: Act, joint: object) -> tuple[str, ...]:
    keys = (getattr(joint, "figure", "") if act.do == "tighten" else "", act.figure_key)
    return tuple(key for key in keys if key and key not in state.figures)


def _done(facts: WorkFacts, place: _Place) -> tuple[Done, ...]:
    return tuple(
        Done(
            k.entry.number,
            k.entry.act,
            act_note(k.act) or step_title(place.step, facts.bay.state.things, place.run.corner),
            facts.names.get(k.act.by, k.act.by),
            k.act.at,
            k.signed,
            _asks_again(k.act, facts.bay),
            act_note(k.was) if k.was else "",
        )
        for k in facts.kept
        if _answers(k.act, place)
    )


def _asks_again(act: Act, bay: Bay) -> tuple[Ask, ...]:
    """What was answered, to be corrected: every ask with what stands there now."""
    asks = list(asks_of(act, bay))
    if has_adapter(act):
        asks += [*MEASURES, SET_TO]
    elif act.do == "tighten" and act.reached and not act.reached.startswith("clicked") and stages_of(bay.state, act.on):
        asks.append(Ask("reached", "Value shown", "quantity", unit="N·m", value=act.reached))
    return tuple(replace(ask, value=_value(act, ask.name) or ask.value) for ask in asks)


def _value(act: Act, name: str) -> str:
    told = dict(act.readings)
    if is_about_geometry(act):
        return typed_answer(act, name)
    if name == "heights":
        return "; ".join(f"{c} {told.get(TYPED + c, value)}" for c, value in told.items() if c in CORNERS)
    if name in told:
        return told[name]
    value = getattr(act, name, "")
    return str(value) if isinstance(value, str | int) else ""
