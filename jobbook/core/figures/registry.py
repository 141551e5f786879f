"""Every figure by name: what it is given, what computes it, what comes back, and from where it is taken."""

from collections.abc import Mapping
from types import MappingProxyType

from jobbook.core.figures import rows_air, rows_fastening, rows_judging, rows_vehicle
from jobbook.core.figures.figure import Figure

FIGURES: Mapping[str, Figure] = MappingProxyType(
    {figure.name: figure for figure in (*rows_fastening.ROWS, *rows_vehicle.ROWS, *rows_air.ROWS, *rows_judging.ROWS)}
)
