"""Permission: how the price stands, what the customer and the payer allowed, the lines, what was declined, attempts."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime
from types import MappingProxyType

from jobbook.core.permission import REFUSED, SCOPES, UNWRITTEN, Change, Contact, Declined, Overrun
from jobbook.services import asking, permission, price_words
from jobbook.services.opened import OpenBook
from jobbook.services.permission_page import PermissionPage, permission_page
from jobbook.services.sheets import Ask, JobSheet
from jobbook.ui.jobs.tabs import estimate_lines, permission_asks, times
from jobbook.ui.jobs.tabs.permission_lines import contact_line, declined_line, overrun_line, permission_line
from jobbook.ui.jobs.tabs.permission_told import change_of, permission_of
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Signing, TabSheet

UNWRITTEN_NOTICE = "{0} was given {1}: ask for it in writing before anything is taken apart."


def show(book: OpenBook, sheet: JobSheet) -> TabSheet:
    page, now = permission_page(book, sheet.number), book.clock()
    blocks = (
        _standing(page),
        _customer(page, now),
        _authority(page, now),
        estimate_lines.block(page),
        _declined(page, now),
        _reaching(page, now),
    )
    if page.job.stage == "released":
        return TabSheet(tuple(_closed(block) for block in blocks))
    return TabSheet(blocks, _notice(page))


def _closed(block: Block) -> Block:
    """The block of a job that was released: it is read, and only an attempt to reach the customer can be added."""
    lines = tuple(replace(line, deeds=()) for line in block.lines)
    return replace(block, lines=lines, deeds=tuple(deed for deed in block.deeds if deed.key == "contact"))


def _notice(page: PermissionPage) -> str:
    """What is wrong with the price, and an authority of which there is nothing in writing."""
    spoken = [one for one in page.agreed.as_they_stand() if one.scope == "authority" and one.how in UNWRITTEN]
    unwritten = UNWRITTEN_NOTICE.format(f"Authority {spoken[-1].authority}", spoken[-1].how) if spoken else ""
    return " ".join(filter(None, (price_words.above(page.agreed.priced), unwritten)))


def _standing(page: PermissionPage) -> Block:
    return Block(
        "How the price stands", facts=price_words.standing(page.agreed.priced, page.shop.currency, page.profile)
    )


def _customer(page: PermissionPage, now: datetime) -> Block:
    given = [one for one in page.agreed.permissions if one.scope != "authority"]
    return Block(
        "The customer's permission",
        tuple(permission_line(page, one, now) for one in given),
        nothing="Nothing is allowed yet: no joint is loosened and no line opened before the customer has said yes.",
        deeds=(
            Deed("permission", "Permission was given…", permission_asks.of_customer(page, now), main=not given),
        ),
    )  # fmt: skip


def _authority(page: PermissionPage, now: datetime) -> Block:
    given = [one for one in page.agreed.permissions if one.scope == "authority"]
    pays = page.job.payer_name or page.job.payer
    payer = "" if pays == "customer" else pays
    deeds = [
        Deed("asked", "Authority was asked for…", (Ask("payer", "Asked of", value=payer),)),
        Deed("authority", "Authority was given…", permission_asks.of_payer(page, now)),
    ]
    waiting = [one for one in page.agreed.asked if one.refused is None]
    if waiting and not given:
        asks = permission_asks.of_refusal(page, now)
        deeds.append(Deed("refused", "Authority was refused…", asks, of=str(waiting[-1].entry)))
    return Block(
        "The payer's authority",
        tuple(permission_line(page, one, now) for one in given),
        nothing=f"Pays: {pays}. Ask before the work where an insurer or a supplier pays.",
        deeds=tuple(deeds),
    )


def _declined(page: PermissionPage, now: datetime) -> Block:
    return Block(
        "Declined, with what may come of it",
        tuple(declined_line(one) for one in page.agreed.declined),
        nothing="Nothing was declined. What is declined prints with its consequence.",
        deeds=(Deed("declined", "Something was declined…", permission_asks.of_declining(page, now)),),
    )


def _reaching(page: PermissionPage, now: datetime) -> Block:
    told = [*map(contact_line, page.agreed.contacts)]
    over = [overrun_line(one, page.agreed.contacts) for one in page.agreed.overruns]
    return Block(
        "Reaching the customer",
        (*over, *told),
        nothing="Nobody had to be reached. Each attempt is kept with its time and what came of it.",
        deeds=(
            Deed("overrun", "The price will be higher…", permission_asks.of_overrun(page, now)),
            Deed("contact", "Tried to reach them…", permission_asks.of_attempt(page, now)),
        ),
    )


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    if deed.key in estimate_lines.KEYS:
        return estimate_lines.keep(book, by, job, deed, given)
    return KEEPING[deed.key](book, by, job, deed, {name: answer.strip() for name, answer in given.items()})


def _keep_permission(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    told = permission_of(given, deed.key, book.clock(), permission_page(book, job).shop.currency)
    permission.give_permission(book, by.who, job, told, by=given.get("by", ""))
    return f"Permission: {SCOPES[told.scope]}"


def _ask(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    permission.ask_authority(book, by.who, job, given["payer"])
    return f"Authority asked of {given['payer']}"


def _change(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    told: Change = change_of({**given, "what": given.get("what", REFUSED)}, int(deed.of), book.clock())
    permission.change_permission(book, by.who, job, told)
    return f"It was {told.what}"


def _move(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    to = int(given["to"]) if given["to"].isdigit() else 0
    permission.move_permission(book, by.who, job, int(deed.of), to, given["why"])
    return f"The permission is kept on job {to}"


def _sign(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    permission.sign(book, by.who, job, int(deed.of), deed.explain, given["path"], given["name"])
    return f"Signed by {given['name']}"


def _decline(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    at = times.read(given["at"], book.clock())
    told = Declined(
        given["subject"], given["what"], given["consequence"], given["who"], given["how"], at, given["reached_at"],
        int(given.get("finding", "0")),
    )  # fmt: skip
    asking.keep_declined(book, by.who, job, told)
    return "Kept as declined"


def _contact(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    at = times.read(given["at"], book.clock())
    told = Contact(
        at,
        given["how"],
        given["reached_at"],
        given["outcome"],
        given["said"],
        int(given.get("about", "0")),
        given["by"],
    )
    asking.keep_contact(book, by.who, job, told)
    return f"Tried {told.how}: {told.outcome}"


def _overrun(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    asking.keep_overrun(
        book, by.who, job, Overrun(times.read(given["known_at"], book.clock()), given["total"], given["why"])
    )
    return "It is kept since when the price is known to be higher"


KEEPING: Mapping[str, Callable[[OpenBook, Signing, int, Deed, dict[str, str]], str]] = MappingProxyType(
    {
        "permission": _keep_permission,
        "authority": _keep_permission,
        "asked": _ask,
        "change": _change,
        "refused": _change,
        "move": _move,
        "sign": _sign,
        "declined": _decline,
        "contact": _contact,
        "overrun": _overrun,
    }
)
