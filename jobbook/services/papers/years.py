"""The years of a vehicle on the evidence, from the fitting of the part on; visits before it do not belong there."""

from jobbook.db.store import Book
from jobbook.paperwork.years import Years
from jobbook.services.papers.gathered import JobFacts
from jobbook.services.papers.proving import Earlier
from jobbook.services.vehicle.vehicle_charts import heights_drawn, losses_drawn


def years(reading: Book, facts: JobFacts, earlier: Earlier | None) -> tuple[Years, ...]:
    """Heights over the visits and parked loss over the years; each only where two visits or more show it."""
    if earlier is None:
        return ()
    since = earlier.facts.job.number
    told = (
        ("Heights over the visits, mm", heights_drawn(reading, facts.vehicle, since)),
        ("Parked loss over the years", losses_drawn(reading, facts.vehicle, since)),
    )
    return tuple(
        Years(title, drawn.drawing, drawn.note)
        for title, drawn in told
        if drawn.drawing is not None and drawn.visits > 1
    )
