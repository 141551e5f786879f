"""A visit “done here” keeps each wheel: what its joints were tightened to, with which tool, by whom."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from jobbook.core.desk.retorque import NOT_DONE, RETORQUED, Wheel, lacking, wheels_off
from jobbook.core.errors import Refused
from jobbook.core.figures.stages import Stage
from jobbook.core.fitness import tool_use
from jobbook.core.quantities import read_quantity
from jobbook.core.record.journal import Draft
from jobbook.core.work.model import CORNERS, Act, Joint
from jobbook.core.work.state import START, State, stages_of
from jobbook.db.store import WritingBook
from jobbook.services.job.replay import job_state
from jobbook.services.measured.outside import outside_limits
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.odometers import keep_odometer, question_of, read_or_unknown

CLICKS = "click wrench"


@dataclass(frozen=True)
class OfWheels:
    """What was done at the wheels. `told` by corner, as typed: a torque with its unit, or “no” where it was not done;
    `turned` the corners where a fastener turned further; `by` who did it, where it was not whoever keeps it."""

    told: Mapping[str, str] = field(default_factory=dict)
    turned: tuple[str, ...] = ()
    tool: str = ""
    by: str = ""
    note: str = ""


def wheels_to_tighten(book: OpenBook, job: int) -> tuple[tuple[Wheel, str], ...]:
    """The wheels that were off in a job, each with what its joints are tightened to, as the job says it."""
    if not job:
        return ()
    with book.store.read() as reading:
        state = job_state(reading, job)
    return tuple((one, wanted(state, one.joint)) for one in wheels_off(state))


def wanted(state: State, joint: str) -> str:
    """The figure of a joint with its document; empty where the job has none."""
    thing = state.things.get(joint)
    figure = state.figures.get(thing.figure) if isinstance(thing, Joint) else None
    if figure is None:
        return ""
    source = ", ".join(filter(None, (figure.document, figure.edition and f"edition {figure.edition}")))
    return " ".join(filter(None, (figure.text, figure.tolerance, f"({source})" if source else "")))


def keep_wheels(tx: WritingBook, book: OpenBook, job: int, reminder: int, given: OfWheels) -> None:
    """Keep one entry for each wheel. Refused where nothing was said of a wheel that was off, where a value lies outside
    its figure or the tool must not be used and no note says why, or where it was not done without its reason."""
    state = job_state(tx, job) if job else START
    wheels = {one.corner: one for one in wheels_off(state)}
    if missing := lacking(tuple(wheels.values()), given.told):
        how = "like 140 N·m; or “no”, with the reason in the note"
        raise Refused(f"Nothing was kept: write what {missing} was tightened to, {how}.")
    if given.by:
        tx.people.get(given.by)
    for corner in CORNERS:
        if typed := given.told.get(corner, "").strip():
            wheel = wheels.get(corner, Wheel(corner))
            facts = _facts(tx, book, state, wheel, typed, given) | {"job": job, "reminder": reminder}
            tx.keep(Draft(RETORQUED, f"job/{job}", facts, job=job or None, done_by=given.by))


def keep_visit_odometer(tx: WritingBook, job: int, typed: str, note: str) -> None:
    """Keep the reading of the visit as one of the vehicle's. Refused where it looks wrong and no note says why."""
    if not job or not typed.strip():
        return
    vehicle, value = tx.vehicles.get(tx.jobs.get(job).vehicle_id), read_or_unknown(typed)
    if question := question_of(tx, vehicle.id, value, vehicle.distance_unit, note):
        raise Refused(f"Nothing was kept: {question} If it is so, write it in the note.")
    keep_odometer(tx, vehicle.id, job, value, vehicle.distance_unit, "visit", note.strip())


def _facts(
    tx: WritingBook, book: OpenBook, state: State, wheel: Wheel, typed: str, given: OfWheels
) -> dict[str, object]:
    facts = {"wheel": wheel.corner, "joint": wheel.joint, "count": wheel.count, "wanted": wanted(state, wheel.joint)}
    if typed.casefold() in NOT_DONE:
        if not given.note.strip():
            raise Refused(f"Nothing was kept: write in the note why {wheel.corner} was not tightened.")
        return facts | {"answer": "not done", "reached": "", "tool": "", "turned": False, "unfit": ""}
    tool = tx.tools.get(given.tool.strip())
    reached = read_quantity(typed.casefold().removeprefix("clicked at"), "torque", default_unit="N*m")
    use = tool_use(tool, Stage("torque", reached), book.today())
    act = Act("tighten", on=wheel.joint, reached=reached.text(), tool=use)
    one_stage = wheel.joint in state.things and len(stages_of(state, wheel.joint)) == 1
    outside = outside_limits(act, state) if one_stage else ""
    if (use.unfit or outside) and not given.note.strip():
        raise Refused(f"Nothing was kept: {outside or use.unfit} If it stays so, write why in the note.")
    said = f"clicked at {reached.text()}" if tool.kind == CLICKS else reached.text()
    turned = wheel.corner in given.turned
    return facts | {"answer": "done", "reached": said, "tool": tool.number, "turned": turned, "unfit": use.unfit}
