"""The figures that a job's begun methods ask for and the vehicle's variant does not hold yet."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from jobbook.core.work.begin import propose
from jobbook.core.work.model import Joint
from jobbook.core.work.state import State
from jobbook.services.job.methods import Running, figure_title, running_methods
from jobbook.services.job.replay import kept_acts, state_of, work_entries
from jobbook.services.measured.torque_at_work import fasteners
from jobbook.services.opened import OpenBook

Figure = tuple[str, str, str]  # key, kind, what people call it


@dataclass(frozen=True)
class Lacking:
    """An empty `variant` says that the vehicle has none, so that no figure can be entered for it yet. `fasteners`:
    thread and grade by the key of the figure, where a joint declares them."""

    variant: str
    figures: tuple[Figure, ...] = ()
    fasteners: Mapping[str, str] = field(default_factory=dict)


def lacking(book: OpenBook, job: int) -> Lacking:
    """What still has to be read from the maker's documents, in the order of the methods. Questions that were answered
    with no ask for nothing."""
    with book.store.read() as reading:
        kept = kept_acts(work_entries(reading, job))
        running = running_methods(reading, kept)
        variant = reading.vehicles.get(reading.jobs.get(job).vehicle_id).variant
        there = {spec.key for spec in reading.specifications.for_variant(variant)} if variant else set()
    state = state_of(kept)
    wanted = {figure[0]: figure for run in running for figure in _asked_for(run, state)}
    lacking_now = tuple(figure for key, figure in wanted.items() if key not in there)
    return Lacking(variant, lacking_now, fasteners(state.things.values()))


def _asked_for(run: Running, state: State) -> Iterator[Figure]:
    acts = (propose(step, run.corner, state) for step in run.steps)
    steps = {act.figure_key for act in acts}
    things = (thing for thing in state.things.values() if isinstance(thing, Joint) and thing.corner == run.corner)
    used = steps | {thing.figure for thing in things}
    for need in run.method.figures:
        if need.key in used:
            yield need.key, need.kind, figure_title(run.method, need.key)
