"""The demonstration book, built from sample_db through the services, as people would have done it."""

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from shutil import rmtree
from typing import Any

from jobbook.core.errors import Refused
from jobbook.core.people import Person, Shop
from jobbook.core.tools import Tool
from jobbook.core.vehicles import Customer, Vehicle
from jobbook.places import sample
from jobbook.services import desk, papers, people, shop, stands, stores, work
from jobbook.services.alignment import keep_geometry
from jobbook.services.clock import system_chance, system_clock
from jobbook.services.clocks import clock_trouble, confirm_clock
from jobbook.services.demonstration_desk import agree, mark_done
from jobbook.services.intake import Arrival, take_in
from jobbook.services.jobsheet import job_sheet
from jobbook.services.opened import OpenBook, needs_start, start_book
from jobbook.services.release import release
from jobbook.services.sheets import Ask, Card, Choice
from jobbook.services.vehicles import find_by_vin

Script = Mapping[str, Any]
STEP_TIME = timedelta(minutes=3)


@dataclass
class MovedClock:
    """A clock that the script moves on."""

    now: datetime

    def __call__(self) -> datetime:
        return self.now

    def on(self, by: timedelta) -> None:
        self.now += by


@dataclass(frozen=True)
class Built:
    """What was built: the numbers of the jobs, the papers that left, the PIN of everybody."""

    jobs: tuple[int, ...]
    papers: tuple[Path, ...]
    pin: str


@dataclass
class Played:
    """One job while it is played: how many readings and codes of the script are used up."""

    book: OpenBook
    clock: MovedClock
    job: int
    script: Script
    people: Mapping[str, Person]
    used: dict[str, int] = field(default_factory=dict)

    def person(self, role: str) -> Person:
        return self.people[self.script[role]]

    def next(self, name: str) -> Any:
        """The next entry of a list of the script, the last one again when there is none left."""
        entries: Sequence[Any] = self.script[name]
        number = self.used.get(name, 0)
        self.used[name] = number + 1
        return entries[min(number, len(entries) - 1)]


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
            played = _take_in(book, clock, script, staff)
            left += _play(played)
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
    for figure in told["figure"]:
        second = staff[told["second_look_by"]].id
        shop.keep_specification(book, reader, variant=told["variant"], second_look_by=second, **figure)
        clock.on(timedelta(minutes=1))


def _take_in(book: OpenBook, clock: MovedClock, script: Script, staff: Mapping[str, Person]) -> Played:
    known = find_by_vin(book, script["vehicle"]["vin"])
    vehicle = known or Vehicle(0, **script["vehicle"])
    customer = Customer(known.customer_id if known else 0, **script["customer"])
    facts = {key: value for key, value in script["arrival"].items() if key != "concerns"}
    arrival = Arrival(vehicle, customer, concerns=tuple(script["arrival"]["concerns"]), **facts)
    job = take_in(book, staff[script["desk"]], arrival)
    return Played(book, clock, job, script, staff)


def _play(played: Played) -> list[Path]:
    script, clock = played.script, played.clock
    _at_the_desk(played)
    clock.now = datetime.fromisoformat(script.get("work_begins", clock.now.isoformat()))
    method = script["method"]
    technician = played.person("technician")
    clock.on(STEP_TIME)
    work.begin_method(played.book, technician, played.job, method["key"], method["corner"], method["options"])
    _issue(played)
    stop = script.get("stop", {}).get("before", "")
    while (card := _open_card(played)) is not None and (not stop or _does(card) != stop):
        _do_step(played, card)
    if stop:
        return []
    _sign_rest(played)
    _correct_concern(played)
    mark_done(played.book, played.person("technician"), played.job)
    return _release(played)


def _open_card(played: Played) -> Card | None:
    card = job_sheet(played.book, played.job).card
    return card if card is not None and card.step.mark in ("ring", "half") else None


def _does(card: Card) -> str:
    return card.choices[0].act.do if card.choices else card.blocked[0].choice.act.do if card.blocked else ""


def _at_the_desk(played: Played) -> None:
    book, job, clock, script = played.book, played.job, played.clock, played.script
    clerk, technician = played.person("desk"), played.person("technician")
    clock.on(STEP_TIME)
    agree(book, clerk, job, script)
    for told in script.get("stand", ()):
        _stand(played, told)
    for test in script["test"]:
        clock.on(STEP_TIME)
        desk.add_test(book, technician, job, **test)
    cause, confidence = script["concern"]["cause"], script["concern"]["confidence"]
    desk.concern(book, technician, job, 1, cause=cause, confidence=confidence)


