"""What was added on the spot, on the job's sheet: lines after the methods' steps, and the open one as its card."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from jobbook.core.work.begin import propose
from jobbook.core.work.model import Act, Aid, Connector, Joint, Line, Part, Thing
from jobbook.core.work.reading import Step
from jobbook.core.work.state import State
from jobbook.services.house.people import all_people
from jobbook.services.job.replay import Kept, kept_acts, work_entries
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.bay import Bay
from jobbook.services.sheet.choices import choices, judged
from jobbook.services.sheet.joint_rows import joint_rows, source
from jobbook.services.sheet.sheet_work import act_note
from jobbook.services.sheet.sheets import BegunMethod, Blocked, Card, Choice, Done, JobSheet, StepRow
from jobbook.services.sheet.shelf import on_the_shelf
from jobbook.services.work.figures import bay_of

BEGUN = -1  # where a method has its number on the job
# What may come next at a thing as it stands, the likeliest first; the key stands where it is not the main one.
NEXT: Mapping[type, Mapping[str, tuple[str, ...]]] = {
    Joint: {
        "untouched": ("loosen", "take_out"),
        "loosened": ("tighten", "take_out", "start"),
        "out": ("start",),
        "started": ("tighten", "take_out"),
        "part-tightened": ("tighten",),
        "tightened": ("second_check", "loosen"),
        "checked": ("loosen",),
    },
    Line: {
        "connected": ("open",),
        "open": ("plug", "join"),
        "plugged": ("join",),
        "joined": ("prove", "open"),
        "proved": ("open",),
    },
    Part: {"on": ("take_off",), "renewed": ("take_off",), "off": ("put_on",)},
    Connector: {"in": ("unplug",), "out": ("plug_in",)},
    Aid: {"away": ("place",), "placed": ("clear",)},
}
KEYS = {
    "loosen": "L", "take_out": "O", "start": "S", "tighten": "T", "second_check": "C", "open": "O", "join": "J",
}  # fmt: skip
CLOSED = {"tightened": "disc", "checked": "double", "proved": "disc"}
UNTOUCHED = ("untouched", "connected", "away")


def with_added(book: OpenBook, sheet: JobSheet, open_step: tuple[int, int] | None, who: str) -> JobSheet:
    """The sheet with the added things as lines after the methods' steps, and the open one of them as its card."""
    with book.store.read() as reading:
        kept = kept_acts(work_entries(reading, sheet.number))
        things = [thing for k in kept if k.act.do == "declare" for thing in k.act.things]
        if not things:
            return sheet
        bay = bay_of(reading, sheet.number, kept, book)
    rows = tuple(_row(bay.state, number, thing, kept) for number, thing in enumerate(things, 1))
    opened = next((row for row in rows if (row.begun, row.number) == open_step), None)
    card = _card(book, bay, opened, things[opened.number - 1], kept, who) if opened is not None else sheet.card
    methods = (*sheet.methods, BegunMethod(BEGUN, "Added on the spot", ""))
    return replace(sheet, steps=(*sheet.steps, *rows), methods=methods, card=card)


def _row(state: State, number: int, thing: Thing, kept: Sequence[Kept]) -> StepRow:
    word = word_of(state, thing)
    acts = [k for k in kept if k.act.on == thing.name and k.act.do != "issue"]
    last = acts[-1].act.at if acts else ""
    return StepRow(BEGUN, number, thing.title, thing.corner, _mark(word, bool(acts)), word, last)


def _mark(word: str, touched: bool) -> str:
    """A ring for what nobody touched, a disc for what is closed again, and half a disc in between."""
    if word in CLOSED:
        return CLOSED[word]
    if word in UNTOUCHED or word in ("on", "in"):
        return "disc" if touched else "ring"
    return "disc" if word == "renewed" else "half"


def word_of(state: State, thing: Thing) -> str:
    """How a thing stands, in a word of the rules."""
    if isinstance(thing, Joint):
        return state.joints[thing.name].word
    if isinstance(thing, Line):
        return state.lines[thing.name].word
    words = {Part: state.parts, Connector: state.connectors, Aid: state.aids}[type(thing)]
    return words[thing.name]


def _card(book: OpenBook, bay: Bay, row: StepRow, thing: Thing, kept: Sequence[Kept], who: str) -> Card:
    names = {person.id: person.name for person in all_people(book)}
    offered = _offered(bay, thing)
    said = [(choice, judged(choice, bay.state, who)) for choice in offered]
    blocked = tuple(one for _, one in said if one is not None)
    return Card(
        row,
        "Not named by the method: kept as a loose end like any other until it is closed.",
        "",
        joint_rows(bay.state, thing.name, kept, names),
        _sources(bay, thing, names),
        tuple(choice for choice, one in said if one is None),
        _needs(blocked, offered),
        blocked=blocked,
        done=tuple(_done(k, names) for k in kept if k.act.on == thing.name and k.act.do != "issue"),
    )


def _sources(bay: Bay, thing: Thing, names: Mapping[str, str]) -> tuple[str, ...]:
    """Where the torque of a joint stands, and which tools of the shelf can do it."""
    if not isinstance(thing, Joint):
        return ()
    said = (source(bay.state, thing.figure, names), on_the_shelf(bay, _act("tighten", thing, bay.state)))
    return tuple(filter(None, said))


def _needs(blocked: Sequence[Blocked], offered: Sequence[Choice]) -> tuple[str, ...]:
    """Why the likeliest act is refused; that a less likely one is goes without saying."""
    first = [one for one in blocked if offered and one.choice == offered[0]]
    return tuple(dict.fromkeys(refusal.sentence for one in first for refusal in one.refusals))


def _offered(bay: Bay, thing: Thing) -> tuple[Choice, ...]:
    unchecked = isinstance(thing, Joint) and not thing.safety
    likely = [do for do in NEXT[type(thing)][word_of(bay.state, thing)] if not (do == "second_check" and unchecked)]
    made: list[Choice] = []
    for place, do in enumerate(likely):
        for choice in choices(_act(do, thing, bay.state), bay):
            if choice.main and place:
                choice = replace(choice, key=do, main=False, shortcut=KEYS[do])
            made.append(choice)
    return tuple(made)


def _act(do: str, thing: Thing, state: State) -> Act:
    key = thing.name.partition("@")[0]
    return replace(propose(Step(0, do, key), thing.corner, state), corner="")


def _done(kept: Kept, names: Mapping[str, str]) -> Done:
    act = kept.act
    words = act_note(act) or act.do.replace("_", " ")
    return Done(kept.entry.number, kept.entry.act, words, names.get(act.by, act.by), act.at, kept.signed)
