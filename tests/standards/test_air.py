"""Leaks, flow, springs and moisture against independent libraries and printed examples."""

import math

import fluids
import pytest
from CoolProp.CoolProp import HAPropsSI, PropsSI
from scipy import constants

from jobbook.services.measured.reckoning import reckon

AIR = "Air"


def decay(**given: str) -> dict[str, float]:
    usual = {"start_temperature": "20 degC", "end_temperature": "20 degC"}
    return reckon("pressure-decay", usual | given)


def test_the_worked_example_of_40_cfr_1065_644_comes_out() -> None:
    # Published: 2 L, 25.300 to 50.600 kPa absolute at 293.15 K in 70 s is 2.9657e-4 mol/s. The rule counts a rise into
    # a vacuum as positive, the figure a loss; pV flow over R·T is the molar flow.
    result = decay(volume="2 L", start="-76.025 kPa", end="-50.725 kPa", duration="70 s")
    assert -result["leak_rate_pa_m3_s"] / (constants.R * 293.15) == pytest.approx(2.9657e-4, rel=1e-4)


@pytest.mark.parametrize(
    ("given", "leak", "uncompensated"),
    [
        (("5 L", "10 bar", "9.9 bar", "20 degC", "20 degC", "600 s"), 0.083333, 0.083333),
        (("5 L", "10 bar", "9.9 bar", "20 degC", "17 degC", "600 s"), -0.010698, 0.083333),
        (("5 L", "10 bar", "9.8 bar", "25 degC", "20 degC", "1800 s"), 0.0042519, 0.055556),
        (("0.3 L", "8 bar", "7.95 bar", "20 degC", "20 degC", "300 s"), 0.005, 0.005),
        (("5 L", "2 mbar", "0 mbar", "20 degC", "20 degC", "30 s"), 0.033333, 0.033333),
    ],
)
def test_a_fall_of_pressure_is_a_leak_only_beyond_what_cooling_does(given, leak, uncompensated) -> None:
    # Computed from the published formula (ideal gas, referred to 20 °C).
    keys = ("volume", "start", "end", "start_temperature", "end_temperature", "duration")
    result = reckon("pressure-decay", dict(zip(keys, given, strict=True)))
    assert result["leak_rate_pa_m3_s"] == pytest.approx(leak, rel=1e-4)
    assert result["without_temperature_pa_m3_s"] == pytest.approx(uncompensated, rel=1e-4)


@pytest.mark.parametrize(("pressure", "warm", "cold"), [(8, 40, 20), (6, 20, 15), (10, 30, 25)])
def test_cooling_at_constant_volume_agrees_with_real_air(pressure: int, warm: int, cold: int) -> None:
    # CoolProp: real air at the same density. The ideal gas is within 0.3 % of the absolute pressure.
    density = PropsSI("D", "P", pressure * 1e5 + 101325, "T", warm + 273.15, AIR)
    real = PropsSI("P", "D", density, "T", cold + 273.15, AIR) - 101325
    given = {"pressure": f"{pressure} bar", "from": f"{warm} degC", "to": f"{cold} degC"}
    assert reckon("cooling", given)["pressure_bar_gauge"] * 1e5 == pytest.approx(real, rel=3e-3)


@pytest.mark.parametrize(("warm", "cold", "printed"), [(20, 0, -13.64), (30, 10, -13.19), (20, -10, -20.47)])
def test_a_tight_spring_sinks_with_the_cold_as_real_air_does(warm: int, cold: int, printed: float) -> None:
    # The millimetres are computed from the ideal gas; real air at 7 bar absolute (CoolProp) sinks 2 % more.
    given = {"volume": "2 L", "area": "0.01 m2", "from": f"{warm} degC", "to": f"{cold} degC"}
    height = reckon("sinking", given)["height_mm"]
    assert height == pytest.approx(printed, abs=0.01)
    dense = [PropsSI("D", "P", 7e5, "T", t + 273.15, AIR) for t in (warm, cold)]
    assert height == pytest.approx(200 * (dense[0] / dense[1] - 1), rel=0.025)


