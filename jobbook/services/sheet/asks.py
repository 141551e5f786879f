"""What is asked before an act is kept, and how the answers become part of the act. A table, not branches."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace

from jobbook.core.errors import Refused
from jobbook.core.figures.stages import Stage
from jobbook.core.fitness import ANGLE_TOOLS, SHOWS_VALUE, tool_use
from jobbook.core.measured.alignment import is_geometry
from jobbook.core.measured.codes import code_words
from jobbook.core.quantities import read_quantity
from jobbook.core.quantities.whole import whole_number
from jobbook.core.tools import Tool
from jobbook.core.work.model import CORNERS, Act, Part
from jobbook.core.work.state import stages_of
from jobbook.services.measured.adapters import KINDS as KINDS_OF_PARTS
from jobbook.services.measured.adapters import has_adapter, keep_part, with_adapter
from jobbook.services.measured.alignment_answers import OUTSIDE, SHEET, is_about_geometry, looked_at, with_angle
from jobbook.services.measured.alignment_asks import geometry_asks
from jobbook.services.measured.heights import TYPED, pairs_of, rule_used
from jobbook.services.sheet.bay import Bay, get_tool, stage_of, tools_for
from jobbook.services.sheet.sheets import Ask, Option, options_of

EXCUSABLE = ("measure", "prove", "calibrate", "align", "drive")
EXCUSES = ("not possible", "declined", "not applicable", "sublet")

EXCUSE = (
    Ask("answer", "Answer", "choice", options_of(EXCUSES)),
    Ask("reason", "Why, or by whom", "long text"),
)
MEASURED_AS = {word: word for word in ("pressure", "temperature", "voltage", "current")} | {"run_time": "time"}
HOW_VENTED = ("scan tool", "fitting slackened slowly")
HOW_FILLED = ("scan tool", "outside supply", "the vehicle's own raise function")
RULE = "rule or tape"
FOLDED: Mapping[str, str] = {
    "load": "Load", "fuel": "Fuel", "tyres": "Tyres: size, pressure", "mode": "Ride mode",
    "points": "Measured between, if not hub and arch",
}  # fmt: skip
HOW_OFF = ("menu", "button", "scan tool", "fuse pulled", "jacking mode")


def tool_ask(bay: Bay, stage: Stage | None, kinds: tuple[str, ...], value: str = "") -> Ask:
    """Which tool: the unfit ones say why, before anything is tightened. Where it was allowed, they may be taken."""
    uses = tools_for(bay, stage, kinds)
    options = tuple(Option(use.number, f"{use.number}, {use.kind}, {use.range_text}", use.unfit) for use in uses)
    value = value or _last_fit(options)
    return Ask("tool", "Tool", "tool", as_it_was(options) if wrong_tool_allowed(bay) else options, value=value)


def wrong_tool_allowed(bay: Bay) -> bool:
    return any(one.rule == "wrong-tool" for one in bay.state.allowances)


def as_it_was(options: Iterable[Option]) -> tuple[Option, ...]:
    """The options with what speaks against each in its words, to be taken all the same."""
    return tuple(replace(one, label=", ".join(filter(None, (one.label, one.unfit))), unfit="") for one in options)


def _last_fit(options: tuple[Option, ...]) -> str:
    fit = [option.value for option in options if not option.unfit]
    return fit[0] if len(fit) == 1 else ""


def _heights(act: Act, bay: Bay) -> tuple[Ask, ...]:
    return height_asks(bay.tools, bay.shop.height_unit)


def height_asks(tools: Sequence[Tool], unit: str) -> tuple[Ask, ...]:
    """What is asked with heights: the four corners, the air, the rule; the other conditions are folded away."""
    rules = tuple(Option(tool.number, tool.number) for tool in tools if tool.kind == RULE)
    asks = (
        Ask("heights", "Hub centre to arch edge; read again: 401 402 401", "heights", unit=unit),
        Ask("temperature", "Air temperature", "quantity", unit="°C", required=False),
        *((Ask("how", "Measured with", "choice", rules, value=rules[0].value),) if rules else ()),
    )
    return (*asks, *(Ask(name, words, required=False, folded=True) for name, words in FOLDED.items()))


def _geometry(act: Act, bay: Bay) -> tuple[Ask, ...]:
    return geometry_asks(bay.tools)


def _codes(act: Act, bay: Bay) -> tuple[Ask, ...]:
    return (
        Ask("module", "Module read", "text"),
        Ask("code", "Code, text or bytes as shown; empty where there is none", "text", required=False, hint=code_words),
        Ask("words", "Text as shown", "text", required=False),
        Ask("status", "Status", "choice", options_of(("stored", "active", "intermittent", "none")), required=False),
        Ask("odometer", "Odometer as shown by the tool", "text", required=False),
        Ask("cleared", "Cleared", "choice", options_of(("no", "yes")), value="no", required=False),
    )


def _measured(act: Act, bay: Bay) -> tuple[Ask, ...]:
    special = {"heights": _heights, "fault_codes": _codes, "geometry": _geometry}.get(act.what)
    return special(act, bay) if special else (Ask("reading", "Reading, with its unit", "text"),)


def _put_on(act: Act, bay: Bay) -> tuple[Ask, ...]:
    part = bay.state.things.get(act.on)
    if not isinstance(part, Part) or act.piece == "same":
        return ()
    asks: tuple[Ask, ...] = ()
    if part.serial:
        asks = (Ask("serial", f"Serial or batch, read from the part at {part.corner or 'the vehicle'}", "serial"),)
    if bay.state.stopped:
        pieces = (Option("another", "a new one"), Option("same", "the one that came off"))
        asks = (Ask("piece", "Which part goes on?", "choice", pieces), *asks)
    return asks


def _plugs(words: str, value: str = "") -> Callable[[Act, Bay], tuple[Ask, ...]]:
    return lambda act, bay: (Ask("plugs", words, "number", value=value),)


def _taken_off(act: Act, bay: Bay) -> tuple[Ask, ...]:
    part = bay.state.things.get(act.on)
    plugs = _plugs("Plugs that go with it", "0")(act, bay) if isinstance(part, Part) and part.places else ()
    if not isinstance(part, Part) or not part.renewed:
        return plugs
    return (*plugs, Ask("how", "Where the old part lies: shelf and tag", "text", required=False))


def _levelling(act: Act, bay: Bay) -> tuple[Ask, ...]:
    off = act.what == "levelling" and act.to == "off"
    return (Ask("how", "How was it switched off?", "choice", options_of(HOW_OFF)),) if off else ()


def _inspected(act: Act, bay: Bay) -> tuple[Ask, ...]:
    return (Ask("text", "What was found", "long text", value=""),)


ASKS: Mapping[str, Callable[[Act, Bay], tuple[Ask, ...]]] = {
    "measure": _measured,
    "set": _levelling,
    "vent": lambda act, bay: (Ask("how", "Vented by", "choice", options_of(HOW_VENTED)),),
    "fill": lambda act, bay: (Ask("how", "Filled by", "choice", options_of(HOW_FILLED)),),
    "plug": _plugs("Plugs put in"),
    "join": _plugs("Plugs taken out"),
    "take_off": _taken_off,
    "put_on": _put_on,
    "calibrate": lambda act, bay: (Ask("text", "Result", "text"),),
    "align": _geometry,
    "drive": lambda act, bay: (
        Ask("distance", "Distance", "quantity", unit="km"),
        Ask("text", "What was noticed", "long text", required=False),
    ),
    "note": lambda act, bay: (Ask("text", "Note", "long text"),),
}


def asks_of(act: Act, bay: Bay) -> tuple[Ask, ...]:
    """What must be asked before this act can be kept."""
    makes = ASKS.get(act.do)
    return makes(act, bay) if makes else ()


def _tool(act: Act, answer: str, bay: Bay) -> Act:
    stage = stage_of(bay.state, act.on, act.stage) if act.do == "tighten" else None
    return replace(act, tool=tool_use(get_tool(bay, answer), stage, bay.today))


def _number(act: Act, answer: str, bay: Bay) -> Act:
    plugs = whole_number(answer, most=99)
    if plugs is None:
        raise Refused(f"“{answer}” is not a number of plugs; count them and write a whole number.")
    return replace(act, plugs=plugs)


def _reading(kind: str, unit: str) -> Callable[[Act, str, Bay], Act]:
    def read(act: Act, answer: str, bay: Bay) -> Act:
        quantity = read_quantity(answer, kind, default_unit=unit)
        return replace(act, readings=(*act.readings, (kind, quantity.text())))

    return read


def _measured_value(act: Act, answer: str, bay: Bay) -> Act:
    """A reading with its unit; what is no single quantity (geometry, a stand over night) is kept in words."""
    kind = MEASURED_AS.get(act.what, "")
    text = read_quantity(answer, kind).text() if kind else answer
    return replace(act, readings=(*act.readings, (act.what, text)))


def _height(act: Act, name: str, answer: str, unit: str) -> Act:
    """What was read at a corner, in place of what was said of it before."""
    corner = name.removeprefix("heights ")
    others = tuple(pair for pair in act.readings if pair[0] not in (corner, TYPED + corner))
    return replace(act, readings=(*others, *pairs_of(corner, answer, unit)))


def _reached(act: Act, answer: str, bay: Bay) -> Act:
    """The value that the tool showed. Outside the limits it needs its reason, and a slip of the unit is named."""
    quantity = read_quantity(answer, "torque", default_unit="N*m")
    return replace(act, reached=quantity.text())


def _condition(name: str) -> Callable[[Act, str, Bay], Act]:
    """A condition of a reading, in place of what was said of it before."""
    return lambda act, answer, bay: replace(act, readings=(*(p for p in act.readings if p[0] != name), (name, answer)))


def _words(field: str) -> Callable[[Act, str, Bay], Act]:
    return lambda act, answer, bay: replace(act, **{field: answer.strip()})  # type: ignore[arg-type]


def _measure_of_adapter(name: str) -> Callable[[Act, str, Bay], Act]:
    return lambda act, answer, bay: keep_part(act, name, answer)


ANSWERS: Mapping[str, Callable[[Act, str, Bay], Act]] = {
    **{name: _measure_of_adapter(name) for name in KINDS_OF_PARTS},
    "tool": _tool,
    "plugs": _number,
    "reached": _reached,
    "temperature": _reading("temperature", "degC"),
    "distance": _reading("distance", "km"),
    "reading": _measured_value,
    **{name: _condition(name) for name in (*FOLDED, "stood")},
    **{name: _condition(label) for name, label in OUTSIDE.items()},
    SHEET: _condition(SHEET),
    **{name: _words(name) for name in ("how", "text", "serial", "piece", "ends", "finding", "reason", "answer")},
}
ASIDE = ("module", "code", "words", "status", "odometer", "cleared", "signer", "secret")


def unanswered(asks: Iterable[Ask], answers: Mapping[str, str]) -> tuple[str, ...]:
    """What is asked for and was not answered, by its label. Heights are looked at corner by corner elsewhere."""
    return tuple(
        ask.label for ask in asks if ask.required and ask.kind != "heights" and not answers.get(ask.name, "").strip()
    )


def answered(act: Act, answers: Mapping[str, str], bay: Bay) -> Act:
    """The act with its answers in place. Refused where an answer cannot be read; nothing was kept then."""
    for name, answer in answers.items():
        if name.startswith("heights ") and answer.strip():
            act = _height(act, name, answer, bay.shop.height_unit)
        elif is_geometry(name) and answer.strip():
            act = with_angle(act, name, answer.strip())
        elif name in ANSWERS and answer.strip():
            act = ANSWERS[name](act, answer.strip(), bay)
        elif name not in ASIDE and answer.strip() and not name.startswith("heights"):
            raise KeyError(f"the form asks {name!r}, which no act knows")
    if has_adapter(act):
        return _with_adapter(act, bay)
    if is_about_geometry(act):
        return replace(looked_at(act), tool=rule_used(act.how, bay.tools))
    if act.do != "measure" or act.what != "heights" or act.answer != "done":
        return act
    if not _has_heights(act):
        raise Refused("The heights were not kept: enter at least one corner, or say why it was not possible.")
    return replace(act, tool=rule_used(act.how, bay.tools))


def _with_adapter(act: Act, bay: Bay) -> Act:
    stage = stage_of(bay.state, act.on, act.stage or len(stages_of(bay.state, act.on)))
    if stage is None or stage.kind != "torque":
        raise Refused("Nothing was kept: an adapter changes the setting of a torque, and this stage has none.")
    return with_adapter(act, stage, bay.tools, bay.today)


def _has_heights(act: Act) -> bool:
    return any(name in CORNERS for name, _ in act.readings)


TOOL_KINDS: Mapping[str, tuple[str, ...]] = {
    "click": ("click wrench",),
    "shown": SHOWS_VALUE,
    "angle": ANGLE_TOOLS,
}
