"""Pressure test and compressor on the Diagnosis tab: figures are typed, what they amount to is kept as a test."""

from jobbook.services.measured.compressor import keep_compressor_test
from jobbook.services.measured.pressure import UNITS, keep_pressure_test
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, options_of
from jobbook.ui.jobs.tabs.records import Answers, Deed, Signing

WHERE = ("whole system", "FL", "FR", "RL", "RR", "reservoir", "line")
EXPLAIN_PRESSURE = "Shut off, filled and settled: filling warms the air. Gauge pressures; hoses are part of the volume."
EXPLAIN_COMPRESSOR = "Give what was measured: a filling, a whole cycle, the air that it takes in. Gauge pressures."
SAID = "A pressure test and the compressor are reckoned with: a leak rate, a hole, a filling time, a dew point."


def _figure(name: str, label: str, required: bool = True) -> Ask:
    return Ask(name, label, "quantity", unit=UNITS[name], required=required)


PRESSURE_ASKS = (
    Ask("where", "What was shut off", "list", options_of(WHERE)),
    _figure("volume", "Volume, with its hoses"),
    _figure("start", "Pressure at the start"),
    _figure("end", "Pressure at the end"),
    _figure("start_temperature", "Temperature at the start"),
    _figure("end_temperature", "Temperature at the end"),
    _figure("duration", "After"),
    _figure("step", "Division of the gauge", False),
)
COMPRESSOR_ASKS = (
    _figure("volume", "Fills a volume of", False),
    _figure("free_air", "Free air, as its maker says", False),
    _figure("start", "from", False),
    _figure("end", "to", False),
    _figure("measured", "Time measured", False),
    _figure("run", "In a cycle it ran", False),
    _figure("rest", "and rested", False),
    _figure("temperature", "Takes in air of", False),
    _figure("humidity", "Humidity of that air", False),
    _figure("pressure", "Pressure of the system", False),
)


def deeds() -> tuple[Deed, ...]:
    pressure = Deed("pressure", "Pressure test…", PRESSURE_ASKS, keep="Reckon and keep", explain=EXPLAIN_PRESSURE)
    compressor = Deed("compressor", "Compressor…", COMPRESSOR_ASKS, keep="Reckon and keep", explain=EXPLAIN_COMPRESSOR)
    return pressure, compressor


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    kept = keep_pressure_test if deed.key == "pressure" else keep_compressor_test
    return kept(book, by.who, job, given)