@pytest.mark.parametrize(
    ("height", "duration", "leak"),
    [("10 mm", "12 h", 1.623e-3), ("5 mm", "24 h", 4.06e-4), ("20 mm", "8 h", 4.87e-3), ("1 mm", "1 h", 1.948e-3)],
)
def test_a_loss_of_height_is_a_leak_rate(height: str, duration: str, leak: float) -> None:
    # Computed from the published formula: 0.01 m², 6 bar.
    given = {"pressure": "6 bar", "area": "0.01 m2", "height": height, "duration": duration}
    assert reckon("height-loss", given)["leak_rate_pa_m3_s"] == pytest.approx(leak, rel=2e-3)


@pytest.mark.parametrize(
    ("value", "to", "wanted", "rel"),
    [
        ("1 Pa*m3/s", "mbar*L/s", 10, 1e-15),
        ("1 mbar*L/s", "atm*cm3/min", 59.2154, 1e-5),  # published 59.23 in one copy, 59.22 computed
        ("1 mbar*L/s", "atm*cm3/s", 0.98692, 1e-5),
        ("1 sccm", "Pa*m3/s", 1.68875e-3, 1e-9),  # published
        ("0.1 MPa", "bar", 1, 1e-15),
    ],
)
def test_units_of_leaks_convert_as_published(value: str, to: str, wanted: float, rel: float) -> None:
    assert reckon("convert", {"value": value, "to": to})["value"] == pytest.approx(wanted, rel=rel)


def flow(upstream: str, downstream: str, ratio: str) -> dict[str, object]:
    given = {"conductance": "1 dm3/s/bar", "critical_ratio": ratio, "temperature": "20 degC"}
    return reckon("flow", given | {"upstream": upstream, "downstream": downstream})


def test_flow_by_iso_6358_is_choked_at_the_critical_ratio_itself() -> None:
    # Computed from the published law; at b the two branches meet.
    assert flow("7 bar", "6 bar", "0.5")["flow_l_min_anr"] == pytest.approx(293.94, abs=0.01)
    assert flow("10 bar", "3 bar", "0.3") == {"flow_l_min_anr": pytest.approx(600), "choked": True}
    assert flow("10 bar", "3.0001 bar", "0.3")["choked"] is False
    assert flow("7 bar", "7 bar", "0.3")["flow_l_min_anr"] == pytest.approx(0, abs=1e-9)


def test_the_density_of_reference_air_agrees_with_moist_air() -> None:
    # CoolProp: air of 20 °C, 100 kPa, 65 % relative humidity has 1.182 kg/m³; ISO 8778 has 1.185 (from memory).
    volume = HAPropsSI("Vda", "T", 293.15, "P", 1e5, "R", 0.65)
    moist = (1 + HAPropsSI("W", "T", 293.15, "P", 1e5, "R", 0.65)) / volume
    leak = reckon("hole", hole_of("1 mm"))
    assert leak["leak_rate_pa_m3_s"] / (287.05 * 293.15) / leak["flow_l_min_anr"] * 60000 == pytest.approx(
        moist, rel=3e-3
    )


def hole_of(diameter: str, upstream: str = "8 bar", discharge: str = "1") -> dict[str, object]:
    return {"diameter": diameter, "upstream": upstream, "temperature": "20 degC", "discharge": discharge}


def test_flow_through_a_hole_agrees_with_the_relief_valve_formula_of_api_520() -> None:
    # fluids.API520_A_g gives the area that the same mass flow needs: 0.7854 mm² for a hole of 1 mm.
    mass = reckon("hole", hole_of("1 mm"))["leak_rate_pa_m3_s"] / (287.05 * 293.15)
    area = fluids.API520_A_g(m=mass, T=293.15, Z=1.0, MW=28.964, k=1.4, P1=8e5, P2=101325, Kd=1, Kb=1, Kc=1)
    assert area * 1e6 == pytest.approx(math.pi / 4, rel=1e-3)


