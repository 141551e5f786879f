"""Builds the window with the rooms that there are."""

from collections.abc import Callable

from PySide6.QtCore import QSettings

from jobbook.ui import pages
from jobbook.ui.duty import Duty
from jobbook.ui.idle import IdleLock, lock_after
from jobbook.ui.places import (
    CALL,
    CUSTOMER,
    CUSTOMERS,
    FIGURES,
    JOBS,
    LIST,
    LOOKING_BACK,
    NEW,
    ONE,
    PAPER,
    SHOP,
    TODAY,
    VEHICLES,
)
from jobbook.ui.rooms import Makers, Room
from jobbook.ui.setting import Setting
from jobbook.ui.tasks import TaskLanes
from jobbook.ui.today.page import TodayPage
from jobbook.ui.window import Window


def build_window(
    setting: Setting, duty: Duty, lanes: TaskLanes, settings: QSettings, wish: Callable[[str], None]
) -> Window:
    """The window on this book. `wish` is called with "system", "light" or "dark" when somebody chooses."""
    scheme = str(settings.value("scheme", "system"))
    window = Window(setting, duty, lanes, rooms(setting, scheme, wish, settings), settings)
    IdleLock(duty, lambda: lock_after(settings), window).watch(window)
    return window


def rooms(setting: Setting, scheme: str, wish: Callable[[str], None], settings: QSettings) -> tuple[Room, ...]:
    """The rooms of the index, in its order; the last stands at its foot."""
    jobs: Makers = {
        LIST: lambda: pages.jobs_page(setting),
        NEW: lambda: pages.take_in_page(setting),
        CALL: lambda: pages.call_page(setting),
        PAPER: lambda: pages.from_paper_page(setting),
        ONE: lambda: pages.job_page(setting, settings),
    }
    vehicles: Makers = {
        LIST: lambda: pages.vehicles_page(setting),
        ONE: lambda: pages.vehicle_page(setting),
        CUSTOMERS: lambda: pages.customers_page(setting),
        CUSTOMER: lambda: pages.customer_page(setting),
    }
    return (
        Room(TODAY, pages.tr("Today"), {LIST: lambda: TodayPage(setting)}),
        Room(JOBS, pages.tr("Jobs"), jobs),
        Room(VEHICLES, pages.tr("Vehicles"), vehicles),
        Room(FIGURES, pages.tr("Figures"), {LIST: lambda: pages.figures_page(settings)}),
        Room(LOOKING_BACK, pages.tr("Looking back"), {LIST: lambda: pages.look_back_page(setting)}),
        Room(SHOP, pages.tr("The shop"), {LIST: lambda: pages.shop_page(setting, scheme, wish, settings)}),
    )
