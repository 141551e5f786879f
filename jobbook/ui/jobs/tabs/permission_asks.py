"""What is asked when something is allowed, changed, declined or tried."""

from datetime import datetime

from jobbook.core.desk import declined
from jobbook.core.desk.declined import ITEMS
from jobbook.core.desk.permission import CHANGED, KEPT_PARTS, MAY, OUTCOMES, PARTS_BACK, SCOPES, WAYS, WITHDRAWN
from jobbook.core.jobs import Permission
from jobbook.core.measured.diagnosis import UNSAFE, Finding
from jobbook.services.agreed.permission_page import PermissionPage
from jobbook.services.sheet.sheets import Ask, Option
from jobbook.ui.jobs.tabs import times


def options(words: dict[str, str], first: str = "") -> tuple[Option, ...]:
    """Answers by key and words; `first` stands before them for "not said"."""
    named = tuple(Option(key, said[:1].upper() + said[1:]) for key, said in words.items())
    return (Option("", first), *named) if first else named


WISHED_AT_ARRIVAL = {"yes": "back", "no": "no"}
USUAL_WISH = {"ask": "not asked", "return": "back", "show": "see"}  # by what the country profile says of old parts
HOW = tuple(Option(way, way) for way in WAYS)


def _told(page: PermissionPage, now: datetime, by: str) -> tuple[Ask, ...]:
    return (
        Ask("who", by, value=page.job.may_authorise or page.customer),
        Ask("at", "When", "time", value=times.shown(now)),
        Ask("how", "How", "choice", HOW),
        Ask("reached_at", "Number or address used", required=False, value=page.phone),
    )


def of_customer(page: PermissionPage, now: datetime, finding: Finding | None = None) -> tuple[Ask, ...]:
    """What is asked of a permission; of a finding it begins as extra work in the words of the finding."""
    currency = page.shop.currency
    scopes = {key: words for key, words in SCOPES.items() if key != "authority"}
    return (
        Ask("scope", "Allows", "choice", options(scopes), value="extra" if finding else ""),
        *_told(page, now, "Given by"),
        Ask("what", "What was allowed, and why", "long text", value=finding.words if finding else ""),
        Ask("total", "Limit or new total, with tax", "quantity", unit=currency),
        Ask("added", "Added cost", "quantity", unit=currency, required=False),
        Ask("reassembly", "Putting together again, if it stops", "quantity", unit=currency, required=False),
        Ask("parts_back", "Old parts", "list", options(PARTS_BACK), value=_wish(page)),
        Ask("may", "May they allow it", "list", options(MAY, "Not said"), required=False, folded=True),
        Ask("acts_for", "By what right", required=False, folded=True),
        Ask("parts_kept", "Old parts not given back", "list", _kept_back(), required=False, folded=True),
        Ask("by", "Who spoke with them", "list", _people(page), required=False, folded=True),
        Ask("valid_until", "Until (day)", "time", required=False, folded=True),
        Ask("wording", "In their own words", "long text", required=False, folded=True),
    )


def _wish(page: PermissionPage) -> str:
    """What was last said of the old parts: with a permission, at arrival, or what the place usually asks."""
    said = [one.parts_back for one in page.agreed.permissions if one.parts_back]
    usual = USUAL_WISH[page.profile.value("parts_back")]
    return said[-1] if said else WISHED_AT_ARRIVAL.get(page.job.parts_back, usual)


def _kept_back() -> tuple[Option, ...]:
    return (Option("", "All are given back"), *(Option(words, words) for words in KEPT_PARTS.values()))


def _people(page: PermissionPage) -> tuple[Option, ...]:
    return (Option("", "Who keeps this"), *(Option(key, name) for key, name in page.people.items()))


def of_payer(page: PermissionPage, now: datetime) -> tuple[Ask, ...]:
    return (
        Ask("authority", "The payer's number"),
        Ask("who", "Given by"),
        Ask("at", "When", "time", value=times.shown(now)),
        Ask("how", "How", "choice", HOW),
        Ask("reached_at", "Number or address used", required=False),
        Ask("total", "Up to, with tax", "quantity", unit=page.shop.currency, required=False),
        Ask("what", "What exactly was allowed", "long text"),
        Ask("wording", "In their own words", "long text", required=False),
        Ask("valid_until", "Ends on (day)", "time", required=False),
    )


def of_change(page: PermissionPage, now: datetime, permission: Permission) -> tuple[Ask, ...]:
    kinds = (Option(WITHDRAWN, "Withdrawn"), Option(CHANGED, "Changed"))
    return (
        Ask("what", "It was", "choice", kinds),
        *_told(page, now, "Said by"),
        Ask("why", "What was said", "long text"),
        Ask("total", "New total", "quantity", unit=permission.currency, required=False),
        Ask("valid_until", "Holds until (day)", "time", required=False),
    )


def of_refusal(page: PermissionPage, now: datetime) -> tuple[Ask, ...]:
    return (
        Ask("who", "Said by"),
        Ask("at", "When", "time", value=times.shown(now)),
        Ask("how", "How", "choice", HOW),
        Ask("reached_at", "Number or address used", required=False),
        Ask("why", "What was said", "long text"),
    )


def of_declining(page: PermissionPage, now: datetime, finding: Finding | None = None) -> tuple[Ask, ...]:
    subjects = tuple(Option(key, item.title or "Something else") for key, item in ITEMS.items())
    return (
        Ask("subject", "What was declined", "list", subjects, value=_subject(finding)),
        *_told(page, now, "Declined by"),
        Ask("what", "In other words", required=False, value=finding.words if finding else ""),
        Ask("consequence", "What may come of it: left empty, in our usual words", "long text", required=False),
    )


def _subject(finding: Finding | None) -> str:
    if finding is None:
        return next(iter(ITEMS))
    return declined.UNSAFE if finding.severity == UNSAFE else declined.FINDING


def of_attempt(page: PermissionPage, now: datetime) -> tuple[Ask, ...]:
    about = tuple(
        Option(str(one.entry), f"The higher price, {one.total} {one.currency}") for one in page.agreed.overruns
    )
    asked = (
        (Ask("about", "About", "list", (Option("0", "Nothing of these"), *about), value=about[-1].value),)
        if about
        else ()
    )
    return (
        Ask("outcome", "What came of it", "choice", tuple(Option(one, one) for one in OUTCOMES)),
        Ask("at", "When", "time", value=times.shown(now)),
        Ask("how", "How", "choice", HOW, value="by telephone"),
        Ask("reached_at", "Number or address used", required=False, value=page.phone),
        *asked,
        Ask("by", "Who tried", "list", _people(page), required=False),
        Ask("said", "What was said", "long text", required=False),
    )


def of_overrun(page: PermissionPage, now: datetime) -> tuple[Ask, ...]:
    return (
        Ask("known_at", "Known since", "time", value=times.shown(now)),
        Ask("total", "It will be about, with tax", "quantity", unit=page.shop.currency),
        Ask("why", "Why", "long text"),
    )
