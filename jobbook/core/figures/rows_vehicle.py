"""The list of figures, the vehicle: VIN, wheel geometry, fault codes, a leak-down stand."""

from jobbook.core.errors import Refused
from jobbook.core.figures import given as read
from jobbook.core.figures.degrees import degrees
from jobbook.core.figures.faultcodes import fault_code
from jobbook.core.figures.figure import Figure, Input, amount
from jobbook.core.figures.geometry import caster, thrust, toe
from jobbook.core.figures.leakdown import leak_down
from jobbook.core.figures.vin import fault_of, read_vin, tidy_vin


def vin_of(value: object) -> str:
    """Return a VIN of a raw value. Refused in one sentence: what no VIN can be."""
    vin = tidy_vin(read.text(value))
    fault = fault_of(vin)
    if fault:
        raise Refused(fault)
    return vin


ROWS = (
    Figure(
        "vin",
        "What a VIN says of itself",
        (Input("vin", vin_of, "17 characters", argument="text"),),
        read_vin,
        ("check_digit", "check_passes", "well_formed", "model_years", "findings"),
        "ISO 3779, ISO 3780, 49 CFR part 565",
    ),
    Figure(
        "toe",
        "Toe as millimetres and as an angle",
        (
            amount("single_toe", "deg", "mm", optional=True),
            amount("total_toe", "deg", "mm", optional=True),
            amount("diameter", "mm", over=0),
        ),
        toe,
        ("single_mm", "total_minutes", "each_degrees"),
        "Geometry; terms of ISO 8855",
        frozenset({"single_toe", "total_toe"}),
    ),
    Figure(
        "degrees",
        "An angle as decimal degrees and with minutes",
        (Input("value", read.angle, "angle, decimal or with minutes", "deg"),),
        degrees,
        ("decimal", "text"),
        "SI brochure, table 8",
    ),
    Figure(
        "thrust",
        "Thrust angle of a rear axle, positive where it points to the right",
        (amount("left", "deg", least=-45, most=45), amount("right", "deg", least=-45, most=45)),
        thrust,
        ("thrust_degrees",),
        "Geometry; terms of ISO 8855",
    ),
    Figure(
        "caster",
        "Caster from a sweep of the steering",
        (
            amount("camber_out", "deg", least=-45, most=45),
            amount("camber_in", "deg", least=-45, most=45),
            amount("steer", "deg", over=0, most=45),
        ),
        caster,
        ("caster_degrees",),
        "Formula of the trade, checked by rotation in space",
    ),
    Figure(
        "leak-down",
        "What a stand shows, by corner",
        (
            Input("before", read.four_heights, "four heights, FL FR RL RR", "mm"),
            Input("after", read.four_heights, "four heights, FL FR RL RR", "mm"),
            amount("hours", "h", over=0, default="h"),
            amount("start_temperature", "degC", optional=True),
            amount("end_temperature", "degC", optional=True),
        ),
        leak_down,
        ("drop_mm", "relative_drop_mm", "per_hour_mm", "findings"),
        "Common practice; a setting of the shop",
    ),
    Figure(
        "fault-code",
        "A trouble code as text and as bytes",
        (
            Input("bytes", read.text, "two or three bytes such as 5A2B", optional=True),
            Input("code", read.text, "code such as C1A2B", optional=True),
        ),
        fault_code,
        ("code", "bytes", "kind", "findings"),
        "SAE J2012, ISO 15031-6",
        frozenset({"bytes", "code"}),
    ),
)
