"""One figure in another unit, as `reckon convert` gives it."""

from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.figures.refusals import unfit
from jobbook.core.figures.written import certain
from jobbook.core.quantities.spelled import unit_text
from jobbook.core.quantities.typed import shown, tidy
from jobbook.core.quantities.units import SPELLED, UNIT, kinds_of


def converted(value: str, to: str) -> Fraction:
    """Return a figure in another unit of its kind, exactly.

    value with its unit [any unit of the list], to the other unit. Range: the closed list of units. Errors: a unit
    that is not on it, one of another kind. Source: NIST SP 811, appendix B.8, and the SI brochure.
    """
    spelling = unit_text(tidy(to))
    kinds = kinds_of(spelling)
    if not kinds:
        raise unfit("to", f"“{shown(to)}” is no unit of the list", "name one such as N*m, bar, mm or deg")
    refusals = []
    for kind in kinds:
        unit = SPELLED[kind].get(spelling) or UNIT[spelling]
        try:
            return certain(value, kind).in_unit(unit.name)
        except Refused as refused:
            refusals.append(refused)
    raise Refused(f"value: {refusals[-1]}")
