"""Building the demonstration book: the shop, its people and figures, then one job after another."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from shutil import rmtree
from typing import Any

from jobbook.core.errors import Refused
from jobbook.core.people import Person, Shop
from jobbook.core.tools import Tool
from jobbook.core.vehicle.odometers import Reset
from jobbook.core.vehicle.variants import Variant
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.places import sample
from jobbook.services.clock import system_chance, system_clock
from jobbook.services.demonstration.owning import keep_owners
from jobbook.services.demonstration.played import MovedClock, Played, Script
from jobbook.services.demonstration.playing import play
from jobbook.services.house import people, shop
from jobbook.services.house.clocks import clock_trouble, confirm_clock
from jobbook.services.jobs import jobs as listed
from jobbook.services.office import paper_jobs
from jobbook.services.office.intake import Arrival, take_in
from jobbook.services.office.paper_jobs import PaperJob
from jobbook.services.opened import OpenBook, needs_start, start_book
from jobbook.services.vehicle.variants import keep_variant, second_look
from jobbook.services.vehicle.vehicles import find_by_vin


@dataclass(frozen=True)
class Built:
    """What was built: the numbers of the jobs, the papers that left, the PIN of everybody."""

    jobs: tuple[int, ...]
    papers: tuple[Path, ...]
    pin: str


def build(place: str | Path) -> Built:
    """Build the demonstration book in a folder, or at a server's address, where there is no book yet.

    What was built of it in a new or an empty folder is taken away again where it cannot be finished."""
    if not needs_start(place):
        raise Refused(f"There is a book in {place} already; nothing was built. Name another folder.")
    ours = None if "://" in str(place) or _holds_something(Path(place)) else Path(place)
    try:
        return _built(place)
    except BaseException:
        if ours is not None:
            rmtree(ours, ignore_errors=True)
        raise


def _holds_something(folder: Path) -> bool:
    return folder.exists() and (not folder.is_dir() or any(folder.iterdir()))


def _built(place: str | Path) -> Built:
    told = _read("shop.toml")
    scripts = [_read(f"jobs/{file.name}") for file in sorted((sample() / "jobs").glob("*.toml"))]
    clock = MovedClock(datetime.fromisoformat(scripts[0]["begins"]) - timedelta(hours=1))
    facts = {key: value for key, value in told["shop"].items() if key != "pin"}
    pin, first = told["shop"]["pin"], told["person"][0]["name"]
    book, owner = start_book(place, Shop(**facts), first, pin, clock=clock, chance=system_chance)
    try:
        staff = _staff(book, owner, told, pin)
        _specifications(book, staff, clock)
        jobs, left = [], []
        for script in scripts:
            clock.now = datetime.fromisoformat(script["begins"])
            if "paper" in script:
                jobs.append(_key_in(book, script, staff))
                continue
            played = _take_in(book, clock, script, staff)
            left += play(played)
            jobs.append(played.job)
        _go_on_today(book, owner, clock)
        return Built(tuple(jobs), tuple(left), pin)
    finally:
        book.close()


def _go_on_today(book: OpenBook, owner: Person, clock: MovedClock) -> None:
    """On a machine whose today lies before the invented days, the book goes on from that today all the same."""
    clock.now, ended = system_clock(), clock.now
    if clock_trouble(book):
        confirm_clock(book, owner, "The days of the demonstration are invented.")
    clock.now = ended


def _read(name: str) -> dict[str, Any]:
    return tomllib.loads((sample() / name).read_text(encoding="utf-8"))


def _staff(book: OpenBook, owner: Person, told: Script, pin: str) -> dict[str, Person]:
    staff = {owner.name: owner}
    for one in told["person"][1:]:
        staff[one["name"]] = people.add_person(book, owner, one["name"], frozenset(one["permissions"]), pin)
    for tool in told["tool"]:
        shop.keep_tool(book, owner, Tool(**tool))
    return staff


def _specifications(book: OpenBook, staff: Mapping[str, Person], clock: MovedClock) -> None:
    told = _read("specifications.toml")
    reader = staff[told["read_by"]]
    for known in told["known"]:
        keep_variant(book, reader, Variant(**known | {"codes": tuple(known["codes"])}))
    for figure in told["other"]:
        shop.keep_specification(book, reader, **figure)
    for figure in told["figure"]:
        kept = shop.keep_specification(book, reader, variant=told["variant"], **figure)
        second_look(book, staff[told["second_look_by"]], kept)
        clock.on(timedelta(minutes=1))


def _key_in(book: OpenBook, script: Script, staff: Mapping[str, Person]) -> int:
    """An old job as its paper has it."""
    vehicle, customer = Vehicle(0, **script["vehicle"]), Customer(0, **script["customer"])
    clerk = staff[script["desk"]]
    paper_jobs.key_in(book, clerk, PaperJob(vehicle=vehicle, customer=customer, **script["paper"]))
    keep_owners(book, clerk, script)
    return listed(book, limit=1, text=script["vehicle"]["plate"]).rows[0].number


def _take_in(book: OpenBook, clock: MovedClock, script: Script, staff: Mapping[str, Person]) -> Played:
    known = find_by_vin(book, script["vehicle"]["vin"])
    vehicle = known or Vehicle(0, **script["vehicle"])
    customer = Customer(known.customer_id if known else 0, **script["customer"])
    facts = {key: value for key, value in script["arrival"].items() if key != "concerns"}
    facts["reset"] = Reset(**facts.get("reset", {}))
    keep_owners(book, staff[script["desk"]], script)
    arrival = Arrival(vehicle, customer, concerns=tuple(script["arrival"]["concerns"]), **facts)
    job = take_in(book, staff[script["desk"]], arrival)
    return Played(book, clock, job, script, staff)
