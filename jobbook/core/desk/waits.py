"""What a vehicle in the shop waits for: a time of the work, a stand, or somebody and something from outside."""

from collections.abc import Mapping, Sequence

from jobbook.core.record.journal import Entry

WAITS_FOR = {
    "part": "a part",
    "customer": "the customer",
    "payer": "the payer",
    "inspector": "an inspector",
    "other shop": "another shop",
    "payment": "payment",
    "other": "something else",
}
STANDS = {
    "lift": "on the lift",
    "bay": "in a bay, on its wheels",
    "outside": "outside",
    "customer": "with the customer meanwhile",
}
CAME = "came"
HELD = {
    CAME: "it came",
    "did not come": "it did not come, and is not waited for any more",
    "not needed": "no longer needed",
}
HELD_NOTES = {"did not come": "what is done in its place", "not needed": "why it is no longer needed"}
TIMES = ("act/1", "undone/1", "waiting/1")  # what `unanswered` looks at
STANDS_KINDS = ("stand-begun/1", "stand-ended/1")  # what `running_stands` looks at

Step = tuple[str, str, int]


def step_of(facts: Mapping[str, object], method: str) -> Step:
    """The step that a wait or an act belongs to: method, corner and number."""
    return str(facts.get(method, "")), str(facts.get("corner", "")), int(str(facts.get("step", 0) or 0))


def unanswered(entries: Sequence[Entry]) -> tuple[Entry, ...]:
    """The waits that were begun and whose step has no answer since: the last one of each step. Give the entries of one
    job of the kinds of TIMES, in the order of their numbers."""
    undone = {entry.payload["act"] for entry in entries if entry.kind == "undone/1"}
    waiting: dict[Step, Entry] = {}
    for entry in entries:
        if entry.act in undone:
            continue
        if entry.kind == "waiting/1":
            waiting[step_of(entry.payload, "method")] = entry
        elif entry.kind == "act/1":
            waiting.pop(step_of(entry.payload["act"], "method_key"), None)
    return tuple(waiting.values())


def running_stands(entries: Sequence[Entry]) -> tuple[tuple[int, str], ...]:
    """The leak-down stands of one job that are not ended: the number of each, and when it was begun."""
    first: dict[int, int] = {}
    begun: dict[int, str] = {}
    for entry in entries:
        if entry.kind == "stand-begun/1":
            first[entry.number] = first.get(entry.replaces or 0, entry.number)
            begun[first[entry.number]] = entry.done_at
    ended = {int(entry.payload["stand"]) for entry in entries if entry.kind == "stand-ended/1"}
    return tuple((number, at) for number, at in begun.items() if number not in ended)


def held_words(waits_for: str, what: str, stands: str) -> str:
    """What a vehicle waits for, in words: “a part: strut FL, on the lift”."""
    told = WAITS_FOR.get(waits_for, waits_for)
    return ", ".join(filter(None, (f"{told}: {what}" if what else told, STANDS.get(stands, stands))))
