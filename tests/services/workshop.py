"""The invented workshop of the tests, with a moved clock, and one strut job that is played step by step."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from shutil import copytree

from jobbook.core.jobs import Permission
from jobbook.core.people import Person, Shop
from jobbook.core.record.journal import Entry
from jobbook.core.tools import Tool
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.core.work.model import Act
from jobbook.core.work.rules import refusals
from jobbook.services import work
from jobbook.services.demonstration import MovedClock
from jobbook.services.house import people, shop
from jobbook.services.job import stores
from jobbook.services.job.methods import running_methods
from jobbook.services.job.replay import kept_acts, work_entries
from jobbook.services.office import desk
from jobbook.services.office.intake import Arrival, take_in
from jobbook.services.opened import OpenBook, open_book, start_book
from jobbook.services.sheet.jobsheet import job_sheet
from jobbook.services.sheet.sheets import Ask, Card, Choice, JobSheet
from jobbook.services.work.figures import bay_of

MORNING = datetime.fromisoformat("2026-11-25T08:00:00+01:00")
PIN = "2468"
VARIANT = "Varnholt estate 2019, air in front"
VIN = "A09VH2AT4KB204117"
METHOD, CORNER = "front-air-strut-renew-one-corner", "FL"
OPTIONS = {"link_on_strut": True, "keeps_pressure": False, "battery_off": False}
SHOP = Shop("Saltmarsh Lane Suspension", "4 Saltmarsh Lane", "Quillhaven 5520", warranty_text="12 months.")
TOOLS = (
    Tool("TW-02", "click wrench", "2", "10", "N·m", "2026-06-02", "2027-06-02", "QC-26-0611"),
    Tool("TW-04", "click wrench", "10", "60", "N·m", "2026-06-02", "2027-06-02", "QC-26-0612"),
    Tool("TW-07", "click wrench", "20", "100", "N·m", "2026-03-14", "2027-03-14", "QC-26-0307"),
    Tool("TW-09", "click wrench", "40", "200", "N·m", "2026-03-14", "2027-03-14", "QC-26-0308"),
    Tool("EW-01", "electronic wrench", "20", "100", "N·m", "2026-03-14", "2027-03-14", "QC-26-0310"),
    Tool("AG-01", "angle gauge", "0", "360", "°", "2026-03-14", "2027-03-14", "QC-26-0309"),
    Tool("SR-01", "rule or tape", "0", "1000", "mm"),
)
TORQUES = {
    "wheel_torque": ("140 N·m", "± 5 %"),
    "front_strut_lower_torque": ("70 N·m, then +90°", "± 5 %"),
    "front_strut_top_torque": ("35 N·m", "± 10 %"),
    "front_link_torque": ("65 N·m", "± 10 %"),
    "front_sensor_link_torque": ("9 N·m", "± 10 %"),
    "front_line_nut_torque": ("4 N·m", "± 10 %"),
}
LENGTHS = {"front_ride_height": "402 mm", "height FL": "402 mm", "height FR": "402 mm"}
SHEET = {"document": "maker's sheet VH-SUS-12", "edition": "3, 2024"}
ANSWERS = {"distance": "7 km", "serial": "7H-20611", "temperature": "12 °C", "module": "Level control"}
GEOMETRY = {"camber": "−0°45′", "caster": "6°30′", "inclination": "12°00′", "toe": "0°10′"}
VEHICLE = Vehicle(0, VIN, "KX-07-ALD", "Varnholt", "estate", "2019", VARIANT, "front")
CUSTOMER = Customer(0, "Ansel Harrow", "11 Ropewalk", "Quillhaven 0147")
ARRIVAL = Arrival(VEHICLE, CUSTOMER, "128 410", ("Front left is down in the morning.",))
REPAIR = Permission("repair", "Ansel Harrow", "signed", MORNING.isoformat(), "", "Renew the strut FL", total="1480.00")


@dataclass
class Workshop:
    """An open book with its people. `job` is the one that is played; 0 while there is none."""

    book: OpenBook
    clock: MovedClock
    imke: Person
    bram: Person
    nadia: Person
    jonas: Person
    job: int = 0
    others: list[OpenBook] = field(default_factory=list)

    def sheet(self, step: int | None = None) -> JobSheet:
        return job_sheet(self.book, self.job, None if step is None else (0, step), self.bram.id)

    def card(self, step: int | None = None) -> Card:
        card = self.sheet(step).card
        assert card is not None, "no step is open"
        return card

    def choice(self, key: str = "main", step: int | None = None) -> Choice:
        card = self.card(step)
        offered = {choice.key: choice for choice in card.choices}
        assert key in offered, f"{card.step.title}: {sorted(offered)} are offered; it needs {card.needs}"
        return offered[key]

    def blocked(self, key: str = "main", step: int | None = None) -> Choice:
        """A choice that the rules refuse now."""
        return next(one.choice for one in self.card(step).blocked if one.choice.key == key)

    def do(self, key: str = "main", *, by: Person | None = None, step: int | None = None, **given: str) -> work.Written:
        """Make a choice of the open step as a person would; what is not given is answered as usual."""
        self.clock.on(timedelta(minutes=1))
        choice = self.choice(key, step)
        doer = by or (self.nadia if choice.second_person else self.bram)
        signer = doer if choice.signs else None
        return work.keep(self.book, doer, self.job, choice, usual(choice) | given, signer=signer)

    def play(self, until: tuple[str, str] | None) -> None:
        """Do every step in its order, until the one that does this to that, or until none is left."""
        while (card := self.sheet().card) is not None and card.step.mark in ("ring", "half"):
            offered = [*card.choices, *(one.choice for one in card.blocked)]
            act = next(choice.act for choice in offered if choice.main)
            if (act.do, act.on.partition("@")[0]) == until:
                break
            choice = next((one for one in card.choices if one.main), None)
            assert choice is not None, f"{card.step.title} needs {card.needs}"
            if choice.signs:
                self.sign()
            self.do(choice.key)
            if choice.key == "wait-begun":
                self.clock.now = datetime.fromisoformat(self.card().waits_until)
        self.sign()

    def step_of(self, do: str, key: str, place: int = 0) -> int:
        """The number of the step that does this to that; the first one, or a later one."""
        with self.book.store.read() as reading:
            (run,) = running_methods(reading, kept_acts(work_entries(reading, self.job)))
        return [step.number for step in run.steps if (step.do, step.key) == (do, key)][place]

    def sign(self) -> None:
        """Bram signs what he may sign as a group."""
        waiting = [one.act_id for one in self.sheet().unsigned if one.grouped]
        if waiting:
            work.sign(self.book, self.bram, self.job, waiting)

    def bars(self, step: int | None = None) -> set[str]:
        """The rules that refuse something of the open step."""
        return {refusal.rule for one in self.card(step).blocked for refusal in one.refusals}

    def rules_against(self, do: str, on: str) -> set[str]:
        """The rules that would refuse this now."""
        with self.book.store.read() as reading:
            state = bay_of(reading, self.job, kept_acts(work_entries(reading, self.job)), self.book).state
        return {refusal.rule for refusal in refusals(state, Act(do, on=on, by=self.bram.id))}

    def rules(self) -> set[str]:
        """The rules that find something loose."""
        sheet = self.sheet()
        return {end.rule for end in (*sheet.loose_now, *sheet.still_to_do)}

    def journal(self, kind: str) -> list[Entry]:
        """The entries of the job of one kind."""
        with self.book.store.read() as reading:
            return reading.journal.entries(job=self.job, kind=kind)

    def open_again(self) -> None:
        """Close the program and open it again."""
        self.book.close()
        self.book = open_book(self.book.folder, clock=self.clock)

    def another(self) -> OpenBook:
        """The same book in a second program."""
        self.others.append(open_book(self.book.folder, clock=self.clock))
        return self.others[-1]

    def close(self) -> None:
        for book in (self.book, *self.others):
            book.close()


def usual(choice: Choice) -> dict[str, str]:
    """What people would answer, where a test does not care."""
    told: dict[str, str] = {}
    for ask in choice.asks:
        if ask.kind == "heights":
            told |= {"heights FL": "401", "heights FR": "400", "heights RL": "396", "heights RR": "397"}
        elif ask.kind == "angles":
            told |= {f"{ask.name} {wheel.value}": GEOMETRY[ask.name] for wheel in ask.options}
        elif ask.name == "plugs":
            told["plugs"] = _plugs(choice.act)
        else:
            told[ask.name] = _answer(ask)
    return told


def _plugs(act: Act) -> str:
    """Two plugs go in, one into the line and one into the port of the old strut; the one in the port leaves with it."""
    return {"plug": "2", "join": "1"}.get(act.do, "1" if act.on.startswith("strut@") else "0")


def _answer(ask: Ask) -> str:
    if ask.kind == "tool":
        return next(option.value for option in ask.options if not option.unfit)
    if ask.options:
        return ask.value or ask.options[0].value
    return ANSWERS.get(ask.name, ask.value or ("in order" if ask.required else ""))


def begin(folder: Path) -> Workshop:
    """A new book with its people, tools and figures."""
    clock = MovedClock(MORNING)
    book, imke = start_book(folder, SHOP, "Imke Tolland", PIN, clock=clock)
    add = [("Bram Ferro", "work check"), ("Nadia Oyelaran-Pike", "work check specifications"), ("Jonas Wexley", "desk")]
    bram, nadia, jonas = (
        people.add_person(book, imke, name, frozenset(may.split()), PIN, f"BADGE-{name}") for name, may in add
    )
    for tool in TOOLS:
        shop.keep_tool(book, imke, tool)
    for key, (text, tolerance) in TORQUES.items():
        figure = {"key": key, "kind": "torque", "title": key, "text": text, "tolerance": tolerance}
        shop.keep_specification(book, imke, variant=VARIANT, **figure, **SHEET)
    for key, text in LENGTHS.items():
        figure = {"key": key, "kind": "length", "title": key, "text": text, "tolerance": "± 10 mm"}
        shop.keep_specification(book, imke, variant=VARIANT, **figure, **SHEET)
    return Workshop(book, clock, imke, bram, nadia, jonas)


def taken_in(there: Workshop) -> None:
    there.job = take_in(there.book, there.jonas, ARRIVAL)


def begun(there: Workshop) -> None:
    """The repair is allowed and the method begun; nothing is issued yet."""
    desk.give_permission(there.book, there.jonas, there.job, REPAIR)
    work.begin_method(there.book, there.bram, there.job, METHOD, CORNER, OPTIONS)


STRUT: Mapping[str, str] = {"number": "AS-4471-L", "serial": "7H-20611", "supplier": "Quillhaven Spring Supply"}
KIT: Mapping[str, str] = {"number": "4471-K", "batch": "26-11"}


def kitted(there: Workshop) -> None:
    """The strut and the whole kit are issued."""
    for need in stores.needed(there.book, there.job):
        stores.issue(
            there.book, there.bram, there.job, need.serves, need.needed, **(STRUT if need.kind == "part" else KIT)
        )


# The places at which a played job can be taken up: its name, and the step before which it waits.
PLACES: tuple[tuple[str, tuple[str, str] | None], ...] = (
    ("vent", ("vent", "")),
    ("put on", ("put_on", "strut")),
    ("top nuts", ("tighten", "strut_top_nuts")),
    ("join", ("join", "strut_line")),
    ("wait", ("wait", "")),
    ("lower bolt", ("tighten", "strut_lower_bolt")),
    ("drive", ("drive", "")),
    ("done", None),
)


@dataclass(frozen=True)
class Kept:
    """A closed copy of the book at one place of the job, and what the clock showed then."""

    folder: Path
    now: datetime
    job: int


class Played:
    """One job played once for all tests: the book is copied at each place, closed."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._kept: dict[str, Kept] = {}
        self._there: Workshop | None = None

    def at(self, place: str, folder: Path) -> Workshop:
        """A copy of the book as it is at that place, opened."""
        there = self._play_to(place)
        kept = self._kept[place]
        clock = MovedClock(kept.now)
        book = open_book(copytree(kept.folder, folder / "book"), clock=clock)
        return Workshop(book, clock, there.imke, there.bram, there.nadia, there.jonas, kept.job)

    def _play_to(self, place: str) -> Workshop:
        if self._there is None:
            self._there = begin(self._folder / "playing")
            self._keep("shop", self._there)
        firsts = {"taken in": taken_in, "begun": begun, "kitted": kitted}
        stops = dict(PLACES)
        waiting = [name for name in (*firsts, *stops) if name not in self._kept]
        for name in waiting if place not in self._kept else ():
            self._there.book = open_book(self._folder / "playing", clock=self._there.clock)
            firsts[name](self._there) if name in firsts else self._there.play(stops[name])
            self._keep(name, self._there)
            if name == place:
                break
        return self._there

    def _keep(self, name: str, there: Workshop) -> None:
        there.book.close()
        copy = copytree(self._folder / "playing", self._folder / name)
        self._kept[name] = Kept(copy, there.clock.now, there.job)
