"""Makes the pages. What a page needs is imported when somebody first goes there: the window opens without it."""

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QSettings

from jobbook.ui.idle import LOCK_AFTER, lock_after
from jobbook.ui.rooms import Page
from jobbook.ui.setting import Setting


def jobs_page(setting: Setting) -> Page:
    """The list of jobs."""
    from jobbook.ui.jobs.page import JobsPage

    return JobsPage(setting.book)


def take_in_page(setting: Setting) -> Page:
    """The form with which a vehicle is taken in."""
    from jobbook.ui.jobs.arriving.take_in import TakeInPage

    return TakeInPage(setting)


def call_page(setting: Setting) -> Page:
    """The form for somebody who calls."""
    from jobbook.ui.jobs.arriving.call_page import CallPage

    return CallPage(setting)


def job_page(setting: Setting, settings: QSettings) -> Page:
    """One job."""
    from jobbook.ui.jobs.job_page import JobPage

    return JobPage(setting, settings)


def vehicles_page(setting: Setting) -> Page:
    """The list of vehicles."""
    from jobbook.ui.vehicles.page import VehiclesPage

    return VehiclesPage(setting)


def vehicle_page(setting: Setting) -> Page:
    """One vehicle."""
    from jobbook.ui.vehicles.vehicle_page import VehiclePage

    return VehiclePage(setting)


def customers_page(setting: Setting) -> Page:
    """The list of customers."""
    from jobbook.ui.vehicles.customers_page import CustomersPage

    return CustomersPage(setting)


def customer_page(setting: Setting) -> Page:
    """One customer."""
    from jobbook.ui.vehicles.customer_page import CustomerPage

    return CustomerPage(setting)


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
    from jobbook.ui.jobs.arriving.from_paper import FromPaperPage

    return FromPaperPage(setting)


def shop_page(setting: Setting, scheme: str, wish: Callable[[str], None], settings: QSettings) -> Page:
    """The shop with its parts. `wish` is called with "system", "light" or "dark"."""
    from jobbook.ui.shop.appearance import AppearancePage
    from jobbook.ui.shop.backup import BackupPage
    from jobbook.ui.shop.kept_long import KeptLongPage
    from jobbook.ui.shop.lists import ListsPage
    from jobbook.ui.shop.page import ShopPage
    from jobbook.ui.shop.part import Part
    from jobbook.ui.shop.parts import PartsPage
    from jobbook.ui.shop.people import PeoplePage
    from jobbook.ui.shop.phrases import PhrasesPage
    from jobbook.ui.shop.prices import PricesPage
    from jobbook.ui.shop.specifications import SpecificationsPage
    from jobbook.ui.shop.specifications_presenter import figures_of_the_methods
    from jobbook.ui.shop.tools import ToolsPage
    from jobbook.ui.shop.workshop import WorkshopPage

    appearance = AppearancePage(scheme, lock_after(settings))
    appearance.wished.connect(wish)
    appearance.lock_wished.connect(lambda minutes: settings.setValue(LOCK_AFTER, minutes))
    parts: dict[str, Part] = {
        tr("People"): PeoplePage(setting),
        tr("Tools"): ToolsPage(setting),
        tr("Parts"): PartsPage(setting),
        tr("Specifications"): SpecificationsPage(setting, figures_of_the_methods()),
        tr("Workshop"): WorkshopPage(setting),
        tr("Prices"): PricesPage(setting),
        tr("Backup"): BackupPage(setting),
        tr("Import and export"): ListsPage(setting),
        tr("Phrases"): PhrasesPage(setting),
        tr("Look"): appearance,
        tr("Kept long"): KeptLongPage(setting),
    }
    return ShopPage(parts)


def tr(words: str) -> str:
    return QCoreApplication.translate("Index", words)
