"""What is asked with a reading of the wheel geometry."""

from collections.abc import Sequence

from jobbook.core.measured.alignment import ANGLES, Angle
from jobbook.core.record.files import KeptFile
from jobbook.core.tools import Tool
from jobbook.services.sheet.sheets import Ask, Option, options_of

ALIGNER = "wheel aligner"
PLACE = "geometry"  # what a file belongs to where it arrives, among the pictures and files
EXPLAIN = "As the sheet has it: 0.5°, −0°30′ or 10′; toe also in mm. + is top out, axis back, toe-in."


def geometry_asks(tools: Sequence[Tool], sheets: Sequence[KeptFile] = ()) -> tuple[Ask, ...]:
    """The angles by wheel, the instrument, the sheet among the job's files (beforehand the one that was said to belong
    here), a note; the conditions and another shop's work are folded away."""
    here = next((str(sheet.entry) for sheet in reversed(sheets) if sheet.to == PLACE), "")
    filed = tuple(Option(str(sheet.entry), sheet.called) for sheet in sheets)
    gauges = tuple(Option(tool.number, tool.number) for tool in tools if tool.kind == ALIGNER)
    value = gauges[0].value if len(gauges) == 1 else ""
    return (
        *(_angle(angle) for angle in ANGLES if angle.wheels[0]),
        *((Ask("how", "Measured with", "choice", gauges, value=value, required=False),) if gauges else ()),
        *((Ask("sheet", "Sheet, among the job's files", "list", filed, value=here, required=False),) if filed else ()),
        Ask("text", "Note, or where the sheet lies", required=False),
        Ask("thrust", "Thrust angle, where the sheet has it", "serial", required=False, folded=True),
        Ask("load", "Load", required=False, folded=True),
        Ask("fuel", "Fuel", required=False, folded=True),
        Ask("tyres", "Tyres: size, pressure", required=False, folded=True),
        Ask("outside_by", "Another workshop, which did it", required=False, folded=True),
        Ask("outside_paper", "Its sheet, or invoice", required=False, folded=True),
        Ask("outside_on", "Its day, and odometer", required=False, folded=True),
    )


def _angle(angle: Angle) -> Ask:
    wheels = options_of(angle.wheels)
    return Ask(angle.key, angle.title, "angles", wheels, "°", required=False)
