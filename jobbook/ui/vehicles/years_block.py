"""The years of a vehicle, drawn: its heights over the visits, and what it lost standing."""

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.vehicle_charts import Drawn
from jobbook.services.vehicle.vehicle_history import charts
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, TabSheet
from jobbook.ui.places import Place, a_job


def show(book: OpenBook, number: int) -> TabSheet:
    told = charts(book, number)
    return TabSheet(
        (_drawn("Heights over the visits", told.heights), _drawn("Parked loss over the years", told.losses))
    )


def _drawn(title: str, drawn: Drawn) -> Block:
    if drawn.drawing is None:
        return Block(title, nothing=drawn.note)
    return Block(title, (Line(drawn.note),), drawing=drawn.drawing)


def keep(book: OpenBook, who: Person, number: int, deed: Deed, given: Answers) -> str:
    raise Refused("Nothing was kept: heights and stands are kept in a job.")


def place(deed: Deed) -> Place:
    return a_job(int(deed.of))
