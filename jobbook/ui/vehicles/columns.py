"""The columns of the list of vehicles, and of a vehicle's visits."""

from collections.abc import Callable

from jobbook.core.vehicle.vehicles import OLDER_NUMBER, Odometer
from jobbook.core.written import thousands
from jobbook.ui.jobs.columns import ERASED, STAGE_MARKS, concern_in_quotes
from jobbook.ui.moments import day, day_and_hour
from jobbook.ui.tables import Column

__all__ = ["AIR", "ERASED", "columns", "odometer_columns", "odometer_text", "visit_columns"]

# Where a VIN is read: one place misleads, two that agree hardly do.
VIN_FROM = {"body": "body", "paper": "papers", "scan": "scan tool", OLDER_NUMBER: OLDER_NUMBER}
AIR = {"all": "all four corners", "front": "in front only", "rear": "at the rear only"}
ODOMETER_WORDS = {
    "in": "arrived",
    "out": "left",
    "test": "road test",
    "visit": "visit",
    "stated": "as the customer said",
}


def columns(tr: Callable[[str], str]) -> tuple[Column, ...]:
    return (
        Column(tr("Vehicle"), lambda vehicle: vehicle.title, width=24, strong=True),
        Column(tr("Plate"), lambda vehicle: vehicle.plate, width=14),
        Column(tr("VIN"), lambda vehicle: vehicle.vin, width=22),
        Column(tr("Year"), lambda vehicle: vehicle.year, width=6),
        Column(tr("Variant"), lambda vehicle: vehicle.variant),
        Column(tr("Air"), lambda vehicle: AIR.get(vehicle.air, vehicle.air), width=18, role="soft"),
    )


def visit_columns(tr: Callable[[str], str]) -> tuple[Column, ...]:
    return (
        Column(tr("Job"), lambda row: str(row.number), width=6, strong=True),
        Column(tr("Arrived"), lambda row: day(row.opened_at), width=12),
        Column(tr("Concern"), concern_in_quotes),
        Column(tr("Stage"), lambda row: row.stage, width=13, mark=lambda row: STAGE_MARKS.get(row.stage, "query")),
    )


def odometer_columns(tr: Callable[[str], str]) -> tuple[Column, ...]:
    return (
        Column(tr("Read"), lambda reading: day_and_hour(reading.at), width=18),
        Column(tr("Odometer"), odometer_text, width=14, right=True, strong=True),
        Column(tr("At"), lambda reading: ODOMETER_WORDS.get(reading.what, reading.what), width=14),
        Column(tr("Note"), lambda reading: reading.note, role="soft"),
    )


def odometer_text(reading: Odometer) -> str:
    return f"{thousands(reading.value)} {reading.unit}"
