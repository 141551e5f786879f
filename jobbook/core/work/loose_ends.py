"""What is still loose, and what is still to do, before the vehicle may leave.

`END_RULES` names a function for each end rule. What a named person let go is no loose end any more, until the thing it
was about changes again.
"""

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from jobbook.core.work.loose_things import THING_RULES
from jobbook.core.work.model import PLACES, LooseEnd
from jobbook.core.work.state import State, air

TO_DO = "still to do"
LEFT_CONDITIONS = {
    "levelling": ("active", "Levelling is off: switch it on again"),
    "battery": ("connected", "The battery is disconnected: connect it again"),
    "restraints": ("live", "The restraints are isolated: make them live again"),
    "support": ("wheels", "The vehicle does not stand on its wheels: lower it"),
}
HOW_IT_ENDS = {
    ("found wrong", ""): "repair it, or keep who declined or was told",
    ("to be asked", ""): "keep whether it was allowed, declined, or told and left",
    ("must not leave so", ""): "repair it",
    ("must not leave so", "allowed"): "repairing it is allowed: keep that it was put right",
}
CALIBRATIONS = {"heights": "heights", "headlamps": "headlamps", "driver_assistance": "driver-assistance sensors"}


def loose_ends(state: State) -> tuple[LooseEnd, ...]:
    """Return what holds the release: first what is loose now, then what is still to do, each with since when."""
    found = [end for rule in ALL_ENDS.values() for end in rule(state)]
    kept = [end for end in found if (end.rule, end.on, end.since) not in state.let_go]
    return (*(end for end in kept if end.group != TO_DO), *(end for end in kept if end.group == TO_DO))


def condition_left(state: State) -> Iterator[LooseEnd]:
    for name, (fit, sentence) in LEFT_CONDITIONS.items():
        if state.conditions[name] != fit:
            yield LooseEnd("condition-left", name, f"{sentence}.", since=state.since.get(name, ""))
    for place in PLACES:
        if air(state, place) == "vented":
            name = f"air {place}"
            sentence = "The reservoir has no air: fill it." if place == "reservoir" else f"{place} has no air: fill it."
            yield LooseEnd("condition-left", name, sentence, since=state.since.get(name, ""))


def plugs_differ(state: State) -> Iterator[LooseEnd]:
    put_in = sum(now.plugs_in for now in state.lines.values())
    out = sum(now.plugs_out for now in state.lines.values()) + state.plugs_gone
    if put_in != out:
        sentence = f"Plugs do not match: {put_in} put in, {out} taken out or gone with a part. Look for the difference."
        yield LooseEnd("plugs-differ", "plugs", sentence)


def finding_open(state: State) -> Iterator[LooseEnd]:
    for name, found in state.findings.items():
        if not found.ended:
            how = HOW_IT_ENDS.get((found.kind, found.said)) or HOW_IT_ENDS[found.kind, ""]
            sentence = f"{found.kind.capitalize()}: {found.text or 'see the inspection'}; {how}."
            yield LooseEnd("finding-open", name, sentence, TO_DO, since=found.at)


def heights_missing(state: State) -> Iterator[LooseEnd]:
    order = state.order
    if order.worked and not order.heights_before:
        sentence = "Heights were not measured before the first lift or vent."
        yield LooseEnd("heights-missing", "heights before", sentence, TO_DO, "bar", state.since.get("work", ""))
    if order.worked and not order.heights_after:
        sentence = "Measure the heights: something was filled or tightened since they were read."
        yield LooseEnd("heights-missing", "heights after", sentence, TO_DO, since=state.since.get("heights", ""))


def not_calibrated(state: State) -> Iterator[LooseEnd]:
    order, since = state.order, state.since.get("sets height", "")
    for what in order.uncalibrated:
        sentence = f"Calibrate the {CALIBRATIONS[what]}: a part that sets the height came off."
        yield LooseEnd("not-calibrated", what, sentence, TO_DO, since=since)
    if order.aligned_too_soon and "heights" not in order.uncalibrated:
        sentence = "Set the geometry again: it was set before the heights were calibrated."
        yield LooseEnd("not-calibrated", "align", sentence, TO_DO, since=since)


def not_aligned(state: State) -> Iterator[LooseEnd]:
    if state.order.unaligned:
        sentence = "Measure and set the wheel geometry: a joint that decides it was loosened."
        yield LooseEnd("not-aligned", "align", sentence, TO_DO, since=state.since.get("geometry", ""))


def not_driven(state: State) -> Iterator[LooseEnd]:
    if state.order.undriven:
        yield LooseEnd("not-driven", "drive", "Road test after the work.", TO_DO, since=state.since.get("work", ""))


def codes_not_read(state: State) -> Iterator[LooseEnd]:
    order, since = state.order, state.since.get("work", "")
    if order.worked and not order.codes_before:
        sentence = "Fault codes were not read before the work began."
        yield LooseEnd("codes-not-read", "fault codes before", sentence, TO_DO, "bar", since)
    if order.worked and not order.codes_after:
        yield LooseEnd(
            "codes-not-read", "fault codes after", "Read the fault codes after the work.", TO_DO, since=since
        )


def kept_or_not_fitting(state: State) -> Iterator[LooseEnd]:
    for name, one in state.broken.items():
        said = (
            "Kept as it was done" + (f" ({one.reason})" if one.reason else "") if one.kept else "Does not fit any more"
        )
        yield LooseEnd(one.rule, name, f"{said}: {one.sentence}", TO_DO, since=one.at)


def stood_on_empty(state: State) -> Iterator[LooseEnd]:
    for corner, since in state.stood_empty.items():
        sentence = f"The spring at {corner} stood on empty: renew it, or have it cleared by a named person."
        yield LooseEnd("weight-on-empty-spring", corner, sentence, TO_DO, since=since)


def authority_waited_for(state: State) -> Iterator[LooseEnd]:
    if state.authority == "asked":
        sentence = "The payer was asked for authority and has not answered."
        yield LooseEnd("no-permission", "authority", sentence, TO_DO, since=state.since.get("authority", ""))


def price_above_permission(state: State) -> Iterator[LooseEnd]:
    if state.price:
        yield LooseEnd("price-above-permission", "price", state.price, TO_DO, since=state.since.get("price", ""))


EndRule = Callable[[State], Iterator[LooseEnd]]
END_RULES: Mapping[str, EndRule] = MappingProxyType(
    {
        **THING_RULES,
        "condition-left": condition_left,
        "plugs-differ": plugs_differ,
        "finding-open": finding_open,
        "heights-missing": heights_missing,
        "not-calibrated": not_calibrated,
        "not-aligned": not_aligned,
        "not-driven": not_driven,
        "codes-not-read": codes_not_read,
    }
)
# What an act rule leaves behind until it is put right. In the checker there is none of it.
LEFT_BY_ACTS: Mapping[str, EndRule] = MappingProxyType(
    {
        "kept": kept_or_not_fitting,
        "stood on empty": stood_on_empty,
        "authority": authority_waited_for,
        "price": price_above_permission,
    }
)
ALL_ENDS: Mapping[str, EndRule] = MappingProxyType({**END_RULES, **LEFT_BY_ACTS})
