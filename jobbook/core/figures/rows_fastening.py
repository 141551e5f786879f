"""The list of figures, fastening: units, threads, bolts, nuts, torque tools, stages."""

from collections.abc import Callable
from fractions import Fraction
from functools import wraps
from typing import Any

from jobbook.core.figures import given as read
from jobbook.core.figures.bolts import GRADES, assembly, bolt_loads
from jobbook.core.figures.conversion import converted
from jobbook.core.figures.figure import Figure, Input, amount, choice, number
from jobbook.core.figures.nuts import CLASSES, prevailing
from jobbook.core.figures.plausible import plausible_torque
from jobbook.core.figures.stages import parse_stages
from jobbook.core.figures.threads import Thread, read_thread, thread_geometry
from jobbook.core.figures.tools import read_tool_type, tool_deviation, with_drag
from jobbook.core.figures.torque import adapter_setting, tool_range
from jobbook.core.quantities import Quantity


def in_newton_metres(formula: Callable[..., Quantity]) -> Callable[..., Fraction]:
    """Return the formula with its torque given in N·m."""

    @wraps(formula)
    def in_newton_metres_given(**given: Any) -> Fraction:
        return formula(**given).in_unit("N*m")

    return in_newton_metres_given


def stages_as_kept(stages: str = "", text: str = "", tolerance: str = "") -> tuple[str, ...]:
    """Return the stages of a text, each as it is kept: 50 N*m, +90 deg.

    stages or text such as 50 N*m +90 deg +90 deg; tolerance for every stage it can be said of. Range: torques first,
    then angles, up to twelve. Errors: what cannot be read, a torque after an angle or below the one before. Source:
    common way of writing in repair documents.
    """
    return tuple(stage.exact for stage in parse_stages(stages or text, tolerance))


def thread_of(value: object) -> Thread:
    """Return the thread of a raw value."""
    return read_thread(read.text(value))


def tool_of(value: object) -> str:
    """Return type and class of a torque tool of a raw value."""
    return read_tool_type(read.text(value))


THREAD = Input("thread", thread_of, "thread such as M12x1.5")
GRADE = choice("grade", *GRADES)
TORQUE = amount("torque", "N*m", over=0)
TOOL_MAX = amount("tool_max", "N*m", over=0)

ROWS = (
    Figure(
        "convert",
        "A figure in another unit",
        (Input("value", read.text, "figure with its unit"), Input("to", read.text, "unit")),
        converted,
        ("value",),
        "NIST SP 811 B.8, SI brochure",
    ),
    Figure(
        "thread",
        "Geometry of an ISO metric thread",
        (THREAD,),
        thread_geometry,
        ("pitch_diameter_mm", "root_diameter_mm", "stress_area_mm2"),
        "ISO 724, ISO 898-1",
    ),
    Figure(
        "bolt",
        "What a bolt carries in tension",
        (THREAD, GRADE),
        bolt_loads,
        ("proof_load_n", "yield_load_n", "tensile_load_n"),
        "ISO 898-1",
    ),
    Figure(
        "assembly",
        "Preload and torque at a share of the yield point",
        (
            *(THREAD, GRADE, number("friction", over=0, most=1)),
            number("head_friction", over=0, most=1, optional=True),
            number("use", over=0, most=1, optional=True),
        ),
        assembly,
        ("preload_kn", "torque_nm", "edition"),
        "VDI 2230, 2001 and later",
    ),
    Figure(
        "plausible",
        "Whether a torque suits its bolt",
        (TORQUE, THREAD, GRADE),
        plausible_torque,
        ("low_nm", "high_nm", "verdict", "hint"),
        "VDI 2230, 2001 and later; the border of impossible is common practice",
    ),
    Figure(
        "prevailing",
        "Limits of the locking torque of a nut",
        (THREAD, choice("nut_class", *CLASSES)),
        prevailing,
        ("first_on_max_nm", "first_off_min_nm", "fifth_off_min_nm"),
        "ISO 2320: class 04 published; 5, 6, 8 and most of 10 from memory",
    ),
    Figure(
        "adapter",
        "What to set with an adapter on the wrench",
        (TORQUE, amount("lever", "mm", over=0), amount("extension", "mm"), amount("angle", "deg")),
        in_newton_metres(adapter_setting),
        ("setting_nm",),
        "US Army TM 9-254, TM 1-1500-204-23-9",
    ),
    Figure(
        "drag",
        "What to set where a nut turns hard",
        (TORQUE, amount("drag", "N*m", least=0)),
        in_newton_metres(with_drag),
        ("setting_nm",),
        "FAA AC 43.13-1B, section 7-43",
    ),
    Figure(
        "tool-deviation",
        "How far a torque tool is off, against its limit",
        (
            *(amount("set", "N*m", over=0, argument="set_to"), amount("reference", "N*m", over=0), TOOL_MAX),
            Input("tool", tool_of, "type and class such as II A"),
        ),
        tool_deviation,
        ("deviation_percent", "limit_percent", "within"),
        "ISO 6789: II A published, other classes from memory",
    ),
    Figure(
        "tool-range",
        "Whether a tool may be used for a torque",
        (TORQUE, amount("tool_min", "N*m", least=0), TOOL_MAX),
        tool_range,
        ("usable", "reason"),
        "Common practice: from a fifth of full scale",
    ),
    Figure(
        "stages",
        "Stages of a tightening, as they are kept",
        (
            Input("stages", read.text, "text such as 50 N*m +90 deg", optional=True),
            Input("text", read.text, "the same under another name", optional=True),
            Input("tolerance", read.text, "tolerance such as 10 %", optional=True),
        ),
        stages_as_kept,
        ("stages",),
        "Common way of writing",
        frozenset({"stages", "text"}),
    ),
)
