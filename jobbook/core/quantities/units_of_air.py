"""Units that only reckoning with air needs: name, kind, name in pint, label and spellings for the closed list."""

Row = tuple[str, str, str, str, tuple[str, ...]]


def _product(first: str, second: str) -> tuple[str, ...]:
    return tuple(f"{first}{joiner}{second}" for joiner in ("·", " ", ""))


AIR: tuple[Row, ...] = (
    ("inHg", "pressure", "inch_Hg", "inHg", ("inHg", "in Hg")),
    ("m2", "area", "meter**2", "m²", ("m²",)),
    ("cm2", "area", "centimeter**2", "cm²", ("cm²",)),
    ("mm2", "area", "millimeter**2", "mm²", ("mm²",)),
    ("in2", "area", "inch**2", "in²", ("in²",)),
    ("L", "volume", "liter", "L", ("L", "l", "litre", "litres", "liter", "liters")),
    ("mL", "volume", "milliliter", "mL", ("mL", "ml", "millilitre", "millilitres")),
    ("m3", "volume", "meter**3", "m³", ("m³",)),
    ("dm3", "volume", "decimeter**3", "dm³", ("dm³",)),
    ("cm3", "volume", "centimeter**3", "cm³", ("cm³",)),
    ("in3", "volume", "inch**3", "in³", ("in³",)),
    ("ft3", "volume", "foot**3", "ft³", ("ft³",)),
    ("USgal", "volume", "US_liquid_gallon", "US gal", ("US gal", "USgal")),
    ("UKgal", "volume", "imperial_gallon", "imp gal", ("imp gal", "UKgal")),
    ("L/min", "flow", "liter/minute", "L/min", ("L/min", "l/min")),
    ("L/s", "flow", "liter/second", "L/s", ("L/s", "l/s", "dm³/s")),
    ("m3/h", "flow", "meter**3/hour", "m³/h", ("m³/h",)),
    ("m3/min", "flow", "meter**3/minute", "m³/min", ("m³/min",)),
    ("m3/s", "flow", "meter**3/second", "m³/s", ("m³/s",)),
    ("ft3/min", "flow", "foot**3/minute", "ft³/min", ("ft³/min", "cfm", "CFM")),
    (
        *("dm3/s/bar", "conductance", "decimeter**3/second/bar", "dm³/(s·bar)"),
        ("dm³/(s·bar)", "dm³/s/bar", "L/(s·bar)", "L/s/bar", "l/s/bar"),
    ),
    ("m3/s/Pa", "conductance", "meter**3/second/pascal", "m³/(s·Pa)", ("m³/(s·Pa)", "m³/s/Pa")),
    ("Pa*m3/s", "leak rate", "pascal*meter**3/second", "Pa·m³/s", _product("Pa", "m³/s")),
    (
        "mbar*L/s",
        "leak rate",
        "millibar*liter/second",
        "mbar·L/s",
        (*_product("mbar", "L/s"), *_product("mbar", "l/s")),
    ),
    ("atm*cm3/s", "leak rate", "atmosphere*centimeter**3/second", "atm·cm³/s", _product("atm", "cm³/s")),
    (
        *("atm*cm3/min", "leak rate", "atmosphere*centimeter**3/minute", "atm·cm³/min"),
        (*_product("atm", "cm³/min"), "sccm"),
    ),
)
