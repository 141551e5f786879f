"""How inputs and results of the figures are called in the window, and one way to write each input. No Qt in here."""

from collections.abc import Mapping
from types import MappingProxyType

Labels = Mapping[str, str]
LONGEST_SHOWN = 18  # letters of an example that stand in a label

# What a person types for each input: they stand in its label, so that the unit is named where it is typed.
EXAMPLES: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "convert": {"value": "80 lbf·ft", "to": "N·m"},
        "thread": {"thread": "M12x1.5"},
        "bolt": {"thread": "M12x1.5", "grade": "10.9"},
        "assembly": {"thread": "M12x1.5", "grade": "10.9", "friction": "0.12", "head_friction": "0.10", "use": "90 %"},
        "plausible": {"torque": "110 N·m", "thread": "M12x1.5", "grade": "10.9"},
        "prevailing": {"thread": "M12x1.5", "nut_class": "8"},
        "adapter": {"torque": "110 N·m", "lever": "400 mm", "extension": "50 mm", "angle": "0°"},
        "drag": {"torque": "110 N·m", "drag": "8 N·m"},
        "tool-deviation": {"set": "100 N·m", "reference": "97 N·m", "tool_max": "200 N·m", "tool": "II A"},
        "tool-range": {"torque": "110 N·m", "tool_min": "40 N·m", "tool_max": "200 N·m"},
        "stages": {"stages": "50 N·m, then +90°", "text": "50 N·m +90°", "tolerance": "10 %"},
        "vin": {"vin": "A09VH2AT4KB204117"},
        "toe": {"single_toe": "0°10′", "total_toe": "2.4 mm", "diameter": "16 in"},
        "degrees": {"value": "−0°45′"},
        "thrust": {"left": "0°12′", "right": "0°06′"},
        "caster": {"camber_out": "2°", "camber_in": "−1°30′", "steer": "20°"},
        "leak-down": {
            "before": "402 mm; 404 mm; 398 mm; 399 mm",
            "after": "366 mm; 399 mm; 394 mm; 395 mm",
            "hours": "13.5 h",
            "start_temperature": "18 °C",
            "end_temperature": "11 °C",
        },
        "fault-code": {"bytes": "5A2B", "code": "C1A2B"},
        "pressure-decay": {
            "volume": "5 L",
            "start": "10 bar",
            "end": "9.9 bar",
            "start_temperature": "20 °C",
            "end_temperature": "17 °C",
            "duration": "10 min",
        },
        "cooling": {"pressure": "8 bar", "from": "40 °C", "to": "20 °C"},
        "sinking": {"volume": "2 L", "area": "100 cm2", "from": "20 °C", "to": "0 °C"},
        "height-loss": {"pressure": "6 bar", "area": "100 cm2", "height": "10 mm", "duration": "12 h"},
        "flow": {
            "conductance": "1 dm3/s/bar",
            "critical_ratio": "0.3",
            "upstream": "7 bar",
            "downstream": "6 bar",
            "temperature": "20 °C",
        },
        "hole": {
            "diameter": "0.1 mm",
            "leak_rate": "1 Pa·m3/s",
            "upstream": "8 bar",
            "temperature": "20 °C",
            "discharge": "0.7",
        },
        "air-spring": {
            "pressure": "6 bar",
            "area": "100 cm2",
            "volume": "2 L",
            "exponent": "1.3",
            "area_gradient": "2 cm",
        },
        "fill-time": {"volume": "5 L", "start": "5 bar", "end": "10 bar", "free_air": "15 L/min"},
        "duty": {"run": "3 min", "rest": "12 min"},
        "dew-point": {"temperature": "20 °C", "humidity": "50 %", "pressure": "8 bar"},
        "altitude": {"height": "500 m"},
        "readings": {"values": "402 mm; 404 mm; 403 mm", "resolution": "1 mm", "gauge_expanded": "0.5 mm"},
        "decide": {"value": "403.1 mm", "lower": "395 mm", "upper": "405 mm", "expanded": "1.8 mm"},
        "part-life": {"durations": "6 7 10 13", "failed": "1 0 1 0", "at": "8"},
        "part-life-compare": {"first": "6 7+ 10 13+", "second": "1 2 3+ 9"},
        "wear-link": {
            "fit_date": "2024-02-29",
            "failure_date": "2025-02-01",
            "fit_odometer": "120000 km",
            "failure_odometer": "139000 km",
            "months": "12",
            "distance": "20000 km",
        },
    }
)

