"""A customer asks for a copy of all that the book holds of them; other people's data are left out."""

import json
from collections.abc import Iterator
from dataclasses import asdict
from hashlib import sha256
from itertools import count
from pathlib import Path
from typing import Any

from jobbook.core.errors import Refused
from jobbook.core.jobs import Permission
from jobbook.core.people import Person
from jobbook.core.record.files import KeptFile
from jobbook.core.record.journal import Draft, Entry
from jobbook.db.disk.troubles import disk_said_plainly
from jobbook.db.store import Book
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.customers import customer


def copy_of_data(book: OpenBook, who: Person, number: int) -> bytes:
    """All that the book holds of a customer, as readable text that machines read too (JSON, indented); that it was
    handed out is kept. What is another person's is left out: who else brought the vehicle or may allow work."""
    sheet = customer(book, number)
    there = sheet.customer.id
    with book.store.read() as reading:
        told = {
            "customer": asdict(sheet.customer),
            "vehicles": [_vehicle(one.vehicle, one.since, one.until) for one in sheet.vehicles],
            "jobs": [_job(reading, row.number, sheet.customer.name or "") for row in sheet.jobs],
            "shop": reading.shop().name,
            "made_at": book.now(),
        }
    data = json.dumps(told, ensure_ascii=False, indent=2).encode() + b"\n"
    with writing(book, who, "people", "desk") as tx:
        facts = {"customer": there, "digest": sha256(data).hexdigest()}
        tx.keep(Draft("data-copied/1", f"customer/{there}", facts))
    return data


def write_copy(book: OpenBook, who: Person, number: int, folder: str | Path) -> Path:
    """Write the copy into a folder as a file of its own; never over another one. Refused where there is no folder."""
    place = Path(folder).expanduser()
    if not str(folder).strip() or not place.is_dir():
        raise Refused(
            f"Nothing was written: “{folder}” is no folder. Choose one that is there, for instance a stick's."
        )
    there = customer(book, number).customer.id
    file = next(one for one in _names(place, f"customer-{there}-{book.today()}") if not one.exists())
    with disk_said_plainly(file):
        file.write_bytes(copy_of_data(book, who, number))
    return file


def _names(place: Path, stem: str) -> Iterator[Path]:
    yield place / f"{stem}.json"
    yield from (place / f"{stem}-{number}.json" for number in count(2))


def _vehicle(vehicle: Any, since: str, until: str) -> dict[str, object]:
    kept = {key: getattr(vehicle, key) for key in ("vin", "plate", "make", "model", "year")}
    return (kept if not until else kept | {"plate": ""}) | {"yours_since": since, "yours_until": until}


def _permission(given: Permission, name: str) -> dict[str, object]:
    """What was allowed; who else gave it, and at which number, is theirs."""
    told: dict[str, object] = {key: getattr(given, key) for key in ("what", "how", "at", "total")}
    if (given.who or "").casefold().strip() == name.casefold().strip():
        return told | {"given_by": given.who, "reached_at": given.reached_at}
    return told | {"given_by": "another person"}


def _contact(reading: Book, entry: Entry) -> dict[str, object]:
    """One attempt to reach the customer, with what was said."""
    told = {key: entry.payload.get(key, "") for key in ("how", "at", "outcome", "about")}
    return told | {key: reading.sealed(str(entry.payload.get(key, ""))) for key in ("reached_at", "said")}


def _job(reading: Book, number: int, name: str) -> dict[str, object]:
    """One job as its customer may read it."""
    job = reading.jobs.get(number)
    return {
        "job": number,
        "arrived": job.opened_at,
        "released": job.released_at,
        "concerns": [{"you_said": c.words, "cause": c.cause, "correction": c.correction} for c in job.concerns],
        "condition_on_arrival": job.condition,
        "odometer": [f"{one.value} {one.unit}, {one.at}" for one in _odometers(reading, number, job.vehicle_id)],
        "permissions": [_permission(p, name) for p in reading.permissions(number)],
        "contacts": [_contact(reading, entry) for entry in reading.journal.entries(job=number, kind="contact/1")],
        "papers": [
            f"{paper.kind}, version {paper.version}, {paper.issued_at}" for paper in reading.papers.of_job(number)
        ],
        "pictures_and_files": [_file(file) for file in reading.files.of_job(number)],
        "entries": [f"{entry.number} {entry.kind} {entry.done_at}" for entry in reading.journal.entries(job=number)],
    }


def _file(file: KeptFile) -> dict[str, str]:
    """A file by its name and digest; the file itself is copied out on the page of its job."""
    gone = f"erased {file.erased_at}" if file.is_erased else ""
    return {
        "name": file.called,
        "what": file.what,
        "taken": file.taken_at,
        "sha256": file.digest,
        "state": gone or "kept",
    }


def _odometers(reading: Book, job: int, vehicle: int) -> list[Any]:
    mine = {entry.number for entry in reading.journal.entries(job=job, kind="odometer/1")}
    return [one for one in reading.vehicles.odometers(vehicle) if one.entry in mine]