def test_flow_through_a_hole_agrees_with_real_choked_air() -> None:
    # CoolProp: the largest flux along the isentrope from 8 bar and 20 °C; the ideal nozzle is 0.35 % below it.
    start = PropsSI("H", "P", 8e5, "T", 293.15, AIR), PropsSI("S", "P", 8e5, "T", 293.15, AIR)

    def flux(pressure: float) -> float:
        end = PropsSI("H", "P", pressure, "S", start[1], AIR)
        return PropsSI("D", "P", pressure, "S", start[1], AIR) * math.sqrt(2 * (start[0] - end))

    real = max(flux(8e5 * (0.5 + step / 1000)) for step in range(60))
    mass = reckon("hole", hole_of("1 mm"))["leak_rate_pa_m3_s"] / (287.05 * 293.15)
    assert mass / (math.pi / 4e6) == pytest.approx(real, rel=5e-3)


def test_flow_through_a_hole_below_the_critical_pressure_is_that_of_an_isentropic_nozzle() -> None:
    # CoolProp: the speed follows from the fall of enthalpy along the isentrope of real air.
    h, s = (PropsSI(what, "P", 1.3e5, "T", 293.15, AIR) for what in "HS")
    speed = math.sqrt(2 * (h - PropsSI("H", "P", 101325, "S", s, AIR)))
    real = PropsSI("D", "P", 101325, "S", s, AIR) * speed * math.pi / 4e6
    mass = reckon("hole", hole_of("1 mm", "1.3 bar"))["leak_rate_pa_m3_s"] / (287.05 * 293.15)
    assert mass == pytest.approx(real, rel=2e-3)


def test_a_leak_rate_gives_back_its_hole() -> None:
    for diameter, discharge in (("0.1 mm", "1"), ("0.5 mm", "0.7"), ("0.05 mm", "0.6")):
        there = reckon("hole", hole_of(diameter, discharge=discharge))
        given = hole_of(diameter, discharge=discharge) | {"leak_rate": f"{there['leak_rate_pa_m3_s']:.15f} Pa*m3/s"}
        del given["diameter"]
        assert reckon("hole", given)["diameter_mm"] == pytest.approx(float(diameter.split()[0]), rel=1e-6)


@pytest.mark.parametrize(
    ("micrometres", "millimetres_an_hour", "within"), [(20, 22.5, 0.05), (50, 140, 0.5), (100, 562, 0.6)]
)
def test_a_hole_lets_a_corner_sink_at_the_rate_that_follows(micrometres, millimetres_an_hour, within) -> None:
    # Computed from the published formulas: 7.01 bar absolute, 0.01 m², Cd 1.
    leak = reckon("hole", hole_of(f"{micrometres} um", "7.01 bar"))["leak_rate_pa_m3_s"]
    lost = {"pressure": "5.99675 bar", "area": "0.01 m2", "height": "1 mm", "duration": "1 h"}
    assert leak / reckon("height-loss", lost)["leak_rate_pa_m3_s"] == pytest.approx(millimetres_an_hour, abs=within)


@pytest.mark.parametrize(
    ("given", "force", "rate", "frequency"),
    [
        (("6 bar", "0.010 m2", "2.0 L", "1.0"), 6000, 35.066, 1.2049),
        (("6 bar", "0.010 m2", "2.0 L", "1.3"), 6000, 45.586, 1.3738),
        (("6 bar", "0.010 m2", "2.0 L", "1.4"), 6000, 49.093, 1.4257),
        (("4 bar", "0.012 m2", "3.0 L", "1.3"), 4800, 31.283, 1.2724),
        (("8 bar", "0.009 m2", "1.5 L", "1.3"), 7200, 63.273, 1.4775),
        (("6 bar", "0.010 m2", "2.0 L", "1.3", "0.02 m"), 6000, 57.586, 1.5441),
    ],
)
def test_force_rate_and_frequency_of_an_air_spring(given, force: float, rate: float, frequency: float) -> None:
    # Computed from the polytropic formula.
    result = reckon("air-spring", dict(zip(("pressure", "area", "volume", "exponent", "area_gradient"), given)))  # noqa: B905
    assert list(result.values()) == pytest.approx([force, rate, frequency], rel=1e-4)


