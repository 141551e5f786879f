"""Everything that the Permission tab shows, in one reading."""

from collections.abc import Mapping
from dataclasses import dataclass

from jobbook.core.desk.permission import ON_SCREEN, withdrawn
from jobbook.core.desk.profiles import Profile
from jobbook.core.jobs import Job
from jobbook.core.measured.diagnosis import Finding
from jobbook.core.people import Shop
from jobbook.services.agreed.permission_records import Agreed, agreed
from jobbook.services.agreed.permission_text import text_of
from jobbook.services.house.profiles import profile_of
from jobbook.services.measured.findings import findings_of
from jobbook.services.opened import OpenBook


@dataclass(frozen=True)
class PermissionPage:
    """`to_sign` holds the words that wait for a signature on the screen, by the entry of their permission."""

    job: Job
    customer: str
    phone: str
    agreed: Agreed
    shop: Shop
    profile: Profile
    people: Mapping[str, str]
    findings: tuple[Finding, ...]
    to_sign: Mapping[int, str]
    estimated: bool = False  # an estimate left the shop


def permission_page(book: OpenBook, number: int) -> PermissionPage:
    with book.store.read() as reading:
        job, shop, there = reading.jobs.get(number), reading.shop(), agreed(reading, number)
        customer = reading.customers.get(job.customer_id) if job.customer_id else None
        waiting = [one.entry for one in there.permissions if one.how == ON_SCREEN]
        open_ones = [
            entry
            for entry in waiting
            if there.signature_of(entry) is None
            and not any(withdrawn(one, there.changes) for one in there.permissions if one.entry == entry)
        ]
        return PermissionPage(
            job,
            (customer.name or "") if customer else "",
            (customer.phone or "") if customer else "",
            there,
            shop,
            profile_of(shop),
            {person.id: person.name for person in reading.people.all() if person.active},
            tuple(findings_of(reading, number)),
            {entry: text_of(reading, number, entry) for entry in open_ones},
            any(paper.kind == "estimate" for paper in reading.papers.of_job(number)),
        )