def _stand(played: Played, told: Script) -> None:
    """The vehicle is left standing and read again, both at the times of the script."""
    book, technician, job = played.book, played.person("technician"), played.job
    played.clock.now = datetime.fromisoformat(told["begins"])
    begun = stands.begin_stand(book, technician, job, told["begin"])
    played.clock.now = datetime.fromisoformat(told["ends"])
    stands.end_stand(book, technician, job, begun.entry, told["end"])


def _issue(played: Played) -> None:
    issued = played.script["issue"]
    for need in stores.needed(played.book, played.job):
        facts = issued["strut"] if need.kind == "part" else issued["kit"]
        stores.issue(played.book, played.person("technician"), played.job, need.serves, need.needed, **facts)


def _do_step(played: Played, card: Card) -> None:
    played.clock.on(STEP_TIME)
    choice = next((c for c in card.choices if c.main), None)
    if choice is None:
        raise Refused(f"The demonstration stopped at “{card.step.title}”: {' '.join(card.needs)}")
    answers = {ask.name: _answer(played, choice, ask) for ask in choice.asks}
    if "heights" in answers:
        answers.pop("heights")
        told = played.next("heights")
        answers |= {f"heights {corner}": value for corner, value in told["corners"].items()}
        answers["temperature"] = told["temperature"]
    if choice.act.do == "align":
        answers |= _geometry(played)
    if choice.act.what == "fault_codes":
        answers |= played.next("code")
    doer = played.person("checker" if choice.second_person else "technician")
    signer = doer if choice.signs else None
    if choice.signs:
        _sign_rest(played)
    work.keep(played.book, played.person("technician"), played.job, choice, answers, signer=signer)
    if choice.key == "wait-begun":
        played.clock.on(timedelta(minutes=int(choice.act.minutes)))


def _geometry(played: Played) -> Mapping[str, str]:
    """What the sheet has as set; what it has as found is kept before it."""
    told = played.script.get("geometry", {})
    if "found" in told:
        keep_geometry(played.book, played.person("technician"), played.job, "measure", told["found"])
        played.clock.on(STEP_TIME)
    return told.get("set", {})  # type: ignore[no-any-return]


def _answer(played: Played, choice: Choice, ask: Ask) -> str:
    act = choice.act
    if ask.kind == "angles":
        return ""
    if ask.folded:
        return str(played.script["arrival"].get(ask.name, ""))
    if ask.kind == "tool":
        chosen = played.script["tools"][act.on.partition("@")[0]]
        fit = [option.value for option in ask.options if not option.unfit]
        return next(tool for tool in ([chosen] if isinstance(chosen, str) else chosen) if tool in fit)
    if ask.name == "serial":
        return str(played.script["issue"]["strut"]["serial"])
    if ask.name == "plugs":
        return {"plug": "2", "take_off": "1" if act.on.startswith("strut@") else "0", "join": "1"}[act.do]
    if ask.name == "distance":
        return str(played.script["say"]["drive"]) + " km"
    if ask.name == "how" and ask.kind == "text":
        return str(played.script["say"]["take_off"])
    if ask.kind == "choice":
        return ask.value or ask.options[0].value
    said = played.script.get("say", {})
    return str(said.get(act.what or act.do, "")) or ("in order" if ask.required else "")


def _sign_rest(played: Played) -> None:
    """The technician signs the strip-down acts as a group."""
    waiting = [one.act_id for one in job_sheet(played.book, played.job).unsigned if one.grouped]
    if waiting:
        work.sign(played.book, played.person("technician"), played.job, waiting)


def _correct_concern(played: Played) -> None:
    correction = played.script["concern"]["correction"]
    desk.concern(played.book, played.person("technician"), played.job, 1, correction=correction)


def _release(played: Played) -> list[Path]:
    told = played.script["release"]
    played.clock.on(STEP_TIME)
    owner = played.people[told["by"]]
    release(played.book, owner, played.job, told["odometer"], played.script["vehicle"]["distance_unit"])
    played.clock.on(STEP_TIME)
    clerk = played.person("desk")
    issued = [papers.issue(played.book, clerk, played.job, kind) for kind in told["papers"]]
    return [papers.paper_path(played.book, paper) for paper in issued]
