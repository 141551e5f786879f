"""What belongs to a customer: vehicles with their days, jobs, people to speak to, and their data."""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from jobbook.core.errors import BookError, Refused
from jobbook.core.people import Person
from jobbook.core.quantities.whole import whole_number
from jobbook.core.vehicle.ownership import Contact
from jobbook.core.vehicle.vehicles import Customer
from jobbook.core.written import ERASED, unless_erased
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.services.vehicle import apart, merging
from jobbook.services.vehicle.customers import CustomerSheet, Owned, alike, customer, exactly, keep_customer
from jobbook.services.vehicle.data_copies import write_copy
from jobbook.services.vehicle.forgetting import forget
from jobbook.ui.jobs.columns import STAGE_MARKS
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, TabSheet
from jobbook.ui.moments import day
from jobbook.ui.places import Place, a_job, a_vehicle
from jobbook.ui.vehicles import together
from jobbook.ui.vehicles.blocks import while_typing

YES, NO = Option("yes", "yes"), Option("no", "no")
FORGETS = (
    "Name, address, telephone, mail and everything they said are erased from the book and cannot be brought back. "
    "The work on the vehicles stays, without them. Pictures that show them are erased on their jobs (P, "
    "Erase…). Backups and papers made before still hold it."
)


def show(book: OpenBook, number: int) -> TabSheet:
    sheet = customer(book, number)
    return TabSheet((_vehicles(sheet.vehicles), _people(sheet), _jobs(sheet), _data(book, sheet)))


def _vehicles(owned: tuple[Owned, ...]) -> Block:
    return Block("Vehicles", tuple(_vehicle(one) for one in owned), nothing="No vehicle is theirs.")


def _vehicle(one: Owned) -> Line:
    days = f"since {day(one.since)}" if not one.until else f"theirs from {day(one.since)} until {day(one.until)}"
    said = " · ".join(filter(None, (one.vehicle.vin, days)))
    name = ", ".join(filter(None, (one.vehicle.title, one.vehicle.plate if not one.until else "")))
    return Line(
        name, said, "bar" if one.until else "", deeds=(Deed("vehicle", "Open", of=str(one.vehicle.id), opens=True),)
    )


def _people(sheet: CustomerSheet) -> Block:
    asks = (
        Ask("name", "Name"),
        Ask("phone", "Telephone", required=False),
        Ask("role", "What they do there", required=False),
        Ask("may", "May allow work", "choice", (YES, NO), value="no"),
    )
    lines = tuple(_person(one) for one in sheet.contacts)
    add = Deed("person", "Somebody to speak to…", asks)
    nothing = "Nobody beside the customer. A fleet's driver, clerk or manager stands here."
    return Block("People to speak to", lines, nothing=nothing, deeds=(add,))


def _person(one: Contact) -> Line:
    may = "may allow work" if one.may_authorise else "may not allow work"
    said = " · ".join(filter(None, (one.role, unless_erased(one.phone), may)))
    gone = Deed("person gone", "No longer", of=str(one.number))
    return Line(unless_erased(one.name), said, deeds=(gone,))


def _jobs(sheet: CustomerSheet) -> Block:
    lines = tuple(
        Line(
            f"{row.number}  {row.vehicle}",
            " · ".join((day(row.opened_at), row.concern or "")).rstrip(" ·"),
            STAGE_MARKS.get(row.stage, "query"),
            deeds=(Deed("job", "Open", of=str(row.number), opens=True),),
        )
        for row in sheet.jobs
    )
    return Block("Jobs, the newest first", lines, nothing="No job yet.")


def _data(book: OpenBook, sheet: CustomerSheet) -> Block:
    def other(given: Mapping[str, str]) -> str:
        return _both_words(book, given["other"], sheet.customer.id)

    reason = Ask("reason", "Why, for instance who asked and when")
    folder = Ask("folder", "Folder for the file", "folder", value=str(Path.home()))
    both = (Ask("other", "The other: number, name or telephone"), Ask("reason", "How it was found"))
    deeds = (
        Deed("copy", "A copy of all their data…", (folder,), keep="Write the file",
             explain="All that the book holds of them, without what is others'. That it was handed out is kept."),
        Deed("merge", "In the book twice…", both, keep="Bring together here", live=other,
             explain="Vehicles, jobs and people of the other come to this one."),
        Deed("forget", "Forget this customer…", (reason,), keep="Erase for good", caution=FORGETS),
    )  # fmt: skip
    lines = together.lines(sheet.together, sheet.customer.id)
    return Block("Their data", lines, nothing=f"Customer {sheet.customer.id} of the book.", deeds=deeds)


def _both_words(book: OpenBook, typed: str, here: int) -> str:
    if not typed.strip():
        return ""
    try:
        gone = _meant(book, typed, here)
    except BookError as error:
        return while_typing(error)
    told = ", ".join(filter(None, (gone.name or ERASED, gone.phone, gone.address)))
    return f"Customer {gone.id}: {told}.\n{merging.TAKEN_BACK}"


def _meant(book: OpenBook, typed: str, here: int) -> Customer:
    """The customer that is meant by a number, a name or a telephone. Refused where none or several are."""
    text = typed.strip()
    number = whole_number(text, most=99_999)
    if number is not None:
        return customer(book, number).customer
    found = alike(book, text, text, besides=here)
    same = exactly(found, text) or (found[0] if len(found) == 1 else None)
    if same is None:
        many = ", ".join(f"{one.id} ({one.name})" for one in found)
        said = f"several are meant: {many}. Write the number" if found else "no other customer is meant by it"
        raise Refused(f"Nothing was changed: {said}.")
    return same


def keep(book: OpenBook, who: Person, number: int, deed: Deed, given: Answers) -> str:
    said = {key: text.strip() for key, text in given.items()}
    match deed.key:
        case "person" | "person gone":
            _keep_people(book, who, number, deed, said)
        case "merge":
            merging.merge_customers(book, who, _meant(book, said["other"], number).id, number, said["reason"])
        case together.APART:
            apart.take_apart(book, who, "customer", int(deed.of), said["reason"])
        case "copy":
            return f"Written: {write_copy(book, who, number, said['folder'])}"
        case "forget":
            told = forget(book, who, number, said["reason"])
            waits = f"Not erased yet: {told.waits_for}. It is looked at again on {day(told.look_again)}."
            return waits if told.waits_for else f"{told.erased} values were erased."
    return ""


def _keep_people(book: OpenBook, who: Person, number: int, deed: Deed, said: Mapping[str, str]) -> None:
    sheet = customer(book, number)
    if deed.key == "person":
        new = Contact(0, said["name"], said["phone"], said["role"], said["may"] == "yes")
        people = (*sheet.contacts, new)
    else:
        people = tuple(one for one in sheet.contacts if str(one.number) != deed.of)
    named = tuple(replace(one, name=one.name or ERASED) for one in people)
    keep_customer(book, who, sheet.customer, named)


def place(deed: Deed) -> Place:
    return a_job(int(deed.of)) if deed.key == "job" else a_vehicle(int(deed.of))
