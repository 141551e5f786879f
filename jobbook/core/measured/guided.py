"""The tests of a diagnosis in the order that wastes least time, and what each finding points to. Common practice.

What would spoil another test comes after it: heights before anything wakes the vehicle, the stand before the soap
(which wets what leaks), soap on its wheels before the lift, since a sleeve folds elsewhere when the wheels hang.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from jobbook.core.work.model import CORNERS

NOT_LOOKED_AT = "not looked at"


@dataclass(frozen=True)
class Part:
    """One thing asked of a test. `kind`: quantity (of `quantity`, in `unit` where none is typed), choice, several or
    text.

    `figure` names the figure of the list by which it can be reckoned, with the key of its result."""

    key: str
    label: str
    kind: str = "text"
    options: tuple[str, ...] = ()
    quantity: str = ""
    unit: str = ""
    figure: str = ""
    result: str = ""


@dataclass(frozen=True)
class Guided:
    """One test of the order. `how` says in a sentence what makes it tell something; `apart`: one answer for each choice
    of that part (a sensor at each corner). `by` names what answers it elsewhere: heights, stand, codes."""

    key: str
    title: str
    how: str
    parts: tuple[Part, ...] = ()
    apart: str = ""
    by: str = ""
    caution: str = ""


@dataclass(frozen=True)
class Sign:
    """What a finding points to, and what proves it."""

    key: str
    finding: str
    points_to: str
    confirm: str


def _choice(key: str, label: str, *options: str) -> Part:
    return Part(key, label, "choice", options)


def _quantity(key: str, label: str, quantity: str, unit: str, figure: str = "", result: str = "") -> Part:
    return Part(key, label, "quantity", (), quantity, unit, figure, result)


CORNER = Part("corner", "Corner", "several", CORNERS)
BUBBLES = (
    _choice("bubbles", "Bubbles", "none", "slow, one at a time", "steady", "foam at once"),
    CORNER,
    Part(
        "where",
        "Where they rise",
        "several",
        ("lower roll", "upper roll", "crimp ring", "top fitting", "line", "valve block port", "block exhaust"),
    ),
    _quantity("hole", "Like a hole of", "length", "mm", "hole", "diameter_mm"),
)
SIGNS = (
    Sign(
        "one corner", "one corner falls, the others hold",
        "the spring or strut there, its line, its fitting, or its port of the valve block",
        "soap at sleeve, crimp rings, top fitting and line; then change the line over with a good one of a like port: "
        "a fall that moves along is the block's, one that stays is the corner's or the line's",
    ),
    Sign(
        "held when plugged at the block", "with its line plugged at the block the corner holds",
        "that port of the valve block", "bubbles at the block's exhaust or at the next port",
    ),
    Sign(
        "fell when plugged at the spring", "plugged at the spring itself it still falls",
        "the spring or strut, its holding valve or fitting",
        "soap or water off the vehicle; a spring that is not mounted takes no more than some 0.7 bar",
    ),
    Sign(
        "axle", "both corners of an axle fall alike",
        "what they share: a port, a cross valve, the block; or the temperature",
        "as for one corner, and the temperatures beside the heights",
    ),
    Sign(
        "all four", "all four fall",
        "supply or exhaust valve, block, levelling that woke, temperature, load",
        "switch levelling off and repeat the stand",
    ),
    Sign(
        "moving only", "holds parked, falls on the road or in one mode",
        "a crack that opens at one fold, side load from the damper, a sensor", "soap at several heights",
    ),
    Sign(
        "silent", "does not rise, the compressor is silent",
        "relay, fuse, wiring, heat lock-out, low battery, a module that forbids it",
        "voltage drop under load; let it cool; read again",
    ),
    Sign(
        "slow", "rises slowly, the compressor runs long",
        "a worn compressor, a leak, a blocked intake or dryer, a narrowed line",
        "pressure over time; intake open; exhaust",
    ),
    Sign(
        "runs on", "the compressor runs with ignition off until the battery is flat",
        "a relay that sticks", "relay out: it stops. Renew the relay with the compressor",
    ),
    Sign(
        "water", "water at the exhaust, in the filter or in the lines",
        "a saturated dryer", "dryer open and weighed or looked at; look for water further on, in block and lines",
    ),
    Sign(
        "crept without loss", "it leans or creeps, and no air is lost",
        "a sensor whose signal drifts, water in its connector, a height that was read when it was woken",
        "sensor values with the vehicle still; connector open and dry",
    ),
)  # fmt: skip
SIGN: Mapping[str, Sign] = MappingProxyType({sign.finding: sign for sign in SIGNS})

ORDER = (
    Guided(
        "heights", "Heights as it stands",
        "Before a door is opened, the key comes near or a code is read: each of them may wake it and level it.",
        by="heights",
    ),
    Guided(
        "codes", "Fault codes of every module saved",
        "All modules, with the odometer, as shown. Clear nothing before the work.", by="codes",
    ),
    Guided(
        "round", "Walk round: tyres, load, ride mode, parts changed earlier",
        "What makes a sound system stand wrong is seen here.",
        (
            Part("tyres", "Tyres: size and pressure, all four"),
            Part("load", "Load, spare wheel, trailer"),
            Part("mode", "Ride mode that is set"),
            Part("changed", "Parts, links or modules that others changed"),
        ),
    ),
    Guided(
        "levelled", "Heights after it levelled itself, normal mode",
        "Let it level, then measure the same points again: against the figures, and side against side.", by="levelled",
    ),
    Guided(
        "stand", "Leak-down stand",
        "Normal height, levelling off or asleep, doors shut, keys away. Read it again before it is unlocked.",
        by="stand",
    ),
    Guided(
        "soap normal", "Soap test at normal height, on its wheels",
        "On its wheels first: a sleeve folds elsewhere when they hang, and a pinhole can close.", BUBBLES,
    ),
    Guided("soap raised", "Soap test at raised height", "The sleeve unrolls and shows what the fold hid.", BUBBLES),
    Guided(
        "soap droop", "Soap test at droop, wheels hanging",
        "Last, since hanging wheels can close what leaked.", BUBBLES,
        caution="Lifted: levelling off, stands under it, nobody's hand between wheel and arch.",
    ),
    Guided(
        "isolation", "Corner, line, block and supply told apart",
        "A leak in the block looks like one in a spring. Change over, plug off, and see what follows.",
        (
            Part("sign", "What was seen", "choice", tuple(sign.finding for sign in SIGNS)),
            CORNER,
            Part("changed", "What was plugged off or changed over"),
            _quantity("drop", "It fell by", "length", "mm", "leak-down", "relative_drop_mm"),
            _quantity("time", "in", "time", "h"),
        ),
        caution="Vent before a line is opened, eye protection on: a line under pressure whips.",
    ),
    Guided(
        "supply", "Supply: run time, pressure, relay, intake and dryer",
        "A compressor fails because something leaked for long: look at the leak before the compressor.",
        (
            _quantity("run_time", "Run time until it stops", "time", "s"),
            _quantity("pressure", "Pressure reached", "pressure", "bar"),
            _quantity("current", "Current", "current", "A"),
            _quantity("voltage", "Voltage at it, running", "voltage", "V"),
            _quantity("duty", "Share of running time", "ratio", "%", "duty", "percent"),
            _quantity("leak", "Leak rate", "leak rate", "mbar*L/s", "pressure-decay", "leak_rate_pa_m3_s"),
            _choice("relay", "Relay", "in order", "sticks", "burnt"),
            _choice("intake", "Intake", "clear", "blocked"),
            _choice("dryer", "Dryer", "dry", "wet"),
            _choice("exhaust", "Exhaust", "shuts", "leaks"),
        ),
        caution="Compressor and lines get hot: let them cool before a hand is laid on them.",
    ),
    Guided(
        "electrical", "Height sensors: values, arms, connectors",
        "Vehicle still. Left and right may move in opposite directions: compare with the maker's figures.",
        (
            _choice("corner", "Corner", *CORNERS),
            _quantity("supplied", "Supply voltage", "voltage", "V"),
            _quantity("level", "Value at level", "voltage", "V"),
            _quantity("droop", "Value at full droop", "voltage", "V"),
            _quantity("bump", "Value at full bump", "voltage", "V"),
            _choice("arm", "Arm", "connected", "off", "bent"),
            _choice("connector", "Connector", "dry", "wet", "corroded"),
        ),
        apart="corner",
    ),
    Guided(
        "mechanical", "Mechanical look: dampers, mounts, arms, dirt in the fold",
        "A sleeve often failed because of something beside it: study it before a new one goes in.",
        (
            _choice("dampers", "Dampers", "dry", "oily"),
            _choice("mounts", "Mounts", "in order", "worn"),
            _choice("arms", "Arms and bushes", "in order", "worn", "bent"),
            _choice("sleeves", "Sleeves", "whole", "chafed", "cracked"),
            _choice("fold", "Fold", "clean", "dirt in it"),
            _choice("boots", "Dust boots", "whole", "torn"),
            _choice("clips", "Clips and line holders", "all there", "missing"),
            CORNER,
        ),
        caution="Levelling off before a hand goes between wheel and arch.",
    ),
)  # fmt: skip
BY_KEY: Mapping[str, Guided] = MappingProxyType({one.key: one for one in ORDER})


def belongs(test: Guided, name: str) -> bool:
    """Whether a test on record is this one of the order, or one of its choices apart."""
    return name == test.title or (bool(test.apart) and name.startswith(f"{test.title}, "))


def name_of(test: Guided, told: Mapping[str, str]) -> str:
    """The name under which an answer is kept."""
    which = told.get(test.apart, "") if test.apart else ""
    return f"{test.title}, {which}" if which else test.title
