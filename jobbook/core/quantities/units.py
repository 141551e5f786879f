"""The closed list of units: the kind of each, how pint calls it, how people spell it. Nothing else is a unit here."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from jobbook.core.quantities.units_of_air import AIR


@dataclass(frozen=True)
class Unit:
    """One unit. `name` is what is kept, `label` what people read; `glued` when no space stands before the label."""

    name: str
    kind: str
    pint: str
    label: str
    spellings: tuple[str, ...]
    glued: bool = False


def _joined(firsts: str, seconds: str, joiners: str = "·- .") -> tuple[str, ...]:
    """Return every spelling of a product, joined by dot, hyphen, space, point or nothing, in the order given."""
    return tuple(f"{a}{j}{b}" for a in firsts.split() for b in seconds.split() for j in (*joiners, ""))


_FEET, _INCHES, _POUNDS = "ft foot feet", "in inch", "lb lbs lbf pound pounds"
_FOOT_POUND = _joined(_FEET, _POUNDS) + _joined(_POUNDS, _FEET)
_INCH_POUND = _joined(_INCHES, _POUNDS) + _joined(_POUNDS, _INCHES)

UNITS: tuple[Unit, ...] = (
    Unit("N*m", "torque", "newton*meter", "N·m", (*_joined("N", "m"), *_joined("newton", "metre metres meter meters"))),
    Unit("lbf*ft", "torque", "force_pound*foot", "lbf·ft", _FOOT_POUND),
    Unit("lbf*in", "torque", "force_pound*inch", "lbf·in", _INCH_POUND),
    Unit("kgf*m", "torque", "kilogram_force*meter", "kgf·m", (*_joined("kgf", "m"), *_joined("kp", "m"))),
    Unit("kgf*cm", "torque", "kilogram_force*centimeter", "kgf·cm", (*_joined("kgf", "cm"), *_joined("kp", "cm"))),
    Unit("mm", "length", "millimeter", "mm", ("mm", "millimetre", "millimetres", "millimeter", "millimeters")),
    Unit("cm", "length", "centimeter", "cm", ("cm", "centimetre", "centimetres", "centimeter", "centimeters")),
    Unit("m", "length", "meter", "m", ("metre", "metres", "meter", "meters")),
    Unit("um", "length", "micrometer", "μm", ("μm", "um", "micron", "microns")),
    Unit("in", "length", "inch", "in", ("in", "in.", "inch", "inches", '"', "″", "''")),
    Unit("ft", "length", "foot", "ft", ("ft", "ft.", "foot", "feet", "'", "′")),
    Unit("bar", "pressure", "bar", "bar", ("bar", "Bar", "BAR", "bars")),
    Unit("mbar", "pressure", "millibar", "mbar", ("mbar", "millibar")),
    Unit("Pa", "pressure", "pascal", "Pa", ("Pa", "pascal", "pascals")),
    Unit("hPa", "pressure", "hectopascal", "hPa", ("hPa",)),
    Unit("kPa", "pressure", "kilopascal", "kPa", ("kPa", "kilopascal", "kilopascals")),
    Unit("MPa", "pressure", "megapascal", "MPa", ("MPa", "megapascal", "megapascals")),
    Unit("psi", "pressure", "psi", "psi", ("psi", "PSI", "lbf/in2", "lbf/in²", "lb/in2", "lb/in²")),
    Unit("kgf/cm2", "pressure", "kilogram_force/centimeter**2", "kgf/cm²", ("kgf/cm2", "kgf/cm²", "kg/cm2", "kg/cm²")),
    Unit("atm", "pressure", "atmosphere", "atm", ("atm",)),
    Unit("deg", "angle", "degree", "°", ("°", "deg", "deg.", "degree", "degrees"), glued=True),
    Unit("arcmin", "angle", "arcminute", "′", ("′", "'", "arcmin", "min", "minute", "minutes"), glued=True),
    Unit("arcsec", "angle", "arcsecond", "″", ("″", '"', "''", "arcsec"), glued=True),
    Unit("s", "time", "second", "s", ("s", "sec", "secs", "second", "seconds")),
    Unit("min", "time", "minute", "min", ("min", "mins", "minute", "minutes")),
    Unit("h", "time", "hour", "h", ("h", "hr", "hrs", "hour", "hours")),
    Unit("d", "time", "day", "d", ("d", "day", "days")),
    Unit("degC", "temperature", "degree_Celsius", "°C", ("°C", "° C", "℃", "degC", "deg C", "C", "Celsius")),
    Unit("degF", "temperature", "degree_Fahrenheit", "°F", ("°F", "° F", "℉", "degF", "deg F", "F", "Fahrenheit")),
    Unit("K", "temperature", "kelvin", "K", ("K", "kelvin")),
    Unit("pieces", "count", "", "", ("pc", "pcs", "piece", "pieces", "off", "x", "×")),
    Unit("kg", "mass", "kilogram", "kg", ("kg", "kilogram", "kilograms", "kilo", "kilos")),
    Unit("g", "mass", "gram", "g", ("g", "gram", "grams")),
    Unit("t", "mass", "metric_ton", "t", ("t", "tonne", "tonnes")),
    Unit("lb", "mass", "pound", "lb", ("lb", "lbs", "lb.", "lbs.", "pound", "pounds")),
    Unit("oz", "mass", "ounce", "oz", ("oz", "ounce", "ounces")),
    Unit("km", "distance", "kilometer", "km", ("km", "kilometre", "kilometres", "kilometer", "kilometers")),
    Unit("mi", "distance", "mile", "mi", ("mi", "mile", "miles")),
    Unit("V", "voltage", "volt", "V", ("V", "volt", "volts")),
    Unit("mV", "voltage", "millivolt", "mV", ("mV", "millivolt", "millivolts")),
    Unit("A", "current", "ampere", "A", ("A", "amp", "amps", "ampere", "amperes")),
    Unit("mA", "current", "milliampere", "mA", ("mA", "milliamp", "milliamps")),
    Unit("%", "ratio", "percent", "%", ("%", "per cent", "percent", "pct")),
    Unit("1", "ratio", "dimensionless", "", ()),
    Unit("N", "force", "newton", "N", ("N", "newton", "newtons")),
    Unit("kN", "force", "kilonewton", "kN", ("kN", "kilonewton", "kilonewtons")),
    Unit("daN", "force", "decanewton", "daN", ("daN",)),
    Unit("lbf", "force", "force_pound", "lbf", ("lbf",)),
    Unit("kgf", "force", "kilogram_force", "kgf", ("kgf", "kp")),
    *(Unit(*row) for row in AIR),
)

KINDS: tuple[str, ...] = tuple(dict.fromkeys(unit.kind for unit in UNITS))

NEVER_NEGATIVE = frozenset({"torque", "count", "time", "mass", "distance", "area", "volume", "flow", "conductance"})

UNIT: Mapping[str, Unit] = MappingProxyType({unit.name: unit for unit in UNITS})


def _same(spellings: Iterable[str], *names: str) -> dict[str, tuple[str, ...]]:
    return dict.fromkeys(spellings, names)


# Spellings that two people read in two ways, or that stand for what was meant only if somebody says so.
ASKED: Mapping[str, Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "torque": {
            **_same(("N/m", "Nm/m"), "N*m"),
            **_same(_joined("kg kilo", "m"), "kgf*m"),
            **_same(_joined("kg", "cm"), "kgf*cm"),
            **_same((f"{a}/{b}" for a, b in (("lb", "ft"), ("lbs", "ft"), ("lbf", "ft"), ("ft", "lb"))), "lbf*ft"),
            **_same(("lb/in", "lbs/in", "lbf/in", "in/lb"), "lbf*in"),
            **_same(("lb", "lbs", "pound", "pounds"), "lbf*ft", "lbf*in"),
        },
        "length": _same(("m",), "m", "mm"),
        "distance": {**_same(("m", "M"), "mi"), **_same(("k", "K"), "km")},
        "time": _same(("m", "'", "′"), "min"),
        "volume": _same(("gal", "gallon", "gallons"), "USgal", "UKgal"),
        "temperature": _same(("°", "deg", "degree", "degrees"), "degC", "degF"),
        "pressure": {
            **_same(("lb", "lbs", "pounds"), "psi"),
            **_same(("kg", "kilo", "kilos"), "kgf/cm2"),
            **_same(("barg", "bar(g)", "bar g", "barü"), "bar"),
            **_same(("psig", "psi(g)", "psi g"), "psi"),
        },
    }
)

ABSOLUTE = frozenset({"bara", "bar(a)", "bar a", "psia", "psi(a)", "psi a", "kPa(a)", "kPaa"})


def _by_kind() -> dict[str, dict[str, Unit]]:
    table: dict[str, dict[str, Unit]] = {kind: {} for kind in KINDS}
    for unit in UNITS:
        table[unit.kind] |= dict.fromkeys((*unit.spellings, unit.name.replace("*", "·")), unit)
    # A bare m is asked about where a height is meant, so it is the one name that is no spelling of its unit.
    del table["length"]["m"], table["ratio"]["1"]
    return table


SPELLED: Mapping[str, Mapping[str, Unit]] = MappingProxyType(_by_kind())


def kinds_of(spelling: str) -> tuple[str, ...]:
    """Return the kinds that have a unit spelled so."""
    named = UNIT[spelling].kind if spelling in UNIT else ""
    return tuple(kind for kind in KINDS if spelling in SPELLED[kind] or kind == named)


def case_aside(spelling: str, kind: str) -> tuple[str, ...]:
    """Return the names of the units of a kind that are spelled so when capitals are overlooked."""
    folded = spelling.casefold()
    return tuple(dict.fromkeys(unit.name for known, unit in SPELLED[kind].items() if known.casefold() == folded))
