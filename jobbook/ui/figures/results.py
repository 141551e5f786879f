"""Results as the sheet shows them: each with its name, written out, and its unit. No Qt in here."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType
from typing import Any

from jobbook.core.figures.stages import parse_stages
from jobbook.core.quantities.quantity import NARROW

SHOWN_DIGITS = 5
DIGITS_BY_CORNER = 3  # four figures stand in one line there

# key: what it is called, and the unit in which the figure gives it
RESULTS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "bytes": ("As bytes", ""),
        "caster_degrees": ("Caster", "°"),
        "check_digit": ("Check digit", ""),
        "check_passes": ("Check digit fits", ""),
        "chi_square": ("Chi-square", ""),
        "choked": ("Choked", ""),
        "code": ("Code", ""),
        "combined": ("Combined uncertainty", "{unit}"),
        "days_left": ("Days left", ""),
        "decimal": ("In degrees", "°"),
        "deviation": ("Standard deviation", "{unit}"),
        "deviation_percent": ("Deviation", "%"),
        "dew_point_c": ("Dew point in free air", "°C"),
        "diameter_mm": ("Diameter of the hole", "mm"),
        "distance_left": ("Distance left", "{distance_unit}"),
        "drop_mm": ("Drop", "mm"),
        "each_degrees": ("Each wheel", "°"),
        "edition": ("Edition", ""),
        "expanded": ("Expanded uncertainty, k = 2", "{unit}"),
        "fifth_off_min_nm": ("Fifth removal, at least", "N·m"),
        "findings": ("What is to be said", ""),
        "first_off_min_nm": ("First removal, at least", "N·m"),
        "first_on_max_nm": ("First run on, at most", "N·m"),
        "flow_l_min_anr": ("Flow, reference air", "L/min"),
        "force_n": ("Force", "N"),
        "freedom": ("Degrees of freedom", ""),
        "frequency_hz": ("Natural frequency", "Hz"),
        "height_mm": ("Change of height", "mm"),
        "high": ("95 % limits, upper", ""),
        "high_nm": ("Usual up to", "N·m"),
        "hint": ("In another unit", ""),
        "inside": ("Inside the limits", ""),
        "kind": ("Kind", ""),
        "leak_rate_pa_m3_s": ("Leak rate", "Pa·m³/s"),
        "limit_percent": ("Allowed", "%"),
        "low": ("95 % limits, lower", ""),
        "low_nm": ("Usual from", "N·m"),
        "mean": ("Mean", "{unit}"),
        "median": ("Half have failed at", ""),
        "model_years": ("Model years", ""),
        "p": ("p", ""),
        "per_hour_mm": ("Drop each hour", "mm/h"),
        "percent": ("Share of running time", "%"),
        "pitch_diameter_mm": ("Pitch diameter", "mm"),
        "preload_kn": ("Preload", "kN"),
        "pressure_bar_gauge": ("Pressure, gauge", "bar"),
        "pressure_dew_point_c": ("Dew point under pressure", "°C"),
        "pressure_pa": ("Pressure", "Pa"),
        "proof_load_n": ("Proof load", "N"),
        "rate_n_mm": ("Rate", "N/mm"),
        "reason": ("Because", ""),
        "relative_drop_mm": ("Drop beyond the average of the others", "mm"),
        "root_diameter_mm": ("Root diameter", "mm"),
        "seconds": ("Time", "s"),
        "setting_nm": ("Set", "N·m"),
        "single_mm": ("Each wheel", "mm"),
        "stages": ("Stages", ""),
        "stress_area_mm2": ("Stress area", "mm²"),
        "survival": ("Share that survives", ""),
        "tensile_load_n": ("Breaking load", "N"),
        "text": ("Written", ""),
        "thrust_degrees": ("Thrust angle", "°"),
        "torque_nm": ("Torque", "N·m"),
        "total_minutes": ("Whole axle", "′"),
        "uncertainty": ("Uncertainty of the mean", "{unit}"),
        "usable": ("May be used", ""),
        "value": ("Result", "{to}"),
        "verdict": ("Verdict", ""),
        "well_formed": ("Well formed", ""),
        "within": ("Within the limit", ""),
        "without_temperature_pa_m3_s": ("The same without the temperatures", "Pa·m³/s"),
        "yield_load_n": ("Yield load", "N"),
    }
)
TOLD_ELSEWHERE = ("unit", "distance_unit")  # the unit of others


@dataclass(frozen=True)
class Result:
    """One line of the result. `short` where it is a figure or a word, which stands large."""

    name: str
    value: str
    unit: str = ""
    short: bool = True

    @property
    def line(self) -> str:
        glue = "" if self.unit in ("°", "′", "") else " "
        return f"{self.name}: {self.value}{glue}{self.unit}"


def results(found: Mapping[str, Any], given: Mapping[str, str]) -> tuple[Result, ...]:
    """The results in their order. Units that depend on what was given are taken from there."""
    units = {"to": given.get("to", ""), **{key: str(found.get(key) or "") for key in TOLD_ELSEWHERE}}
    made = []
    for key, value in found.items():
        if key in TOLD_ELSEWHERE or value in ("", [], {}):
            continue
        name, unit = RESULTS[key]
        shown = "\n".join(parse_stages(one)[0].text() for one in value) if key == "stages" else value
        made.append(Result(name, written(shown), unit.format(**units), not isinstance(value, (dict, list))))
    return tuple(made)


def typed_result(key: str, found: Mapping[str, Any]) -> str:
    """One result as a person would type it into a field, with its unit; empty where it is not there, or no figure. Of
    results by corner it is the largest."""
    value = found.get(key)
    value = max(value.values(), default=None) if isinstance(value, Mapping) else value
    if isinstance(value, bool) or not isinstance(value, float | int):
        return ""
    figure = number(value)
    whole, _, decimals = figure.partition(".")
    # Three decimals alone are asked about, since half of all readers take 1.234 for a thousand; a nought settles it.
    figure = f"{figure}0" if len(decimals) == 3 and len(whole.lstrip("−")) <= 3 else figure
    unit = RESULTS[key][1].format(**{name: str(found.get(name) or "") for name in (*TOLD_ELSEWHERE, "to")})
    return f"{figure}{'' if unit in ('', '°', '′') else ' '}{unit}"


def written(value: Any) -> str:
    """A result for a person: figures to five digits, corners by name, sentences below one another."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float | int):
        return number(value)
    if isinstance(value, dict):
        return "   ".join(f"{key} {number(one, DIGITS_BY_CORNER)}" for key, one in value.items())
    if isinstance(value, list):
        between = "\n" if any(isinstance(one, str) and " " in one for one in value) else ", "
        return between.join(str(one) if isinstance(one, int) else written(one) for one in value)
    return str(value)


def number(value: float, digits: int = SHOWN_DIGITS) -> str:
    """A figure to so many digits, without a power of ten, with a true minus."""
    exact = Decimal(repr(value)) if isinstance(value, float) else Decimal(value)
    if not exact:
        return "0"
    places = max(0, digits - 1 - exact.adjusted())
    text = f"{round(exact, places):,f}".replace(",", NARROW)
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return text.replace("-", "−")
