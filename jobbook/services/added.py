"""Joints that no begun method names: loosened for access, say. They are added on the spot and worked like any other."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.work.begin import propose
from jobbook.core.work.model import CORNERS, Act, Joint
from jobbook.core.work.reading import Step
from jobbook.core.work.state import State
from jobbook.services.bay import Bay
from jobbook.services.choices import choices, judged
from jobbook.services.joint_rows import joint_rows, source
from jobbook.services.opened import OpenBook
from jobbook.services.people import all_people
from jobbook.services.replay import Kept, kept_acts, work_entries
from jobbook.services.sheet_work import act_note
from jobbook.services.sheets import Ask, BegunMethod, Blocked, Card, Choice, Done, JobSheet, Option, StepRow
from jobbook.services.shelf import on_the_shelf
from jobbook.services.shop import keep_specification
from jobbook.services.torque_at_work import read_fastener
from jobbook.services.work import Written, add_thing
from jobbook.services.work.figures import bay_of

BEGUN = -1  # where a method has its number on the job
# What may come next at a joint, the likeliest first; the key stands where it is not the main one.
NEXT: Mapping[str, tuple[str, ...]] = {
    "untouched": ("loosen", "take_out"),
    "loosened": ("tighten", "take_out", "start"),
    "out": ("start",),
    "started": ("tighten", "take_out"),
    "part-tightened": ("tighten",),
    "tightened": ("second_check", "loosen"),
    "checked": ("loosen",),
}
KEYS = {"loosen": "L", "take_out": "O", "start": "S", "tighten": "T", "second_check": "C"}
MARKS = {"untouched": "ring", "tightened": "disc", "checked": "double"}
YES_NO = (Option("yes", "yes"), Option("no", "no"))

ADD = (
    Ask("title", "What it is, in a few words"),
    Ask("corner", "At which corner", "choice", tuple(Option(corner, corner) for corner in CORNERS), required=False),
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


def add_joint(book: OpenBook, who: Person, job: int, answers: Mapping[str, str]) -> Written:
    """Add a joint with its torque and where that stands. Without one it is tightened by feel, and the papers say so."""
    title, corner = answers["title"].strip(), answers["corner"]
    count = answers["count"].strip()
    if not count.isascii() or not count.isdigit() or not 1 <= int(count) <= 40:
        raise Refused("The joint was not added: count its fasteners, 1 to 40.")
    with book.store.read() as reading:
        variant = reading.vehicles.get(reading.jobs.get(job).vehicle_id).variant
        known = bay_of(reading, job, kept_acts(work_entries(reading, job)), book).state.things
    key = _free_key(title, corner, known)
    torque, bolt = answers["torque"].strip(), read_fastener(answers.get("fastener", ""))
    figure = f"added_{key}" if torque else ""
    if torque:
        _keep_torque(book, who, variant, figure, title, answers)
    thing = Joint(
        f"{key}@{corner}" if corner else key,
        title,
        int(count),
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


def _free_key(title: str, corner: str, known: Mapping[str, object]) -> str:
    key = re.sub(r"[^a-z0-9]+", "_", title.casefold()).strip("_") or "joint"
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


def with_added(book: OpenBook, sheet: JobSheet, open_step: tuple[int, int] | None, who: str) -> JobSheet:
    """The sheet with the added joints as lines after the methods' steps, and the open one of them as its card."""
    with book.store.read() as reading:
        kept = kept_acts(work_entries(reading, sheet.number))
        joints = [thing for k in kept if k.act.do == "declare" for thing in k.act.things if isinstance(thing, Joint)]
        if not joints:
            return sheet
        bay = bay_of(reading, sheet.number, kept, book)
    rows = tuple(_row(bay.state, number, joint, kept) for number, joint in enumerate(joints, 1))
    opened = next((row for row in rows if (row.begun, row.number) == open_step), None)
    card = _card(book, bay, opened, joints[opened.number - 1], kept, who) if opened is not None else sheet.card
    methods = (*sheet.methods, BegunMethod(BEGUN, "Added on the spot", ""))
    return replace(sheet, steps=(*sheet.steps, *rows), methods=methods, card=card)


def _row(state: State, number: int, joint: Joint, kept: Sequence[Kept]) -> StepRow:
    word = state.joints[joint.name].word
    last = next((k.act.at for k in reversed(kept) if k.act.on == joint.name), "")
    return StepRow(BEGUN, number, joint.title, joint.corner, MARKS.get(word, "half"), word, last)


def _card(book: OpenBook, bay: Bay, row: StepRow, joint: Joint, kept: Sequence[Kept], who: str) -> Card:
    names = {person.id: person.name for person in all_people(book)}
    offered = _offered(bay, joint)
    said = [(choice, judged(choice, bay.state, who)) for choice in offered]
    blocked = tuple(one for _, one in said if one is not None)
    return Card(
        row,
        "Not named by the method: kept as a loose end like any other until it is closed.",
        "",
        joint_rows(bay.state, joint.name, kept, names),
        tuple(
            filter(None, (source(bay.state, joint.figure, names), on_the_shelf(bay, _act("tighten", joint, bay.state))))
        ),
        tuple(choice for choice, one in said if one is None),
        _needs(blocked, offered),
        blocked=blocked,
        done=tuple(_done(k, names) for k in kept if k.act.on == joint.name and k.act.do != "issue"),
    )


def _needs(blocked: Sequence[Blocked], offered: Sequence[Choice]) -> tuple[str, ...]:
    """Why the likeliest act is refused; that a less likely one is goes without saying."""
    first = [one for one in blocked if offered and one.choice == offered[0]]
    return tuple(dict.fromkeys(refusal.sentence for one in first for refusal in one.refusals))


def _offered(bay: Bay, joint: Joint) -> tuple[Choice, ...]:
    likely = [do for do in NEXT[bay.state.joints[joint.name].word] if do != "second_check" or joint.safety]
    made: list[Choice] = []
    for place, do in enumerate(likely):
        for choice in choices(_act(do, joint, bay.state), bay):
            if choice.main and place:
                choice = replace(choice, key=do, main=False, shortcut=KEYS[do])
            made.append(choice)
    return tuple(made)


def _act(do: str, joint: Joint, state: State) -> Act:
    key = joint.name.partition("@")[0]
    return replace(propose(Step(0, do, key), joint.corner, state), corner="")


def _done(kept: Kept, names: Mapping[str, str]) -> Done:
    act = kept.act
    words = act_note(act) or act.do.replace("_", " ")
    return Done(kept.entry.number, kept.entry.act, words, names.get(act.by, act.by), act.at, kept.signed)
