"""The words that a customer signs on the screen: what is allowed, up to what, and what was said with it."""

from datetime import date

from jobbook.core.desk.money import Money, money_or_none
from jobbook.core.desk.permission import SCOPES, Declined
from jobbook.core.desk.profiles import Profile
from jobbook.core.errors import NotFound
from jobbook.core.jobs import Permission
from jobbook.core.record.journal import clean_text
from jobbook.core.written import day
from jobbook.db.store import Book
from jobbook.services.agreed.permission_records import agreed
from jobbook.services.house.profiles import profile_of

WISHES = {
    "back": "I want the old parts back",
    "see": "I want to see the old parts",
    "no": "I do not want the old parts",
}


def text_of(reading: Book, job: int, of: int) -> str:
    """The text under the permission of that entry. Raises NotFound where this job has none such."""
    there, shop = agreed(reading, job), reading.shop()
    permission = next((one for one in there.as_they_stand() if one.entry == of), None)
    if permission is None:
        raise NotFound(f"There is no such permission in job {job}; nothing was signed.")
    facts = reading.jobs.get(job)
    vehicle = reading.vehicles.get(facts.vehicle_id)
    named = ", ".join(filter(None, (vehicle.title, vehicle.plate, vehicle.vin and f"VIN {vehicle.vin}")))
    paragraphs = (
        f"{shop.name}, job {job}: {named}.",
        f"I allow {SCOPES[permission.scope]}: {permission.what.strip().rstrip('.')}.",
        *_money(permission),
        reassembly_words(permission),
        _parts(permission),
        *_declined(there.declined),
        *_notices(profile_of(shop)),
    )
    return clean_text("\n".join(filter(None, paragraphs)))


def _money(permission: Permission) -> tuple[str, ...]:
    total, added, over = (
        money_or_none(text, permission.currency) for text in (permission.total, permission.added, permission.tolerance)
    )
    return (
        f"This adds {added.shown}." if added else "",
        f"The price is at most {total.shown}, tax included{_over(over)}." if total else "",
        f"This holds until {day(date.fromisoformat(permission.valid_until))}." if permission.valid_until else "",
    )


def _over(over: Money | None) -> str:
    return f", and {over.figures} more without asking" if over is not None else ""


def reassembly_words(permission: Permission) -> str:
    """What putting together again costs, where the work is taken apart and does not go on."""
    if not permission.reassembly and permission.scope not in ("dismantle", "repair"):
        return ""
    price = money_or_none(permission.reassembly, permission.currency)
    if price is None:
        return "If it was taken apart and I stop the work, no charge for putting it together again was announced."
    return f"If it was taken apart and I stop the work, putting it together again costs {price.shown}, tax included."


def _parts(permission: Permission) -> str:
    wish = WISHES.get(permission.parts_back, "")
    return f"{'; '.join(filter(None, (wish, permission.parts_kept)))}." if wish else ""


def _declined(declined: tuple[Declined, ...]) -> tuple[str, ...]:
    return tuple(f"I decline: {one.what.rstrip('.')}. {one.consequence}".strip() for one in declined)


def _notices(profile: Profile) -> tuple[str, ...]:
    return tuple(notice.text for notice in profile.notices_on("estimate"))
