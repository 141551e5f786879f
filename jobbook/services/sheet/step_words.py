"""How steps and states are called on the job page and on papers."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from jobbook.core.work.begin import places_at, title_of
from jobbook.core.work.model import CORNERS, Act, Thing
from jobbook.core.work.reading import Step
from jobbook.core.work.state import State, air, called
from jobbook.services.sheet.sheets import StateWord

SAID = ("confirm", "inspect", "photo", "note")
MEASURED: Mapping[str, str] = {
    "heights": "Measure the heights", "fault_codes": "Read the fault codes of every module",
    "leak_down": "Leak-down stand",
    "geometry": "Measure the wheel geometry", "voltage": "Measure the supply voltage", "current": "Measure the current",
    "sensor": "Read the height sensors", "run_time": "Measure the compressor's run time",
}  # fmt: skip
CALIBRATED: Mapping[str, str] = {
    "heights": "Calibrate the heights", "headlamps": "Aim the headlamps",
    "steering_angle": "Set the steering angle to zero",
    "driver_assistance": "Calibrate the driver-assistance sensors",
}  # fmt: skip
SET: Mapping[tuple[str, str], str] = {
    ("support", "lift"): "Onto the lift, suspension hanging",
    ("support", "touching"): "Lower until the tyres touch, then stop",
    ("support", "wheels"): "Onto its wheels, full weight",
    ("support", "propped"): "Prop the hub at ride height",
    ("levelling", "off"): "Switch levelling off",
    ("levelling", "active"): "Switch levelling on again",
    ("ignition", "on"): "Ignition on",
    ("ignition", "off"): "Ignition off, key away from the vehicle",
    ("battery", "connected"): "Connect the battery",
    ("battery", "disconnected"): "Disconnect the battery",
    ("restraints", "live"): "Make the restraints live again",
    ("restraints", "isolated"): "Isolate the restraints",
}
SUPPORT = {
    "wheels": "on its wheels",
    "touching": "tyres touching, the lift carries",
    "propped": "body carried, hub propped",
    "lift": "on the lift",
}
PAST = {
    "loosen": "loosened", "take_out": "taken out", "start": "started by hand", "tighten": "tightened", "open": "opened",
    "second_check": "checked by a second person", "plug": "plugged", "join": "joined",
    "prove": "looked at under pressure",
    "take_off": "taken off", "put_on": "put on", "unplug": "unplugged", "plug_in": "plugged in", "place": "placed",
    "clear": "cleared away", "vent": "vented", "fill": "filled", "wait": "Waited", "repaired": "Finding repaired",
}  # fmt: skip
OWN = {
    "align": "Wheel geometry measured and set",
    "drive": "Road test",
    "permit": "Permission to dismantle",
    "authority": "Payer's authority",
    "ask_authority": "Payer asked for authority",
    "stop": "Customer stopped the job",
}
PLAIN = {"ignition": "on", "levelling": "active", "battery": "connected", "restraints": "live"}


def step_title(step: Step, things: Mapping[str, Thing], corner: str = "") -> str:
    """What a step is called in a row: short, without a full stop."""
    args = step.args
    if step.do in ("vent", "fill"):
        return f"{step.do.capitalize()} {places_words(places_at(args.get('at', ''), corner))}"
    if step.do in SAID:
        return step.text.split(". ")[0].rstrip(".") or step.do.capitalize()
    if step.do == "set":
        return next((words for (what, to), words in SET.items() if args.get(what) == to), "Set a condition")
    named = {"measure": MEASURED, "calibrate": CALIBRATED}.get(step.do, {})
    return named.get(args.get("what", ""), "") or title_of(replace(step, text=""), things).rstrip(".")


def state_words(state: State) -> tuple[StateWord, ...]:
    """The conditions in words; what is not as on the road is strong."""
    now = state.conditions
    words = [StateWord(SUPPORT[now["support"]], now["support"] != "wheels")]
    words += [
        StateWord(f"{name} {now[name]}", now[name] != plain) for name, plain in PLAIN.items() if name != "ignition"
    ]
    corners = {corner: air(state, corner) for corner in CORNERS}
    words += [StateWord(f"{corner} vented", True) for corner, word in corners.items() if word == "vented"]
    charged = [corner for corner, word in corners.items() if word == "charged"]
    without = [corner for corner, word in corners.items() if word == "none"]
    words += [StateWord(f"{places_words(charged)} charged")] if charged else []
    words += [StateWord(f"no air at {places_words(without)}")] if without else []
    if air(state, "reservoir") == "vented":
        words.append(StateWord("reservoir vented", True))
    return tuple(words)


def places_words(places: Sequence[str]) -> str:
    """Places as people say them: the front, all four corners, FL, the reservoir."""
    whole = {("FL", "FR"): "the front", ("RL", "RR"): "the rear", CORNERS: "all four corners"}
    return whole.get(tuple(places), ", ".join(places)).replace("reservoir", "the reservoir")


def step_words(state: State, act: Act) -> str:
    """What an act was, in the past, for lists of who did what."""
    if act.do == "begin":
        return f"{act.text} begun"
    if act.do in SAID:
        return act.text or act.do
    if act.do == "set":
        return SET.get((act.what, act.to), f"{act.what} {act.to}")
    named = {"measure": MEASURED, "calibrate": CALIBRATED}.get(act.do, {})
    what = named.get(act.what, "") or OWN.get(act.do, "")
    if not what:
        told = called(state, act.on) if act.on else ", ".join(act.places)
        what = f"{told} {PAST.get(act.do, act.do.replace('_', ' '))}".strip()
    answer = "" if act.answer == "done" else f": {act.answer}"
    added = act.reached or (f"serial {act.serial}" if act.serial else "")
    return what + answer + (f", {added}" if added else "")
