"""Vehicles: the list, and one of them with its customer, readings and visits."""

from collections.abc import Callable
from typing import Any, Protocol

from jobbook.core.errors import BookError
from jobbook.core.jobs import JobRow
from jobbook.core.record.pages import Page
from jobbook.core.vehicle.vehicles import Vehicle
from jobbook.services.vehicle.ownership import plate_words
from jobbook.services.vehicle.vehicles import VehicleSheet, keep_vehicle, vehicle, vehicles, vin_findings
from jobbook.ui.places import Place, a_job, a_vehicle
from jobbook.ui.setting import Setting


class VehiclesPresenter:
    """Holds what the list is narrowed to."""

    def __init__(self, setting: Setting, go: Callable[[Place], None]) -> None:
        self._setting, self._go, self._text = setting, go, ""

    def narrow(self, text: str) -> None:
        self._text = text.strip()

    def fetch(self, after: Any, limit: int) -> Page[Vehicle]:
        return vehicles(self._setting.book, after, self._text, limit)

    def open(self, row: Vehicle) -> None:
        self._go(a_vehicle(row.id))


class VehicleView(Protocol):
    """What the page of one vehicle can show."""

    def show_sheet(self, sheet: VehicleSheet) -> None: ...

    def show_history(self, sheet: VehicleSheet) -> None: ...

    def warn(self, field: str, sentence: str) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_kept(self) -> None: ...


class VehiclePresenter:
    """One vehicle: shown, and its facts kept when they change."""

    def __init__(self, setting: Setting, view: VehicleView, go: Callable[[Place], None]) -> None:
        self._setting, self._view, self._go = setting, view, go
        self._sheet: VehicleSheet | None = None

    def open(self, number: int) -> None:
        self._sheet = vehicle(self._setting.book, number)
        self._view.show_sheet(self._sheet)
        self.vin_typed(self._sheet.vehicle.vin)
        self._view.warn("plate", "")

    def refresh(self) -> None:
        """Show what happened to the vehicle since; what is being typed of its facts stays."""
        if self._sheet is not None:
            self._view.show_history(vehicle(self._setting.book, self._sheet.vehicle.id))

    def vin_typed(self, vin: str) -> None:
        self._view.warn("vin", " ".join(vin_findings(vin)) if vin.strip() else "")

    def plate_typed(self, plate: str) -> None:
        """Another plate holds from today on, and leaves the vehicle that bears it; a slip is another thing."""
        there = self._sheet.vehicle if self._sheet is not None else Vehicle(0, "")
        if plate.strip() == there.plate:
            self._view.warn("plate", "")
            return
        said = [plate_words(self._setting.book, plate, there.id)]
        said += (
            ["Kept here, it holds from today on. Typed wrong before? Put it right under Plates."] if there.plate else []
        )
        self._view.warn("plate", " ".join(filter(None, said)))

    def keep(self, changed: Vehicle) -> None:
        book = self._setting.book
        self._setting.keep(lambda who: keep_vehicle(book, who, changed), self._kept, self._refused)

    def _kept(self, changed: Vehicle) -> None:
        self.open(changed.id)
        self._view.show_kept()

    def _refused(self, error: BookError) -> None:
        self._view.refuse(str(error))

    def open_job(self, row: JobRow) -> None:
        self._go(a_job(row.number))
