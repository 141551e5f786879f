"""Builds the window with the rooms that there are."""

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QSettings

from jobbook.ui.duty import Duty
from jobbook.ui.idle import DEFAULT_MINUTES, IdleLock
from jobbook.ui.jobs.call_page import CallPage
from jobbook.ui.jobs.job_page import JobPage
from jobbook.ui.jobs.page import JobsPage
from jobbook.ui.jobs.take_in import TakeInPage
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
from jobbook.ui.rooms import Makers, Page, Room
from jobbook.ui.setting import Setting
from jobbook.ui.shop.appearance import AppearancePage
from jobbook.ui.shop.backup import BackupPage
from jobbook.ui.shop.page import ShopPage
from jobbook.ui.shop.part import Part
from jobbook.ui.shop.parts import PartsPage
from jobbook.ui.shop.people import PeoplePage
from jobbook.ui.shop.prices import PricesPage
from jobbook.ui.shop.specifications import SpecificationsPage
from jobbook.ui.shop.specifications_presenter import figures_of_the_methods
from jobbook.ui.shop.tools import ToolsPage
from jobbook.ui.shop.workshop import WorkshopPage
from jobbook.ui.tasks import TaskLanes
from jobbook.ui.today.page import TodayPage
from jobbook.ui.vehicles.customer_page import CustomerPage
from jobbook.ui.vehicles.customers_page import CustomersPage
from jobbook.ui.vehicles.page import VehiclesPage
from jobbook.ui.vehicles.vehicle_page import VehiclePage
from jobbook.ui.window import Window

LOCK_AFTER = "lock_after"


def build_window(
    setting: Setting, duty: Duty, lanes: TaskLanes, settings: QSettings, wish: Callable[[str], None]
) -> Window:
    """The window on this book. `wish` is called with "system", "light" or "dark" when somebody chooses."""
    scheme = str(settings.value("scheme", "system"))
    window = Window(setting, duty, lanes, rooms(setting, scheme, wish, settings), settings)
    IdleLock(duty, lambda: lock_after(settings), window).watch(window)
    return window


def lock_after(settings: QSettings) -> int:
    """The minutes without a touch after which this workstation's window locks itself; 0 for never."""
    kept = str(settings.value(LOCK_AFTER, DEFAULT_MINUTES))
    return int(kept) if kept.isdecimal() else DEFAULT_MINUTES


def rooms(setting: Setting, scheme: str, wish: Callable[[str], None], settings: QSettings) -> tuple[Room, ...]:
    """The rooms of the index, in its order; the last stands at its foot."""
    jobs: Makers = {
        LIST: lambda: JobsPage(setting.book),
        NEW: lambda: TakeInPage(setting),
        CALL: lambda: CallPage(setting),
        PAPER: lambda: from_paper_page(setting),
        ONE: lambda: JobPage(setting, settings),
    }
    vehicles: Makers = {
        LIST: lambda: VehiclesPage(setting),
        ONE: lambda: VehiclePage(setting),
        CUSTOMERS: lambda: CustomersPage(setting),
        CUSTOMER: lambda: CustomerPage(setting),
    }
    return (
        Room(TODAY, _tr("Today"), {LIST: lambda: TodayPage(setting)}),
        Room(JOBS, _tr("Jobs"), jobs),
        Room(VEHICLES, _tr("Vehicles"), vehicles),
        Room(FIGURES, _tr("Figures"), {LIST: lambda: figures_page(settings)}),
        Room(LOOKING_BACK, _tr("Looking back"), {LIST: lambda: look_back_page(setting)}),
        Room(SHOP, _tr("The shop"), {LIST: lambda: shop_page(setting, scheme, wish, settings)}),
    )


def look_back_page(setting: Setting) -> Page:
    """Part life; what it reckons with is imported when somebody first goes there."""
    from jobbook.ui.lookback.page import LookBackPage

    return LookBackPage(setting)


def figures_page(settings: QSettings) -> Page:
    """The figures, with the one that was open last. They are imported when somebody first goes there."""
    from jobbook.ui.figures.page import FiguresPage

    page = FiguresPage(str(settings.value("figure", "")))
    page.opened.connect(lambda name: settings.setValue("figure", name))
    return page


def from_paper_page(setting: Setting) -> Page:
    """The form for old papers, imported when somebody first keys one in."""
    from jobbook.ui.jobs.from_paper import FromPaperPage

    return FromPaperPage(setting)


def shop_page(setting: Setting, scheme: str, wish: Callable[[str], None], settings: QSettings) -> ShopPage:
    from jobbook.ui.shop.lists import ListsPage  # the window opens without it
    from jobbook.ui.shop.phrases import PhrasesPage

    appearance = AppearancePage(scheme, lock_after(settings))
    appearance.wished.connect(wish)
    appearance.lock_wished.connect(lambda minutes: settings.setValue(LOCK_AFTER, minutes))
    parts: dict[str, Part] = {
        _tr("People"): PeoplePage(setting),
        _tr("Tools"): ToolsPage(setting),
        _tr("Parts"): PartsPage(setting),
        _tr("Specifications"): SpecificationsPage(setting, figures_of_the_methods()),
        _tr("Workshop"): WorkshopPage(setting),
        _tr("Prices"): PricesPage(setting),
        _tr("Backup"): BackupPage(setting),
        _tr("Import and export"): ListsPage(setting),
        _tr("Phrases"): PhrasesPage(setting),
        _tr("Look"): appearance,
    }
    return ShopPage(parts)


def _tr(words: str) -> str:
    return QCoreApplication.translate("Index", words)
