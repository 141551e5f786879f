"""What the find line finds, in groups. No Qt in here."""

from dataclasses import dataclass

from jobbook.core.desk.calls import Call
from jobbook.core.jobs import JobRow
from jobbook.core.tools import Tool
from jobbook.core.vehicle.parts import Piece
from jobbook.services.office.finding import Finds, find, find_exactly
from jobbook.services.opened import OpenBook
from jobbook.ui.moments import day_and_hour
from jobbook.ui.places import Place, a_call, a_customer, a_job, a_part, a_tool, a_vehicle


@dataclass(frozen=True)
class Found:
    """One thing found: what stands in the list, and where Enter leads."""

    words: str
    place: Place


@dataclass(frozen=True)
class Group:
    title: str
    found: tuple[Found, ...]


def groups(book: OpenBook, text: str) -> tuple[Group, ...]:
    """What fits what was typed so far, a few of each; groups without any are left out."""
    return grouped(find(book, text))


def groups_of_code(book: OpenBook, code: str) -> tuple[Group, ...]:
    """What a scanned code names, and nothing that only begins like it."""
    return grouped(find_exactly(book, code))


def grouped(finds: Finds) -> tuple[Group, ...]:
    """Found things in the words of the list, each with the place that it leads to."""
    jobs, by_others = (tuple(_job(row) for row in rows) for rows in (finds.jobs, finds.by_others))
    vehicles = (Found(_line(v.title, v.plate, v.vin), a_vehicle(v.id)) for v in finds.vehicles)
    customers = (Found(_line(c.name or "erased", c.phone or ""), a_customer(c.id)) for c in finds.customers)
    listed = (
        Group("Jobs", jobs),
        Group("Jobs, by authority, delivery note, invoice or old paper", by_others),
        Group("Called, not here yet", tuple(_call(call) for call in finds.calls)),
        Group("Vehicles", tuple(vehicles)),
        Group("Customers", tuple(customers)),
        Group("Parts", tuple(Found(_line(p.number, p.title, p.supplier), a_part(p.id)) for p in finds.parts)),
        Group("Issued, by number, serial or batch", tuple(_piece(piece) for piece in finds.pieces)),
        Group("Tools", tuple(_tool(tool) for tool in finds.tools)),
    )
    there = tuple(group for group in listed if group.found)
    return (Group(f"Nothing begins so; read as “{finds.read_as}”", ()), *there) if finds.read_as else there


def _job(row: JobRow) -> Found:
    customer = "erased" if row.customer is None else row.customer
    return Found(_line(str(row.number), row.vehicle, row.plate, customer, row.stage), a_job(row.number))


def _call(call: Call) -> Found:
    comes = f"comes {day_and_hour(call.expected)}" if call.expected else "no day yet"
    return Found(_line(call.caller or "erased", call.vehicle, call.plate, comes), a_call(call.number))


def _piece(piece: Piece) -> Found:
    serial = f"serial {piece.serial}" if piece.serial else ""
    batch = f"batch {piece.batch}" if piece.batch else ""
    told = _line(piece.number, serial, batch, piece.title, f"{piece.state} on job {piece.job}")
    return Found(told, a_job(piece.job))


def _tool(tool: Tool) -> Found:
    return Found(_line(tool.number, tool.kind, tool.range_text, tool.status), a_tool(tool.number))


def _line(*parts: str) -> str:
    return " · ".join(part for part in parts if part)
