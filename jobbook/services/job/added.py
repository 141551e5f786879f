"""What no begun method names, such as a joint loosened for access: added on the spot, and worked like any other."""

import re
from collections.abc import Mapping
from dataclasses import replace

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.quantities.whole import whole_number
from jobbook.core.work.model import CORNERS, PLACES, Aid, Connector, Joint, Line, Part
from jobbook.services.house.shop import keep_specification
from jobbook.services.job.replay import kept_acts, work_entries
from jobbook.services.measured.torque_at_work import read_fastener
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Option, options_of
from jobbook.services.work import Written, add_thing
from jobbook.services.work.figures import bay_of

YES_NO = (Option("yes", "yes"), Option("no", "no"))

NAMED = (
    Ask("title", "What it is, in a few words"),
    Ask("corner", "At which corner", "choice", options_of(CORNERS), required=False),
)
JOINT = (
    *NAMED,
    Ask("count", "How many fasteners", "number", value="1"),
    Ask("single_use", "Single-use? If you do not know, yes", "choice", YES_NO, value="yes"),
    Ask("safety", "Does it need a second check?", "choice", YES_NO, value="yes"),
    Ask("loaded", "Rubber-bushed: tightened only at ride height?", "choice", YES_NO, value="no"),
    Ask("torque", "Torque, like 50 N·m; empty: by feel", required=False),
    Ask("tolerance", "Tolerance, as given", required=False),
    Ask("fastener", "Thread and grade, like M12x1.5 10.9", required=False),
    Ask("document", "Document of the torque", required=False),
    Ask("edition", "Edition or date", required=False),
)


NEAR = Ask(
    "near_restraints", "Near crash sensors or restraints? If you do not know, yes", "choice", YES_NO, value="yes"
)
PLACE_OPTIONS = options_of(PLACES)
ASKS: Mapping[str, tuple[Ask, ...]] = {
    "joint": JOINT,
    "line": (
        *NAMED,
        Ask("places", "Whose air stands behind it", "pieces", PLACE_OPTIONS),
        Ask("single_use", "With a seal that is single-use? If you do not know, yes", "choice", YES_NO, value="yes"),
    ),
    "part": (
        *NAMED,
        Ask("renewed", "Is it renewed?", "choice", YES_NO),
        Ask("sets_height", "Does it carry a height sensor, or set the height?", "choice", YES_NO),
        NEAR,
    ),
    "connector": (*NAMED, NEAR),
    "aid": NAMED,
}
TITLES: Mapping[str, str] = {
    "joint": "A joint",
    "line": "An air line",
    "part": "A part that comes off",
    "connector": "An electrical connector",
    "aid": "An aid that is put in or under, and must come away",
}


def add_named(book: OpenBook, who: Person, job: int, kind: str, answers: Mapping[str, str]) -> Written:
    """Add a thing of one of the kinds of `ASKS`: it becomes a loose end as soon as it is touched."""
    if kind == "joint":
        return add_joint(book, who, job, answers)
    title, corner = answers["title"].strip(), answers["corner"]
    key = _free_key(title, _known(book, job))
    name, yes = (f"{key}@{corner}" if corner else key), {k for k, v in answers.items() if v == "yes"}
    places = tuple(filter(None, answers.get("places", "").split(",")))
    made: Mapping[str, Line | Part | Connector | Aid] = {
        "line": Line(name, title, places, "seal" if "single_use" in yes else "", corner=corner),
        "part": Part(
            name, title, "renewed" in yes, sets_height="sets_height" in yes,
            near_restraints="near_restraints" in yes, corner=corner,
        ),
        "connector": Connector(name, title, "near_restraints" in yes, corner),
        "aid": Aid(name, title, corner),
    }  # fmt: skip
    return replace(add_thing(book, who, job, made[kind]), words=f"{title} added")


def _known(book: OpenBook, job: int) -> Mapping[str, object]:
    with book.store.read() as reading:
        return bay_of(reading, job, kept_acts(work_entries(reading, job)), book).state.things


def add_joint(book: OpenBook, who: Person, job: int, answers: Mapping[str, str]) -> Written:
    """Add a joint with its torque and where that stands. Without one it is tightened by feel, and the papers say so."""
    title, corner = answers["title"].strip(), answers["corner"]
    count = whole_number(answers["count"], most=40, least=1)
    if count is None:
        raise Refused("The joint was not added: count its fasteners, 1 to 40.")
    with book.store.read() as reading:
        variant = reading.vehicles.get(reading.jobs.get(job).vehicle_id).variant
    key = _free_key(title, _known(book, job))
    torque, bolt = answers["torque"].strip(), read_fastener(answers.get("fastener", ""))
    figure = f"added_{key}" if torque else ""
    if torque:
        _keep_torque(book, who, variant, figure, title, answers)
    thing = Joint(
        f"{key}@{corner}" if corner else key,
        title,
        count,
        bolt[0].name if bolt else "",
        bolt[1] if bolt else "",
        figure=figure,
        single_use=answers["single_use"] != "no",
        pieces=("fastener",) if answers["single_use"] != "no" else (),
        safety=answers["safety"] == "yes",
        loaded=answers["loaded"] == "yes",
        corner=corner,
    )
    return replace(add_thing(book, who, job, thing), words=f"{title} added")


def _free_key(title: str, known: Mapping[str, object]) -> str:
    key = re.sub(r"[^a-z0-9]+", "_", title.casefold()).strip("_") or "thing"
    taken = {name.partition("@")[0] for name in known}
    return next(k for k in (key, *(f"{key}_{n}" for n in range(2, 1000))) if k not in taken)


def _keep_torque(
    book: OpenBook, who: Person, variant: str, figure: str, title: str, answers: Mapping[str, str]
) -> None:
    if not variant:
        raise Refused("The joint was not added: a torque is kept for a variant, and this vehicle has none yet.")
    keep_specification(
        book,
        who,
        variant=variant,
        key=figure,
        kind="torque",
        title=title,
        text=answers["torque"],
        document=answers["document"],
        edition=answers["edition"],
        tolerance=answers["tolerance"],
        fastener=answers.get("fastener", ""),
        confirmed=bool(answers.get("confirmed")),
    )
