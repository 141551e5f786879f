"""What belongs to a vehicle beside its facts: plates, owners, odometer, modifications, and the other number it has."""

from collections.abc import Mapping

from jobbook.core.errors import BookError
from jobbook.core.jobs import IssuedPaper
from jobbook.core.people import Person
from jobbook.core.vehicle.ownership import MODIFICATIONS, Modification, Owner, Plate
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.core.written import unless_erased
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, options_of
from jobbook.services.vehicle import apart, merging, modifications, ownership
from jobbook.services.vehicle.customers import alike, exactly
from jobbook.services.vehicle.ownership import Belongings
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, TabSheet
from jobbook.ui.moments import day, day_and_hour
from jobbook.ui.places import Place, a_customer, a_job
from jobbook.ui.vehicles import odometer_block, together
from jobbook.ui.vehicles.blocks import while_typing

REASON = Ask("reason", "What was wrong with it", "text")


def show(book: OpenBook, number: int) -> TabSheet:
    told = ownership.belongings(book, number)
    wrong = ownership.papers_with_another_vin(book, number)
    blocks = (
        _plates(book, told),
        _owners(book, told.owners),
        odometer_block.block(told.distances),
        _modifications(told.modifications),
        _identity(book, told, wrong),
    )
    return TabSheet(blocks)


def _since(label: str) -> Ask:
    return Ask("since", label, "time", required=False)


def _plates(book: OpenBook, told: Belongings) -> Block:
    def said(given: Mapping[str, str]) -> str:
        return ownership.plate_words(book, given["plate"], told.vehicle.id) if given["plate"].strip() else ""

    lines = tuple(Line(one.plate, _days(one)) for one in told.plates)
    moved = (
        Ask("plate", "Plate; empty where it has none now", "serial", required=False),
        _since("Since, like 20 Nov"),
    )
    deeds = (
        Deed("plate", "Another plate…", moved, explain="No day written: from today on.", live=said),
        Deed(
            "plate wrong", "Typed wrong…", (Ask("plate", "Plate as it is", "serial", required=False), REASON), live=said
        ),
    )
    return Block("Plates", lines, nothing="No plate yet. The VIN says which vehicle it is.", deeds=deeds)


def _days(held: Plate | Owner) -> str:
    return f"since {day(held.since)}" if not held.until else f"from {day(held.since)} until {day(held.until)}"


def _owners(book: OpenBook, owners: tuple[Owner, ...]) -> Block:
    def known(given: Mapping[str, str]) -> str:
        found = alike(book, given["name"], given.get("phone", ""))
        there = exactly(found, given["name"])
        if there is not None:
            return f"A customer of the shop already: {_named(there)}. It is kept under that name."
        return f"Perhaps known already: {'; '.join(_named(one) for one in found)}." if found else ""

    asks = (
        Ask("name", "New owner"),
        Ask("phone", "Telephone", required=False),
        Ask("address", "Address", required=False),
        _since("Sold on, like 20 Nov; empty: today"),
    )
    deeds = (
        Deed("sold", "Sold…", asks, explain=ownership.TRANSFER, live=known),
        Deed("owner wrong", "Written down wrong…", (Ask("name", "Owner as it is"), REASON), live=known),
    )
    nothing = "Nobody is written down as the owner."
    return Block("Owners", tuple(_owner(one) for one in owners), nothing=nothing, deeds=deeds)


def _owner(one: Owner) -> Line:
    """Who it belongs to now by name; who it belonged to before is nobody's business here."""
    if one.until:
        return Line("An earlier owner", _days(one))
    opened = Deed("customer", "Open", of=str(one.customer_id), opens=True)
    return Line(unless_erased(one.name), _days(one), deeds=(opened,))


def _named(customer: Customer) -> str:
    return ", ".join(filter(None, (customer.name, customer.phone, customer.address)))


def _modifications(found: tuple[Modification, ...]) -> Block:
    kinds = options_of(MODIFICATIONS.keys())
    asks = (
        Ask("what", "What was changed", "list", kinds),
        Ask("where", "Where: corner, axle", required=False),
        Ask("effect", "What it does to the heights; “not known” is an answer"),
        Ask("changed_by", "Changed by, as the customer says", required=False),
        Ask("since", "Found on, like 20 Nov", "time", required=False),
    )
    add = Deed("modification", "Found changed…", asks, live=lambda given: MODIFICATIONS.get(given["what"], ""))
    nothing = "Nothing was found changed by others. Lowering links, modules, other tyres or springs are written here."
    return Block("Changed by others", tuple(_modification(one) for one in found), nothing=nothing, deeds=(add,))


