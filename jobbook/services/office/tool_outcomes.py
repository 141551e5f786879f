"""What comes of a tool whose calibration is due: it was calibrated, or nobody takes it until then, or ever."""

from dataclasses import replace

from jobbook.core.desk.outcomes import CALIBRATED, OF_A_TOOL
from jobbook.core.errors import NotFound, Refused
from jobbook.core.people import Person
from jobbook.core.tools import Tool
from jobbook.services.house.shop import keep_tool, tools
from jobbook.services.opened import OpenBook
from jobbook.services.typed_times import typed_day


def close_tool(
    book: OpenBook, who: Person, number: str, outcome: str, calibrated_on: str = "", due_on: str = "", paper: str = ""
) -> Tool:
    """Keep what came of a tool that was due. `paper` is the number of its new certificate.

    Calibrated, it needs the day and the certificate; without `due_on` the usual interval counts from that day."""
    tool = next((one for one in tools(book) if one.number == number), None)
    if tool is None:
        raise NotFound(f"There is no tool “{number}” in the tool crib; nothing was kept.")
    if outcome not in OF_A_TOOL:
        raise Refused("Nothing was kept: say what came of the tool.")
    if outcome != CALIBRATED:
        return keep_tool(book, who, replace(tool, status=outcome))
    if not calibrated_on.strip() or not paper.strip():
        raise Refused("Nothing was kept: a calibration needs its day and the number of its certificate.")
    done, due = typed_day(calibrated_on, book.today(), ahead=False), typed_day(due_on, book.today(), ahead=True)
    if done <= tool.calibrated_on:
        raise Refused(f"Nothing was kept: {number} was calibrated on {tool.calibrated_on}; this day is no later.")
    fresh = replace(tool, calibrated_on=done, due_on=due, certificate=paper.strip())
    return keep_tool(book, who, replace(fresh, status="in use"))
