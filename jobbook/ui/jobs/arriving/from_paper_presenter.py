"""An old job from its paper: the answers become what the paper says, and the book is asked to keep it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Protocol

from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.services.house.people import all_people
from jobbook.services.house.shop import shop
from jobbook.services.job.late import NOBODY_KNOWN
from jobbook.services.office.paper_jobs import PaperJob, customer_words, key_in, known_vehicle
from jobbook.services.office.phrases import phrases, phrases_for
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.services.vehicle.vehicles import clean_vin, vin_findings
from jobbook.services.work import Written
from jobbook.ui.keeping import Keeping
from jobbook.ui.setting import Setting

UNITS = (Option("km", "km"), Option("mi", "mi"))
AS_IT_IS = "{0} is in the book already; the paper is kept as one more visit, and nothing of the vehicle changes."


@dataclass(frozen=True)
class Asked:
    """The questions in their four groups."""

    paper: tuple[Ask, ...]
    vehicle: tuple[Ask, ...]
    found: tuple[Ask, ...]


class FromPaperView(Protocol):
    """What the form can show."""

    def refuse(self, sentence: str) -> None: ...

    def hint(self, name: str, sentence: str) -> None: ...

    def show_busy(self, busy: bool) -> None: ...


class FromPaperPresenter:
    """Asks for what stands on the paper. Nothing is needed but its day, the vehicle, and what it was about."""

    def __init__(self, setting: Setting, view: FromPaperView, done: Callable[[Written], None]) -> None:
        self._setting, self._view, self._done = setting, view, done
        self._keeping = Keeping(setting, view)

    def asks(self) -> Asked:
        book = self._setting.book
        there, unit = phrases(book), shop(book).distance_unit
        people = (Option(one.id, one.name if one.active else f"{one.name} (has left)") for one in all_people(book))
        nobody = Option(NOBODY_KNOWN, "not known, or nobody of the book")
        return Asked(
            (
                Ask("day", "Day on it, like 14.05.2019, 05.2019 or 2019"),
                Ask("number", "Number on it", required=False),
                Ask("done_by", "Done by", "list", (*people, nobody), value=NOBODY_KNOWN),
                Ask("customer", "Customer", required=False),
            ),
            (
                Ask("vin", "VIN", required=False),
                Ask("plate", "Plate", "serial", required=False),
                Ask("make", "Make", required=False),
                Ask("model", "Model", required=False),
                Ask("odometer", "Odometer on it", "number", required=False),
                Ask("odometer_unit", "Counts", "choice", UNITS, value=unit),
            ),
            tuple(
                Ask(name, words, "long text", required=False, phrases=phrases_for(there, name))
                for name, words in (
                    ("concern", "Concern"),
                    ("cause", "What was found"),
                    ("correction", "What was done, with the parts"),
                )
            ),
        )

    def typed(self, vin: str, plate: str, customer: str) -> None:
        """Say beside vehicle and customer whether the book knows them."""
        clean = clean_vin(vin)
        known = known_vehicle(self._setting.book, vin, plate)
        said = AS_IT_IS.format(known.title) if known is not None else ""
        self._view.hint("vin", (said or " ".join(vin_findings(clean))) if clean else "")
        self._view.hint("plate", "" if clean else said)
        self._view.hint("customer", customer_words(self._setting.book, customer, known))

    def keep(self, given: Mapping[str, str]) -> None:
        """Keep the paper in the writing lane; a second press while it is under way does nothing."""
        book, paper = self._setting.book, paper_of(given)
        self._keeping.keep(lambda who: key_in(book, who, paper), self._done)


def paper_of(given: Mapping[str, str]) -> PaperJob:
    """The paper that the answers describe."""
    told = {name: text.strip() for name, text in given.items()}
    vehicle = Vehicle(0, told["vin"], told["plate"], told["make"], told["model"])
    vehicle = replace(vehicle, distance_unit=told["odometer_unit"])
    plain = ("day", "number", "concern", "cause", "correction", "odometer", "odometer_unit")
    by = "" if told["done_by"] == NOBODY_KNOWN else told["done_by"]
    return PaperJob(
        vehicle=vehicle, customer=Customer(0, told["customer"]), done_by=by, **{name: told[name] for name in plain}
    )