def _modification(one: Modification) -> Line:
    said = [one.effect, f"by {one.changed_by}" if one.changed_by else "", f"found {day(one.found_on)}"]
    if one.gone_on:
        return Line(f"{one.what}, {one.where}".rstrip(", "), f"taken back {day(one.gone_on)}", mark="bar")
    gone = Deed("gone", "Taken back…", (Ask("since", "On, like 20 Nov", "time", required=False),), of=str(one.entry))
    line = f"{one.what}, {one.where}".rstrip(", ")
    return Line(line, " · ".join(filter(None, said)), mark="half", deeds=(gone,))


def _identity(book: OpenBook, told: Belongings, wrong: tuple[IssuedPaper, ...]) -> Block:
    def other(given: Mapping[str, str]) -> str:
        return _both_words(book, given["other"], told.vehicle.id)

    lines = list(together.lines(told.together, told.vehicle.id))
    lines += [_paper(one) for one in wrong]
    asks = (Ask("other", "The other: its number, the end of its VIN, or its plate"), Ask("reason", "How it was found"))
    deeds = (
        Deed("vin wrong", "VIN typed wrong…", (Ask("vin", "VIN as it is"), REASON)),
        Deed("merge", "It is in the book twice…", asks, keep="Bring together here", live=other,
             explain="Visits, plates, readings and owners of the other come to this one."),
    )  # fmt: skip
    return Block("Identity", tuple(lines), nothing=f"Vehicle {told.vehicle.id} of the book.", deeds=deeds)


def _paper(paper: IssuedPaper) -> Line:
    opened = Deed("job", "Open the job", of=str(paper.job), opens=True)
    words = f"The {paper.kind} of job {paper.job}, version {paper.version}, left with another VIN"
    return Line(
        words, f"{day_and_hour(paper.issued_at)} · issue it again where somebody relies on it", "half", deeds=(opened,)
    )


def _both_words(book: OpenBook, typed: str, here: int) -> str:
    """Which vehicle is meant, and what speaks against bringing the two together."""
    if not typed.strip():
        return ""
    try:
        gone = _meant(book, typed, here)
        both = merging.look_at_vehicles(book, gone.id, here)
    except BookError as error:
        return while_typing(error)
    found = ", ".join(filter(None, (f"vehicle {gone.id}", gone.title, gone.vin, gone.plate)))
    return "\n".join((f"{found[0].upper()}{found[1:]}.", *both.warnings))


def _meant(book: OpenBook, typed: str, here: int) -> Vehicle:
    return merging.vehicle_meant(book, typed, here)


def keep(book: OpenBook, who: Person, number: int, deed: Deed, given: Answers) -> str:
    """Keep what was answered; a sentence where something follows from it."""
    said = {key: text.strip() for key, text in given.items()}
    match deed.key:
        case "plate":
            ownership.new_plate(book, who, number, said["plate"], said["since"])
        case "plate wrong":
            ownership.correct_plate(book, who, number, said["plate"], said["reason"])
        case "sold":
            ownership.sell(book, who, number, _customer(book, said), said["since"])
        case "owner wrong":
            ownership.correct_owner(book, who, number, _customer(book, said), said["reason"])
        case "modification":
            found = Modification(
                said["what"], said["where"], said["effect"], said["since"], changed_by=said["changed_by"]
            )
            modifications.add_modification(book, who, number, found)
        case "gone":
            modifications.modification_gone(book, who, number, int(deed.of), said["since"])
        case "vin wrong":
            return _sent(ownership.correct_vin(book, who, number, said["vin"], said["reason"]))
        case "merge":
            merging.merge_vehicles(book, who, _meant(book, said["other"], number).id, number, said["reason"])
        case together.APART:
            apart.take_apart(book, who, "vehicle", int(deed.of), said["reason"])
        case odometer_block.CORRECT:
            odometer_block.keep(book, who, deed, said)
    return ""


def _sent(papers: tuple[IssuedPaper, ...]) -> str:
    return f"{len(papers)} papers left with the wrong VIN; they stand under Identity." if papers else ""


def _customer(book: OpenBook, said: Mapping[str, str]) -> Customer:
    """The customer of that name who is known, or a new one."""
    there = exactly(alike(book, said["name"], said.get("phone", "")), said["name"])
    return Customer(there.id if there else 0, said["name"], said.get("address", ""), said.get("phone", ""))


def place(deed: Deed) -> Place:
    return a_job(int(deed.of)) if deed.key == "job" else a_customer(int(deed.of))
