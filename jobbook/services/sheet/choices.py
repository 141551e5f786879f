"""The choices at one step: each an act with what it asks. Which of them the rules allow is asked of the rules."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from jobbook.core.figures.stages import Stage
from jobbook.core.fitness import ANGLE_TOOLS, WRENCHES
from jobbook.core.work.model import Act, ToolUse
from jobbook.core.work.rules import RULES, refusals
from jobbook.core.work.state import State, is_angle, stages_of
from jobbook.services.measured.adapters import MEASURES, SET_TO
from jobbook.services.sheet.asks import EXCUSABLE, EXCUSE, TOOL_KINDS, asks_of, tool_ask, wrong_tool_allowed
from jobbook.services.sheet.bay import Bay, stage_of, tools_for
from jobbook.services.sheet.sheets import Ask, Blocked, Choice, WithAdapter
from jobbook.services.sheet.shelf import lacking_words

SIGNED_ALONE = ("vent", "open", "fill")

LABELS: Mapping[str, str] = {
    "confirm": "Confirmed", "photo": "Picture taken", "note": "Keep the note", "measure": "Enter the reading",
    "vent": "Vented", "fill": "Filled", "loosen": "Loosened", "take_out": "Taken out", "start": "Started by hand",
    "open": "Opened", "plug": "Plugged", "join": "Joined", "take_off": "Taken off", "put_on": "Put on",
    "unplug": "Unplugged", "plug_in": "Plugged in, clip heard", "place": "Placed", "clear": "Cleared away",
    "calibrate": "Calibrated", "align": "Geometry set", "drive": "Road test done", "set": "Done",
}  # fmt: skip
REASON_OUTSIDE = Ask("reason", "If it is outside the limits: why", "text", required=False)


def choices(act: Act, bay: Bay) -> tuple[Choice, ...]:
    """Everything that can be said at a step that suggests this act, the main one first."""
    made = SPECIAL.get(act.do, _plain)(act, bay)
    if act.do in EXCUSABLE:
        excuse = replace(act, answer="not possible", ends="")
        made = (*made, Choice("not-done", "Not done", "N", excuse, EXCUSE))
    return made


def _plain(act: Act, bay: Bay) -> tuple[Choice, ...]:
    return (Choice("main", LABELS[act.do], "Enter", act, asks_of(act, bay), main=True, signs=stands_alone(act)),)


def _inspected(act: Act, bay: Bay) -> tuple[Choice, ...]:
    what = (Ask("text", "What was found", "long text"),)
    return (
        Choice("main", "In order", "Enter", act, main=True),
        Choice("found-wrong", "Found wrong", "W", replace(act, finding="found wrong"), what),
        Choice("must-not-leave", "Must not leave so", "M", replace(act, finding="must not leave so"), what),
    )


def _proved(act: Act, bay: Bay) -> tuple[Choice, ...]:
    return (
        Choice("main", "Tight", "Enter", replace(act, ends="tight"), main=True),
        Choice("not-tight", "Not tight", "L", replace(act, ends="not tight")),
    )


def _waited(act: Act, bay: Bay) -> tuple[Choice, ...]:
    early = (Ask("reason", "Why is the wait cut short?", "long text"),)
    return (
        Choice("wait-begun", "Begin to wait", "Enter", act, main=True),
        Choice("main", "The wait is over", "Enter", act, main=True),
        Choice("early", "Cut it short", "E", replace(act, ends="early"), early),
    )


def _tightened(act: Act, bay: Bay) -> tuple[Choice, ...]:
    stage = stage_of(bay.state, act.on, act.stage)
    last = act.stage in (0, len(stages_of(bay.state, act.on)))
    failed = replace(act, do="inspect", finding="must not leave so", step=0, stage=0)
    made = (_by_feel(act),) if stage is None else _to_stage(act, bay, stage)
    stripped = Choice("failed", "Thread failed", "F", failed, (Ask("text", "What happened", "long text"),))
    return (*(replace(choice, signs=last) for choice in made), stripped)


def _by_feel(act: Act) -> Choice:
    return Choice("main", "Tightened by feel", "Enter", replace(act, reached="by feel"), main=True)


def _to_stage(act: Act, bay: Bay, stage: Stage) -> tuple[Choice, ...]:
    """What can be said of a stage. Where no tool of the shop reaches it, the tool that is lacking is judged at once."""
    act = replace(act, tool=none_fits(bay, stage))
    if stage.kind == "angle":
        turned = replace(act, reached=stage.quantity.text())
        asks = (tool_ask(bay, stage, TOOL_KINDS["angle"]),)
        return (Choice("main", f"Turned {stage.quantity.text()}", "Enter", turned, asks, main=True),)
    clicked = replace(act, reached=f"clicked at {stage.quantity.text()}")
    shown = (
        tool_ask(bay, stage, TOOL_KINDS["shown"]),
        Ask("reached", "Value shown", "quantity", unit="N·m"),
        REASON_OUTSIDE,
    )
    label = f"Clicked at {stage.quantity.text()}"
    return (
        Choice("main", label, "Enter", clicked, (tool_ask(bay, stage, TOOL_KINDS["click"]),), main=True),
        Choice("shown", "Value shown", "V", act, shown),
        *_adapted(replace(act, tool=None), bay, stage),
    )


def none_fits(bay: Bay, stage: Stage) -> ToolUse | None:
    """Where no tool of the shop can do a stage, a use that says so: the rule then says it before anything is done."""
    kinds = ANGLE_TOOLS if stage.kind == "angle" else WRENCHES
    if any(not use.unfit for use in tools_for(bay, stage, kinds)):
        return None
    return ToolUse("", unfit=lacking_words(stage))


def _adapted(act: Act, bay: Bay, stage: Stage) -> tuple[Choice, ...]:
    """With an adapter, or on a nut that turns hard: the tool is judged by the setting, so all of them are offered."""
    tools = tuple(tool for tool in bay.tools if tool.kind in WRENCHES and tool.status != "scrapped")
    if not tools:
        return ()
    asks = (*MEASURES, SET_TO, REASON_OUTSIDE, tool_ask(bay, None, WRENCHES))
    worked = WithAdapter(stage.quantity, tools, bay.today, wrong_tool_allowed(bay))
    return (Choice("adapter", "With an adapter…", "A", act, asks, adapter=worked),)


def _checked(act: Act, bay: Bay) -> tuple[Choice, ...]:
    stages = stages_of(bay.state, act.on)
    stage = stage_of(bay.state, act.on, len(stages)) if stages else None
    if stages and is_angle(stages[-1]):
        asks: tuple[Ask, ...] = ()
        how, label = "witnessed the angle", "Angle witnessed"
    else:
        how, label = "clicked, did not move", "Clicked, did not move"
        asks = (tool_ask(bay, stage, TOOL_KINDS["click"]),) if stage else ()
    made = (Choice("main", label, "Enter", replace(act, how=how), asks, main=True, signs=True, second_person=True),)
    if stage is None or stage.kind == "angle":
        return made
    return (*made, *(replace(one, signs=True, second_person=True) for one in _adapted(act, bay, stage)))


SPECIAL: Mapping[str, Callable[[Act, Bay], tuple[Choice, ...]]] = {
    "inspect": _inspected,
    "prove": _proved,
    "wait": _waited,
    "tighten": _tightened,
    "second_check": _checked,
}


def stands_alone(act: Act) -> bool:
    """Acts that are never ticked as a group: air, support and torques are signed one by one."""
    return act.do in (*SIGNED_ALONE, "tighten", "second_check") or (act.do == "set" and act.what == "support")


def judged(choice: Choice, state: State, who: str) -> Blocked | None:
    """None where the rules allow the choice, else what they say. What is still asked for counts as rightly answered."""
    said = refusals(state, _as_if_answered(choice, state, who))
    if not said:
        return None
    return Blocked(choice, said, tuple(one.rule for one in said if RULES[one.rule].allowable))


def _as_if_answered(choice: Choice, state: State, who: str) -> Act:
    act = replace(choice.act, by="another person" if choice.second_person else who)
    asked = {ask.name for ask in choice.asks}
    if "tool" in asked and act.tool is None:
        act = replace(act, tool=ToolUse("chosen"))
    return replace(act, reason="given") if "reason" in asked else act