def test_the_rate_of_an_air_spring_agrees_with_real_air_compressed_without_loss_of_heat() -> None:
    # CoolProp: 49.43 N/mm from the isentrope of real air (cp/cv 1.4129), 0.7 % above n = 1.4.
    p, area, volume = 6e5 + 101325, 0.01, 0.002
    entropy, density = (PropsSI(what, "P", p, "T", 293.15, AIR) for what in "SD")
    step = 1e-5
    higher = PropsSI("P", "D", density * volume / (volume - area * step), "S", entropy, AIR)
    given = {"pressure": "6 bar", "area": "0.01 m2", "volume": "2 L", "exponent": "1.4"}
    assert reckon("air-spring", given)["rate_n_mm"] == pytest.approx((higher - p) * area / step / 1000, rel=0.01)


@pytest.mark.parametrize(
    ("given", "seconds"),
    [
        (("5 L", "5 bar", "10 bar", "15 L/min"), 98.69),
        (("4.5 L", "0 bar", "16 bar", "20 L/min"), 213.2),
        (("10 L", "8 bar", "12 bar", "25 L/min"), 94.75),
        (("100 US gal", "0 psi", "120 psi", "15 cfm"), 7.28 * 60),
    ],
)
def test_filling_takes_as_long_as_published_examples_say(given, seconds: float) -> None:
    # Computed from the published formula with the standard atmosphere; with 15 psi the last would be 7.13 min.
    result = reckon("fill-time", dict(zip(("volume", "start", "end", "free_air"), given, strict=True)))
    assert result["seconds"] == pytest.approx(seconds, rel=5e-4)


@pytest.mark.parametrize(("height", "pascals"), [(0, 101325), (500, 95461), (1500, 84556), (2400, 75626)])
def test_the_atmosphere_thins_as_iso_2533_has_it(height: int, pascals: int) -> None:
    # Computed from the published formula; 0.76 bar at 2400 m in print. fluids carries the atmosphere of
    # 1976, which counts true heights and not the heights of equal weight that the formula takes.
    result = reckon("altitude", {"height": f"{height} m"})["pressure_pa"]
    assert result == pytest.approx(pascals, abs=2)
    true_height = 6356766 * height / (6356766 - height)
    assert result == pytest.approx(fluids.ATMOSPHERE_1976(true_height).P, rel=5e-5)


@pytest.mark.parametrize(
    ("celsius", "humidity", "bar", "free", "pressed"),
    [(20, 0.5, 8, 9.26, 46.55), (20, 0.5, 16, 9.26, 59.56), (10, 1, 7, 10, 45.23)],
)
def test_dew_points_agree_with_real_moist_air(celsius, humidity, bar, free, pressed) -> None:
    # The printed figures are those of the Magnus formula. CoolProp has real moist air: 46.18, 58.85 and 44.88 °C.
    given = {"temperature": f"{celsius} degC", "humidity": f"{humidity * 100} %", "pressure": f"{bar} bar"}
    result = reckon("dew-point", given)
    assert list(result.values()) == pytest.approx([free, pressed], abs=0.005)
    kelvin, water = celsius + 273.15, HAPropsSI("W", "T", celsius + 273.15, "P", 101325, "R", humidity)
    real = HAPropsSI("D", "T", kelvin, "P", 101325, "R", humidity) - 273.15
    assert result["dew_point_c"] == pytest.approx(real, abs=0.03)
    total = bar * 1e5 + 101325
    real_pressed = HAPropsSI("D", "T", 353.15, "P", total, "W", water) - 273.15
    assert result["pressure_dew_point_c"] == pytest.approx(real_pressed, abs=0.75)
