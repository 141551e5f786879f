"""The figures of a job: those of its variant are taken over by the job when they are needed."""

from collections.abc import Sequence
from datetime import date
from functools import reduce

from jobbook.core.jobs import Job
from jobbook.core.vehicle.specifications import Day, Specification
from jobbook.core.work.changing import replace
from jobbook.core.work.model import Act, Figure, Joint
from jobbook.core.work.rules import apply
from jobbook.core.work.state import State
from jobbook.db.store import Book
from jobbook.services.job.replay import Kept, state_of
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.bay import Bay

IN_USE = ("part-tightened", "tightened", "checked")


def bay_of(reading: Book, job: int, kept: Sequence[Kept], book: OpenBook) -> Bay:
    """The state of a job with the figures that its variant has, and what stands around it."""
    known = state_of(kept)
    figures = figure_acts(known, specifications_of(reading, job))
    state = as_of(reduce(apply, figures, known), book.today())
    tools, pieces = tuple(reading.tools.all()), tuple(reading.pieces.of_job(job))
    return Bay(state, tools, pieces, book.today(), figures, reading.shop())


def as_of(state: State, today: date) -> State:
    """The state on this day: an authority whose last day is over has ended."""
    if state.authority != "given" or not state.authority_until or date.fromisoformat(state.authority_until) >= today:
        return state
    return replace(state, authority="expired")


def specifications_of(reading: Book, job: int) -> tuple[Specification, ...]:
    """The figures of a job by its number, see `figures_for`."""
    return figures_for(reading, reading.jobs.get(job))


def figures_for(reading: Book, there: Job) -> tuple[Specification, ...]:
    """The figures of a job: those in force today, or those that were when it was released. What is entered later never
    changes what a job was done with."""
    variant, day = variant_for(reading, there)
    return tuple(reading.specifications.for_variant(variant, day)) if variant else ()


def variant_for(reading: Book, there: Job) -> tuple[str, Day | None]:
    """The variant that the vehicle of a job is taken for, or was when the job was released, with the day of that."""
    now = reading.vehicles.get(there.vehicle_id).variant
    releases = reading.journal.entries(job=there.number, kind="released/1") if there.stage == "released" else []
    if not releases:
        return now, None
    released = releases[-1]
    then = reading.specifications.variant_then(there.vehicle_id, released.number)
    return now if then is None else then, Day(released.done_at[:10], released.number)


def figure_acts(state: State, there: Sequence[Specification]) -> tuple[Act, ...]:
    """The acts that take figures over for things of this job: those not known yet, or changed before they were used."""
    wanted = {thing.figure for thing in state.things.values() if isinstance(thing, Joint)}
    in_use = {getattr(state.things[name], "figure", "") for name, now in state.joints.items() if now.word in IN_USE}
    taken = [
        figure
        for figure in (_figure(spec) for spec in there if spec.kind != "torque" or spec.key in wanted)
        if state.figures.get(figure.key) != figure and not (figure.key in in_use and figure.key in state.figures)
    ]
    return tuple(Act("figure", figure=figure) for figure in taken)


def _figure(spec: Specification) -> Figure:
    return Figure(
        spec.key, spec.kind, spec.text, spec.stages, spec.tolerance, spec.document, spec.edition, spec.read_by
    )
