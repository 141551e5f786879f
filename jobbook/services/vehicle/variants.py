"""Variants of vehicles: what is known of each, which of them a vehicle may be, and the choice that somebody signed."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass, replace

from jobbook.core.errors import Conflict, NotFound, Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft, clean_text
from jobbook.core.vehicle.specifications import Apart, Day, OlderUse, Specification, older_uses, side_by_side, to_come
from jobbook.core.vehicle.variants import Fit, Seen, Variant, fits, look_at_span, read_built, read_codes
from jobbook.core.vehicle.vehicles import Vehicle
from jobbook.db.store import Book, WritingBook
from jobbook.services.house.people import writing
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.vehicles import still_itself, vehicle_draft

READ_FROM = (
    "equipment plate",
    "registration paper",
    "read-out by scan tool",
    "maker's parts list",
    "seen on the vehicle",
)


@dataclass(frozen=True)
class Chosen:
    """Who said which variant a vehicle is; an empty variant says that it is not known, for a reason."""

    variant: str
    by: str
    at: str
    codes: tuple[str, ...] = ()
    read_from: str = ""
    others: tuple[str, ...] = ()
    reason: str = ""


@dataclass(frozen=True)
class VariantOfVehicle:
    """What can be said of a vehicle's variant: the choice, those that it may be, and their figures side by side."""

    vehicle: Vehicle
    chosen: Chosen | None
    fits: tuple[Fit, ...]
    names: tuple[str, ...]  # every variant that the shop knows
    apart: tuple[Apart, ...] = ()

    @property
    def compared(self) -> tuple[str, ...]:
        """The variants whose figures stand side by side."""
        return tuple(fit.variant.name for fit in self.fits)


def keep_variant(book: OpenBook, who: Person, facts: Variant, codes: str | None = None) -> Variant:
    """Keep what is known of a variant. Its name stays: figures and vehicles name it."""
    name = clean_text(facts.name).strip()
    if not name:
        raise Refused("The variant was not kept: name it as the document does.")
    begins, ends = read_built(facts.built_from, "The first build"), read_built(facts.built_to, "The last build")
    read = facts.codes if codes is None else read_codes(codes)
    tidy = replace(facts, name=name, built_from=begins, built_to=ends, codes=read)
    look_at_span(tidy)
    kept = {key: value for key, value in asdict(tidy).items() if key not in ("name", "entry")}
    with writing(book, who, "specifications") as tx:
        entry = tx.keep(Draft("variant/1", f"variant/{name}", kept | {"variant": name, "codes": list(tidy.codes)}))
    return replace(tidy, entry=entry.number)


def variant_names(book: OpenBook) -> tuple[str, ...]:
    with book.store.read() as reading:
        return tuple(reading.specifications.names())


def known_variant(book: OpenBook, name: str) -> Variant:
    """What is known of a variant; its bare name where nothing was told yet."""
    with book.store.read() as reading:
        return next((one for one in reading.specifications.known_variants() if one.name == name), Variant(name))


def variant_of(book: OpenBook, number: int, codes: str | None = None) -> VariantOfVehicle:
    """What can be said of a vehicle's variant, with `codes` as they are being typed. Raises NotFound."""
    with book.store.read() as reading:
        vehicle = reading.vehicles.get(number)
        chosen = _last_choice(reading, number)
        read = read_codes(codes) if codes else chosen.codes if chosen and chosen.codes else None
        found = fits(reading.specifications.known_variants(), _seen(vehicle, read))
        tables = {fit.variant.name: reading.specifications.for_variant(fit.variant.name) for fit in found}
        names = tuple(reading.specifications.names())
    return VariantOfVehicle(vehicle, chosen, found, names, side_by_side(tables) if len(tables) > 1 else ())


def _seen(vehicle: Vehicle, codes: tuple[str, ...] | None) -> Seen:
    return Seen(vehicle.make, vehicle.model, vehicle.year, codes)


def _last_choice(reading: Book, vehicle: int) -> Chosen | None:
    told = reading.specifications.chosen_for(vehicle)
    if not told:
        return None
    last = told[-1]
    codes, others = tuple(last["codes"]), tuple(last["others"])
    return Chosen(last["variant"], last["by"], last["at"], codes, last["read_from"], others, last["reason"])


