"""What a torque tool is set to and whether it may be used for a torque."""

from dataclasses import dataclass
from decimal import Context, Decimal
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.quantities import UNITS, Quantity

# Common practice, no standard: a hand torque tool is trusted from a fifth of its full scale upwards. Calibration points
# are usually taken at 20, 60 and 100 % of it.
LOWEST_SHARE = Fraction(1, 5)

_FINE = Context(prec=50)
_PI = Decimal("3.14159265358979323846264338327950288419716939937511")


@dataclass(frozen=True)
class ToolRange:
    """Whether a tool may be used for a torque; `reason` is one sentence in either case."""

    usable: bool
    reason: str


def adapter_setting(torque: Quantity, lever: Quantity, extension: Quantity, angle: Quantity) -> Quantity:
    """Return what to set so that the fastener gets the torque: T·L / (L + E·cos α), to a millionth of the unit of T.

    torque T [N*m, or whatever it is given in], lever L from drive centre to the middle of the hand grip [mm, above 0],
    extension E from drive centre to fastener [mm, negative when it points backwards], angle between adapter and
    handle [deg]. Range: the hand pulls at the mark and square to the handle; at 90 degrees no correction is asked
    for. Errors: a lever of nought or less, an adapter that reaches back to the grip. Source: US Army TM 9-254 and
    TM 1-1500-204-23-9, worked examples.
    """
    if torque.amount <= 0:
        raise Refused("The setting was not computed: the torque is above nought; look at the figure again.")
    length, arm = _arms(lever, extension, angle)
    return _to_a_millionth(Fraction(torque.amount) * length / arm, torque.unit)


def adapter_torque(setting: Quantity, lever: Quantity, extension: Quantity, angle: Quantity) -> Quantity:
    """Return what the fastener gets from a wrench that is set so: the reverse of `adapter_setting`.

    setting S [N*m, or whatever it is given in], the rest as there. Range, errors and source: as there.
    """
    length, arm = _arms(lever, extension, angle)
    return _to_a_millionth(Fraction(setting.amount) * arm / length, setting.unit)


def _arms(lever: Quantity, extension: Quantity, angle: Quantity) -> tuple[Fraction, Fraction]:
    """The lever, and the arm from the grip to the fastener along the handle [mm]."""
    length = lever.in_unit("mm")
    if length <= 0:
        raise Refused("The setting was not computed: the lever is above nought; measure it again.")
    arm = length + extension.in_unit("mm") * cosine(angle.in_unit("deg"))
    if arm * 20 <= length:
        raise Refused("The setting was not computed: the adapter reaches back to the grip; turn it or use another one.")
    return length, arm


def _to_a_millionth(amount: Fraction, unit: str) -> Quantity:
    return Quantity("torque", Fraction(round(amount * 10**6), 10**6), unit)


def tool_range(
    torque: Quantity, tool_min: Quantity, tool_max: Quantity, lowest_share: Fraction = LOWEST_SHARE
) -> ToolRange:
    """Return whether a tool may be used for a torque.

    torque wanted [N*m], tool_min and tool_max of its scale [N*m], `lowest_share` of the full scale that the shop trusts
    a tool with. Range: click and dial tools in calibration. Errors: a scale upside down. Source: common practice, from
    one fifth of full scale upwards.
    """
    wanted, low, high = (quantity.in_unit("N*m") for quantity in (torque, tool_min, tool_max))
    if not 0 <= low < high:
        raise Refused(
            f"{tool_min.text()} to {tool_max.text()} is no range of a tool; nothing was kept, look at its card."
        )
    if wanted > high:
        return ToolRange(False, f"{torque.text()} is above the tool's {tool_max.text()}; take a larger one.")
    if wanted < low:
        return ToolRange(False, f"{torque.text()} is below the tool's {tool_min.text()}; take a smaller one.")
    if wanted < high * lowest_share:
        share = f"{Quantity('ratio', lowest_share * 100, '%').text()} of its full scale of {tool_max.text()}"
        return ToolRange(False, f"{torque.text()} is below {share}, where the tool is not trusted; take a smaller one.")
    return ToolRange(True, f"{torque.text()} is within {tool_min.text()} to {tool_max.text()}.")


def other_unit_hint(reached: Quantity, low: Quantity, high: Quantity) -> tuple[Quantity, ...]:
    """Return the typed number in those other torque units where it lies within the limits; empty when it fits."""
    lowest, highest = low.in_unit("N*m"), high.in_unit("N*m")
    if lowest <= reached.in_unit("N*m") <= highest:
        return ()
    units = (unit.name for unit in UNITS if unit.kind == "torque" and unit.name != reached.unit)
    others = (Quantity("torque", reached.amount, unit, reached.typed) for unit in units)
    return tuple(other for other in others if lowest <= other.in_unit("N*m") <= highest)


def cosine(degrees: Fraction) -> Fraction:
    """Return the cosine of an angle [degrees], good to thirty digits; exact at whole multiples of 90."""
    folded = degrees % 360
    if folded % 90 == 0:
        return Fraction((1, 0, -1, 0)[int(folded // 90)])
    x = _FINE.divide(_FINE.multiply(_PI, folded.numerator), 180 * folded.denominator)
    term = total = Decimal(1)
    for n in range(1, 60):
        term = _FINE.divide(_FINE.multiply(term, _FINE.multiply(x, x).copy_negate()), Decimal(2 * n * (2 * n - 1)))
        total = _FINE.add(total, term)
    return Fraction(total)
