"""The four people of a job: who brought the vehicle, whose it is, who may allow work, who pays."""

from dataclasses import dataclass, replace

from jobbook.core.errors import Refused
from jobbook.core.jobs import Job
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.written import unless_erased
from jobbook.db.store import Book
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook


@dataclass(frozen=True)
class Parties:
    """Four people, or one: who brought the vehicle, whose it is, who may allow work, who pays.

    `owner` is a name of a customer; `payer` one of customer, insurer, supplier, fleet, and `payer_name` who that is."""

    brought_by: str
    owner: str
    may_authorise: str
    payer: str
    payer_name: str
    customer: str


def parties(book: OpenBook, job: Job | int) -> Parties:
    """The four people of a job, each by name; whoever is not named is the customer."""
    with book.store.read() as reading:
        return parties_of(reading, job if isinstance(job, Job) else reading.jobs.get(job))


def parties_of(reading: Book, job: Job) -> Parties:
    customer = _name(reading, job.customer_id)
    owner = customer if job.owner_id == job.customer_id else _name(reading, job.owner_id) or customer
    return Parties(
        _told(job.brought_by, customer),
        owner,
        _told(job.may_authorise, customer),
        job.payer,
        _told(job.payer_name, customer if job.payer == "customer" else ""),
        customer,
    )


def _name(reading: Book, customer: int) -> str:
    return unless_erased(reading.customers.get(customer).name) if customer else ""


def _told(said: str | None, otherwise: str) -> str:
    return unless_erased(said) or otherwise


def keep_parties(
    book: OpenBook, who: Person, job: int, *, brought_by: str, may_authorise: str, payer: str, payer_name: str
) -> None:
    """Keep anew who brought the vehicle, who may allow work and who pays; what was said at arrival stays readable."""
    if not payer.strip():
        raise Refused("Nothing was changed: say who pays.")
    with writing(book, who, "desk") as tx:
        before = tx.journal.get(tx.jobs.entry_of(job))
        said = {"brought_by": brought_by, "may_authorise": may_authorise, "payer_name": payer_name}
        facts = dict(before.payload) | {key: tx.seal(text.strip()) for key, text in said.items()}
        facts |= {"payer": payer.strip(), "promised": tx.jobs.get(job).promised}
        draft = Draft("job-opened/1", f"job/{job}", facts, job=job, done_at=before.done_at)
        tx.keep(replace(draft, done_by=before.facts["done_by"], replaces=before.number, reason="people of the job"))
