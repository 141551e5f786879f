"""Opening a vehicle that was here very often, beside the same rows by plain sqlite3."""

import sqlite3
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

from jobbook.core.record.journal import Draft
from jobbook.db.history import DECLINED, HEIGHTS, TESTS
from jobbook.db.jobs import NEWEST_FIRST, ROW
from jobbook.db.part_lives import OF_VEHICLE
from jobbook.db.store import WritingBook
from jobbook.services.clock import system_chance
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.vehicle_history import charts, history
from jobbook.services.vehicle.vehicles import vehicle as vehicle_sheet
from tests.bench.timing import Measured, Sizes, by_turns
from tests.db.building import PERSON, customer, new_book, shop, vehicle

START = datetime(2018, 1, 8, 8, 0, tzinfo=UTC)
ACTS_A_VISIT = 40
FITS_EVERY, STANDS_EVERY = 10, 4
CORNERS = ("FL", "FR", "RL", "RR")


def visiting(folder: Path, sizes: Sizes) -> Iterator[Measured]:
    """The facts of the vehicle with its visits, then its parts, joiners and declined work, then its years drawn."""
    store = new_book(folder / "visits")
    with store.write(PERSON) as tx:
        shop(tx)
        number = vehicle(tx, customer(tx))
        for visit in range(sizes.visits):
            keep_visit(tx, number, visit)
    book = OpenBook(store, lambda: datetime.now(UTC), system_chance)
    plain = plain_rows(store.file, number)
    beside = "the same rows by plain sqlite3"
    many = f"of {sizes.visits} visits"
    for what, deed in (
        (f"a vehicle {many}, its facts and visits", lambda: vehicle_sheet(book, number)),
        (f"a vehicle {many}, its parts and what was declined", lambda: history(book, number)),
        (f"a vehicle {many}, its years drawn", lambda: charts(book, number)),
    ):
        yield Measured(what, *by_turns(deed, plain, sizes.times), beside)
    store.close()


def keep_visit(tx: WritingBook, number: int, visit: int) -> None:
    """One visit: arrival, odometer, heights as it came and as it left, acts between, at times a part and a stand."""
    job = tx.next_job_number()

    def keep(kind: str, hour: int, /, **facts: object) -> int:
        at = (START + timedelta(days=visit * 15, hours=hour)).isoformat()
        return tx.keep(Draft(kind, f"job/{job}", {"job": job} | facts, job=job, done_at=at)).number

    keep("job-opened/1", 0, vehicle=number, customer=1)
    keep("odometer/1", 0, vehicle=number, value=10_000 + visit * 600, unit="km", what="in", note="")
    heights = [[corner, str(395 + (visit * 7 + place) % 12)] for place, corner in enumerate(CORNERS)]
    keep("act/1", 1, act={"do": "measure", "what": "heights", "readings": heights, "how": "SR-01"})
    for act in range(ACTS_A_VISIT):
        keep("act/1", 2, act={"do": "loosen", "on": f"bolt_{act}@FL", "how": "by hand", "text": "as the method says"})
    if visit % FITS_EVERY == 0:
        told = {"serves": f"strut@{CORNERS[visit % 4]}", "title": "Air strut", "kind": "part", "count": 1}
        piece = keep("issued/1", 3, **told, number="A-1", serial=f"S{visit}", warranty_months="24")
        keep("piece-state/1", 3, piece=str(piece), state="fitted", reason="")
    if visit % STANDS_EVERY == 0:
        same = dict.fromkeys(CORNERS, "400")
        begun = {"heights": same, "typed": same, "ignition": "off", "levelling": "asleep", "doors": "shut"}
        stand = keep("stand-begun/1", 4, **begun)
        found = same | {"FL": str(399 - visit % 9)}
        keep("stand-ended/1", 17, stand=stand, heights=found, typed=found, woken="no", door="no", codes="no")
    keep("act/1", 18, act={"do": "measure", "what": "heights", "readings": heights, "how": "SR-01"})
    keep("released/1", 19, restriction="", let_go=[])


def plain_rows(file: Path | None, number: int) -> Callable[[], object]:
    """The rows of all that is shown, by plain sqlite3, as tuples."""
    connection = sqlite3.connect(str(file))
    stands = """SELECT j.body FROM job v CROSS JOIN journal j WHERE v.vehicle = :vehicle AND j.job = v.number
        AND j.kind IN ('stand-begun/1', 'stand-ended/1', 'declined/1', 'line-joiner/1') ORDER BY j.number"""
    asked = (
        f"{ROW} WHERE j.vehicle = :vehicle {NEWEST_FIRST}",
        "SELECT * FROM odometer WHERE vehicle = :vehicle ORDER BY entry DESC",
        *(HEIGHTS, DECLINED, TESTS, OF_VEHICLE, stands),
    )
    return lambda: [connection.execute(sql, {"vehicle": number}).fetchall() for sql in asked]
