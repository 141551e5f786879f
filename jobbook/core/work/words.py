"""The words of the work: conditions and their values, acts and what each acts on, answers."""

from collections.abc import Mapping
from types import MappingProxyType

from jobbook.core.work.model import CORNERS, PLACES

CONDITION_VALUES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "ignition": ("on", "off"),
        "levelling": ("active", "off"),
        "battery": ("connected", "disconnected"),
        "restraints": ("live", "isolated"),
        "support": ("wheels", "touching", "propped", "lift"),
    }
)
AIR_VALUES = ("charged", "vented", "none")
ASSUMED: Mapping[str, str] = MappingProxyType(
    {name: values[0] for name, values in CONDITION_VALUES.items()} | {f"air {place}": "charged" for place in PLACES}
)

PLACE_WORDS = ("here", "axle", "all", "reservoir", *CORNERS)
FIGURE_KINDS = ("torque", "length", "pressure", "angle", "time", "temperature", "count")
MEASURED = (
    *("heights", "pressure", "leak_down", "fault_codes", "geometry", "temperature", "voltage", "current"),
    *("run_time", "sensor"),
)
CALIBRATED = ("heights", "headlamps", "driver_assistance", "steering_angle")

JOINT_ACTS = ("loosen", "take_out", "start", "tighten", "second_check")
LINE_ACTS = ("open", "plug", "join", "prove")
PART_ACTS = ("take_off", "put_on")
CONNECTOR_ACTS = ("unplug", "plug_in")
AID_ACTS = ("place", "clear")
ACTS_ON: Mapping[str, str] = MappingProxyType(
    dict.fromkeys(JOINT_ACTS, "joint")
    | dict.fromkeys(LINE_ACTS, "line")
    | dict.fromkeys(PART_ACTS, "part")
    | dict.fromkeys(CONNECTOR_ACTS, "connector")
    | dict.fromkeys(AID_ACTS, "aid")
)
UNDOING = ("loosen", "take_out")
OTHER_STEPS = (
    *("confirm", "inspect", "photo", "note", "measure", "set", "vent", "fill", "wait", "calibrate", "align"),
    "drive",
)
STEP_WORDS = (*OTHER_STEPS, *ACTS_ON)
OWN_WORDS = (
    *("begin", "declare", "arrive", "permit", "ask_authority", "authority", "figure", "issue", "allow", "let_go"),
    *("repaired", "declined", "referred", "cleared", "stop", "price", "said"),
)
ACT_WORDS = frozenset((*STEP_WORDS, *OWN_WORDS))

# Second checks and proofs look at work; they are not work that heights, codes and a road test must follow.
WORK_WORDS = frozenset(
    ("loosen", "take_out", "start", "tighten", "open", "plug", "join", "take_off", "put_on"),
)
ANSWERS = ("done", "not possible", "declined", "not applicable", "sublet")
FOUND = ("", "found wrong", "must not leave so")
