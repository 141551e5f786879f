"""Bolts of the ISO property classes: what they carry, and what tightening to nine tenths of yield asks for."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from jobbook.core.figures.refusals import unfit
from jobbook.core.figures.threads import Thread, thread_geometry

EDITION = "VDI 2230, 2001 and later"


@dataclass(frozen=True)
class Strength:
    """Least tensile strength, least yield point and proof stress of a property class, in MPa."""

    tensile: int
    yields: int
    proof: int


# ISO 898-1. Class 8.8 has two rows: up to and including 16 mm, and above it.
GRADES: Mapping[str, tuple[Strength, Strength]] = MappingProxyType(
    {
        "8.8": (Strength(800, 640, 580), Strength(830, 660, 600)),
        "10.9": (Strength(1040, 940, 830),) * 2,
        "12.9": (Strength(1220, 1100, 970),) * 2,
    }
)

# Bearing face of the hexagon head (ISO 4014) and hole (ISO 273, medium), in mm. From memory; with them the formula
# gives back the published tables of VDI 2230.
BEARING: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "6": (8.88, 6.6),
        "8": (11.63, 9.0),
        "10": (14.63, 11.0),
        "12": (16.63, 13.5),
        "14": (19.64, 15.5),
        "16": (22.49, 17.5),
        "18": (25.34, 20.0),
        "20": (28.19, 22.0),
    }
)


@dataclass(frozen=True)
class Loads:
    """What a bolt carries in tension: proof load, load at the yield point, breaking load."""

    proof_load_n: float
    yield_load_n: float
    tensile_load_n: float


@dataclass(frozen=True)
class Assembly:
    """Preload and torque of one tightening, and the edition of the rule that they follow."""

    preload_kn: float
    torque_nm: float
    edition: str = EDITION


def strength(thread: Thread, grade: str) -> Strength:
    """Return the strength of a grade at that diameter; 8.8 changes above 16 mm, not at it."""
    return GRADES[grade][thread.diameter > 16]


def bolt_loads(thread: Thread, grade: str) -> Loads:
    """Return proof load, yield load and breaking load [N] of a bolt: printed stress area times proof stress, Rp, Rm.

    Range: classes 8.8, 10.9 and 12.9 in ISO metric threads up to M39. Errors: none beyond those of the thread.
    Source: ISO 898-1, whose tables print the products to three figures.
    """
    area, of = printed_area(thread), strength(thread, grade)
    return Loads(area * of.proof, area * of.yields, area * of.tensile)


def printed_area(thread: Thread) -> float:
    """Return the stress area [mm²] as ISO 898-1 prints it, to three figures."""
    return float(f"{thread_geometry(thread).stress_area_mm2:.3g}")


def assembly(
    thread: Thread,
    grade: str,
    friction: Fraction,
    head_friction: Fraction | None = None,
    use: Fraction = Fraction(9, 10),
) -> Assembly:
    """Return preload [kN] and torque [N*m] that load a bolt to a share of its yield point.

    friction in the thread [1], head_friction under the head [1, as in the thread when left out], use of the yield
    point [1]. The shank counts as yielding across its whole section under tension and torsion together (factor 3/2);
    the older edition with elastic torsion (factor 2) gives 4 to 11 % less and is not mixed in. Range: hexagon head on
    a medium hole, M6 to M20, no prevailing torque, which is added. Errors: a size without bearing data. Source: VDI
    2230, 2001 and later.
    """
    return tightened(thread, float(use) * strength(thread, grade).yields, float(friction), head_friction)


def tightened(thread: Thread, stress: float, friction: float, head_friction: Fraction | None = None) -> Assembly:
    """Return preload [kN] and torque [N*m] at which tension and torsion together reach a stress [MPa]."""
    of, pitch = thread_geometry(thread), float(thread.pitch)
    middle = (of.pitch_diameter_mm + of.root_diameter_mm) / 2
    incline = pitch / (math.pi * of.pitch_diameter_mm) + 2 / math.sqrt(3) * friction
    torsion = 3 / 2 * of.pitch_diameter_mm / middle * incline
    preload = of.stress_area_mm2 * stress / math.sqrt(1 + 3 * torsion**2)
    head = friction if head_friction is None else float(head_friction)
    lever = pitch / (2 * math.pi) + of.pitch_diameter_mm / math.sqrt(3) * friction + _bearing(thread) / 2 * head
    return Assembly(preload / 1000, preload * lever / 1000)


def _bearing(thread: Thread) -> float:
    """Return the middle diameter of the bearing face under the head [mm]."""
    size = f"{thread.diameter:f}"
    if size not in BEARING:
        raise unfit("thread", f"there is no bearing data of the head of M{size}", "sizes M6 to M20 have it")
    return sum(BEARING[size]) / 2
