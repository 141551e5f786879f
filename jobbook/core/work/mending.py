"""What follows when an act broke a rule: allowances are spent, the rest is noted until it is put right."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from jobbook.core.work import words
from jobbook.core.work.changing import replace
from jobbook.core.work.model import CORNERS, Act, Refusal
from jobbook.core.work.rules_on_vehicle import unbuilt_at
from jobbook.core.work.state import Broken, State, carries, empty_corners

LOOKING = ("second_check", "prove")
Mended = Callable[[State, Act, Broken], bool]


def after_broken(before: State, act: Act, after: State, broken: tuple[Refusal, ...]) -> State:
    """Return the state with what the act broke noted, the allowances it needed spent, what it put right gone."""
    names = {refusal.rule for refusal in broken} | set(act.kept_after)
    after = _unseen(before, act, after) if names and act.do in LOOKING else after
    after = _stood(after, act) if "weight-on-empty-spring" in names else after
    after, spent = _spent(after, names - set(act.kept_after))
    left = {name: one for name, one in after.broken.items() if not _is_mended(after, act, one, names)}
    noted = {_name(act, rule): _noted(act, rule, broken) for rule in sorted(names - spent)}
    return replace(after, broken={**left, **noted})


def _spent(state: State, needed: set[str]) -> tuple[State, set[str]]:
    """An allowance covers one act: the first of each rule that the act needed is gone."""
    spent: set[str] = set()
    kept = []
    for allowance in state.allowances:
        if allowance.rule in needed - spent:
            spent.add(allowance.rule)
        else:
            kept.append(allowance)
    return replace(state, allowances=tuple(kept)), spent


def _stood(state: State, act: Act) -> State:
    """Name the springs that carry weight empty now, so that no road test follows before they are renewed or cleared."""
    support = state.conditions["support"]
    corners = empty_corners(state) if support in ("wheels", "touching") else []
    if support == "propped":
        corners = [corner for corner in CORNERS if corner == state.propped_at and not carries(state, corner)]
    fresh = {corner: act.at for corner in corners if corner not in state.promised}
    return replace(state, stood_empty={**fresh, **state.stood_empty})


def _unseen(before: State, act: Act, after: State) -> State:
    """A look that went against a rule (one's own work, no pressure) shows nothing: all stands as it stood."""
    return replace(after, joints=before.joints, lines=before.lines)


def _name(act: Act, rule: str) -> str:
    return f"{act.id or ' '.join(filter(None, (act.do, act.on or act.what)))} {rule}"


def _noted(act: Act, rule: str, broken: tuple[Refusal, ...]) -> Broken:
    sentence = next((refusal.sentence for refusal in broken if refusal.rule == rule), f"It went against {rule}.")
    return Broken(
        rule, (act.do, act.on, act.what, act.to), sentence, rule in act.kept_after, act.reason, act.by, act.at
    )


def _is_mended(state: State, act: Act, one: Broken, names: set[str]) -> bool:
    if act.answer != "done":
        return False
    mended = MENDED.get(one.rule, _done_again if one.act[0] in LOOKING else _never)
    return one.rule not in names and mended(state, act, one)


def _never(state: State, act: Act, one: Broken) -> bool:
    """A moment of danger that has passed is put right only by the word of a person: repaired, or let go."""
    return False


def _reopened(state: State, act: Act, one: Broken) -> bool:
    return act.on == one.act[1] and act.do in (*words.UNDOING, "open")


def _done_again(state: State, act: Act, one: Broken) -> bool:
    return _reopened(state, act, one) or (act.do, act.on, act.what, act.to) == one.act


def _standing_still(state: State, act: Act, one: Broken) -> bool:
    return state.conditions["levelling"] == "off" or state.conditions["support"] == "wheels"


def _built_up(state: State, act: Act, one: Broken) -> bool:
    support = state.conditions["support"]
    return support not in ("touching", "wheels") or not unbuilt_at(state, support)


MENDED: Mapping[str, Mended] = MappingProxyType(
    {
        "tightened-hanging": _reopened,
        "hand-first": _reopened,
        "single-use-again": _reopened,
        "wrong-tool": _done_again,
        "figure-unknown": _done_again,
        "same-person": _done_again,
        "not-fit-to-drive": _done_again,
        "lift-with-levelling-active": _standing_still,
        "levelling-woken": _standing_still,
        "half-built": _built_up,
        "promise-to-fill": lambda state, act, one: not state.promised,
        "open-line-left": lambda state, act, one: not any(now.word == "open" for now in state.lines.values()),
        "no-permission": lambda state, act, one: (
            state.permitted and state.authority in ("", "given") and not state.price_used
        ),
        "weight-on-empty-spring": lambda state, act, one: not state.stood_empty,
    }
)