def choose_variant(
    book: OpenBook, signer: Person, number: int, name: str, codes: str = "", read_from: str = "", reason: str = ""
) -> Chosen:
    """Keep which variant a vehicle is, signed by whoever looked; an empty name says that it is not known, and why.

    The variants that would have fitted too are kept with it. Released jobs keep the figures that they were done with.
    """
    name = clean_text(name).strip()
    with writing(book, signer, "work", "desk", "specifications") as tx:
        vehicle = still_itself(tx, number)
        known = tx.specifications.names()
        _look_at_choice(name, known, read_from, reason)
        read = read_codes(codes)
        found = fits(tx.specifications.known_variants(), _seen(vehicle, read or None))
        others = [fit.variant.name for fit in found if fit.variant.name != name]
        if vehicle.variant != name:
            tx.keep(vehicle_draft(replace(vehicle, variant=name)))
        entry = tx.keep(_choice(number, name, read, read_from, others, reason))
    at = str(entry.facts["done_at"])
    return Chosen(name, signer.id, at, read, read_from.strip(), tuple(others), reason.strip())


def _look_at_choice(name: str, known: Sequence[str], read_from: str, reason: str) -> None:
    if name and name not in known:
        raise Refused(f"The variant was not chosen: no figures are known for “{name}”. Enter it in The shop first.")
    if name and not read_from.strip():
        raise Refused("The variant was not chosen: say from what it was read, so that another can look there too.")
    if not name and not reason.strip():
        raise Refused("Nothing was kept: say why the variant is not known, and what would settle it.")


def _choice(number: int, name: str, codes: Sequence[str], read_from: str, others: Sequence[str], reason: str) -> Draft:
    facts = {
        "vehicle": number, "variant": name, "codes": list(codes), "read_from": read_from.strip(),
        "others": list(others), "reason": reason.strip(),
    }  # fmt: skip
    return Draft("variant-chosen/1", f"vehicle/{number}", facts, meaning="did")


@dataclass(frozen=True)
class Figures:
    """The figures of a variant: in force today, entered but not begun, and everything that was ever entered."""

    today: tuple[Specification, ...]
    to_come: tuple[Specification, ...]
    ever: tuple[Specification, ...]

    def before(self, figure: Specification) -> tuple[Specification, ...]:
        """The earlier figures under the same key, the newest first."""
        return tuple(one for one in reversed(self.ever) if one.key == figure.key and one.entry != figure.entry)


def figures_of(book: OpenBook, variant: str) -> Figures:
    day = Day(book.today().isoformat())
    with book.store.read() as reading:
        ever = reading.specifications.ever_of(variant)
        return Figures(tuple(reading.specifications.for_variant(variant, day)), to_come(ever, day), ever)


def jobs_with_older(book: OpenBook, figure: Specification) -> tuple[OlderUse, ...]:
    """The jobs of the variant that took over another figure than this one, the newest first."""
    with book.store.read() as reading:
        return older_uses(reading.specifications.used(figure.variant, figure.key), figure)


def second_look(book: OpenBook, signer: Person, figure: Specification, doubt: str = "") -> Specification:
    """Keep that another person read the document too; `doubt` is what they read otherwise, empty where the same.

    Refused: the person who entered the figure. Conflict: a figure that another one took the place of meanwhile."""
    with writing(book, signer, "work", "check", "specifications") as tx:
        there = _still_told(tx, figure)
        if there.read_by == signer.id:
            raise Refused(
                "The second look was not kept: it is another person's, who reads the document too. You entered this "
                "figure yourself."
            )
        facts = {"variant": there.variant, "figure": there.entry, "doubt": doubt.strip()}
        tx.keep(Draft("second-look/1", f"variant/{there.variant}", facts, meaning="checked"))
        return _still_told(tx, figure)


def _still_told(tx: WritingBook, figure: Specification) -> Specification:
    ever = tx.specifications.ever_of(figure.variant)
    there = next((one for one in ever if one.entry == figure.entry), None)
    if there is None:
        raise NotFound("Nothing was kept: this figure was corrected meanwhile. Look at the one that stands there now.")
    if any(one.key == there.key and one.entry > there.entry and one.valid_from <= there.valid_from for one in ever):
        raise Conflict("Nothing was kept: another figure took its place meanwhile. Look at that one.")
    return there
