"""Permission: what the customer allowed, and the payer's authority where there is one."""

from jobbook.core.jobs import Permission
from jobbook.core.permission import SCOPES
from jobbook.core.permission import WAYS as HOW
from jobbook.services import desk
from jobbook.services.opened import OpenBook
from jobbook.services.sheets import Ask, JobSheet, Option
from jobbook.services.shop import shop
from jobbook.ui.jobs.tabs import times
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Line, Signing, TabSheet

WAYS = tuple(Option(way, way) for way in HOW)


def show(book: OpenBook, sheet: JobSheet) -> TabSheet:
    given = desk.permissions(book, sheet.number)
    job = desk.get_job(book, sheet.number)
    now, currency = times.shown(book.clock()), shop(book).currency
    allowed = Block(
        "The customer's permission",
        tuple(_line(one) for one in given if one.scope != "authority"),
        nothing="Nothing is allowed yet: no joint is loosened and no line opened before the customer has said yes.",
        deeds=(Deed("permission", "Permission was given…", _customer_asks(now, currency), main=not given),),
    )
    authority = Block(
        "The payer's authority",
        tuple(_line(one) for one in given if one.scope == "authority"),
        nothing=f"Pays: {job.payer}. Ask before the work where an insurer or a supplier pays.",
        deeds=(
            Deed("asked", "Authority was asked for…", (Ask("payer", "Asked of", value=_payer(job.payer)),)),
            Deed("authority", "Authority was given…", _authority_asks(now, currency)),
        ),
    )
    return TabSheet((allowed, authority))


def _payer(payer: str) -> str:
    return "" if payer == "customer" else payer


def _line(one: Permission) -> Line:
    limit = f"limit {one.total} {one.currency}" if one.total else ""
    added = f"added {one.added} {one.currency}" if one.added else ""
    who = "(erased)" if one.who is None else one.who
    reached = "(erased)" if one.reached_at is None else one.reached_at
    number = f"number {one.authority}" if one.authority else ""
    parts = (f"{who}, {one.how}", reached, number, added, limit, one.wording and f"“{one.wording}”")
    scope = SCOPES[one.scope]
    return Line(f"{scope[0].upper()}{scope[1:]}: {one.what}", " · ".join(filter(None, parts)), "disc", one.at)


def _how_asks(now: str) -> tuple[Ask, ...]:
    return (
        Ask("who", "Given by"),
        Ask("how", "How", "choice", WAYS),
        Ask("at", "When", "time", value=now),
        Ask("reached_at", "Number or address used", required=False),
        Ask("what", "What was allowed, and why", "long text"),
    )


def _customer_asks(now: str, currency: str) -> tuple[Ask, ...]:
    scopes = tuple(Option(key, words) for key, words in SCOPES.items() if key != "authority")
    return (
        Ask("scope", "Allows", "choice", scopes),
        *_how_asks(now),
        Ask("added", "Added cost", "quantity", unit=currency, required=False),
        Ask("total", "Limit or new total", "quantity", unit=currency),
        Ask("wording", "In their own words", "long text", required=False),
    )


def _authority_asks(now: str, currency: str) -> tuple[Ask, ...]:
    return (
        Ask("authority", "The payer's number"),
        *_how_asks(now),
        Ask("total", "Up to", "quantity", unit=currency, required=False),
        Ask("wording", "In their own words", "long text", required=False),
    )


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    if deed.key == "asked":
        desk.ask_authority(book, by.who, job, given["payer"])
        return f"Authority asked of {given['payer'].strip()}"
    scope = "authority" if deed.key == "authority" else given["scope"]
    told = {name: answer.strip() for name, answer in given.items()}
    permission = Permission(
        scope=scope,
        who=told["who"],
        how=told["how"],
        at=times.read(told["at"], book.clock()),
        reached_at=told["reached_at"],
        what=told["what"],
        added=told.get("added", ""),
        total=told["total"],
        currency=shop(book).currency,
        authority=told.get("authority", ""),
        wording=told["wording"],
    )
    desk.give_permission(book, by.who, job, permission)
    return f"Permission: {SCOPES[scope]}"