INPUTS: Labels = MappingProxyType(
    {
        "after": "After, FL FR RL RR",
        "before": "Before, FL FR RL RR",
        "area": "Area that the air presses on",
        "area_gradient": "Area gained for each length of travel",
        "camber_in": "Camber with the wheel turned in",
        "camber_out": "Camber with the wheel turned out",
        "critical_ratio": "Critical pressure ratio",
        "discharge": "Discharge coefficient",
        "downstream": "Pressure behind it, absolute",
        "upstream": "Pressure before it, absolute",
        "drag": "Drag of the lock alone",
        "end": "Pressure at the end, gauge",
        "start": "Pressure at the start, gauge",
        "end_temperature": "Temperature at the end",
        "start_temperature": "Temperature at the start",
        "expanded": "Expanded uncertainty, k = 2",
        "gauge_expanded": "Expanded uncertainty of the instrument, k = 2",
        "exponent": "Polytropic exponent",
        "extension": "Extension E, drive centre to fastener",
        "lever": "Lever L, drive centre to middle of the grip",
        "angle": "Angle between adapter and handle",
        "failed": "For each: 1 failed, 0 still alive",
        "failure_date": "Failed on",
        "failure_odometer": "Odometer at the failure",
        "fit_date": "Fitted on",
        "fit_odometer": "Odometer at the fit",
        "free_air": "Free air that the compressor gives",
        "friction": "Friction in the thread",
        "head_friction": "Friction under the head",
        "from": "Temperature at first",
        "humidity": "Relative humidity",
        "leak_rate": "Leak rate",
        "left": "Toe of the left wheel, toe-in positive",
        "right": "Toe of the right wheel, toe-in positive",
        "lower": "Lower limit",
        "upper": "Upper limit",
        "months": "Limit in months",
        "distance": "Limit in distance",
        "nut_class": "Property class of the nut",
        "pressure": "Pressure, gauge",
        "reference": "Reading of the calibrator",
        "set": "Set on the tool, or shown by it",
        "single_toe": "Toe of one wheel",
        "total_toe": "Toe of the axle",
        "diameter": "Diameter",
        "steer": "Steering angle of the sweep, each way",
        "to": "To the unit",
        "tool": "Type and class of the tool",
        "tool_max": "Highest of the tool's scale",
        "tool_min": "Lowest of the tool's scale",
        "torque": "Torque wanted",
        "use": "Share of the yield point",
        "value": "Figure with its unit",
        "values": "Readings, parted by semicolons",
        "vin": "Vehicle identification number",
        "durations": "Times or distances, all in one unit",
        "first": "Parts of the one; + behind those still alive",
        "second": "Parts of the other, written alike",
        "stages": "Stages as the document has them",
        "text": "The same, written without commas",
        "hours": "Time between the two",
        "at": "Up to",
        "run": "Running time",
        "rest": "Resting time",
        "height": "Height",
    }
)
# Where one key means another thing in one figure.
OWN_INPUTS: Mapping[tuple[str, str], str] = MappingProxyType(
    {
        ("cooling", "to"): "Temperature afterwards",
        ("sinking", "to"): "Temperature afterwards",
        ("decide", "value"): "Reading",
        ("degrees", "value"): "Angle, decimal or with minutes",
        ("height-loss", "height"): "Height lost",
        ("altitude", "height"): "Height above the sea",
        ("toe", "diameter"): "Diameter of rim or tyre, where the mm are taken",
        ("hole", "diameter"): "Diameter of the hole",
    }
)


def input_words(figure: str, key: str) -> str:
    """What an input is called, with one way to write it."""
    words = OWN_INPUTS.get((figure, key)) or INPUTS.get(key) or key.replace("_", " ").capitalize()
    example = EXAMPLES.get(figure, {}).get(key, "")
    shown = example if len(example) <= LONGEST_SHOWN else f"{example[:LONGEST_SHOWN]}…"
    return f"{words}, like {shown}" if example else words
