"""Permission: how the price stands, what the customer and the payer allowed, the lines, what was declined, attempts."""

from dataclasses import replace
from datetime import datetime

from jobbook.core.desk.permission import UNWRITTEN
from jobbook.core.desk.profiles import wants_estimate
from jobbook.services.agreed import price_words
from jobbook.services.agreed.permission_page import PermissionPage, permission_page
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, JobSheet
from jobbook.ui.jobs.tabs import estimate_lines, permission_asks, permission_found
from jobbook.ui.jobs.tabs.permission_keeping import KEEPING
from jobbook.ui.jobs.tabs.permission_lines import asked_line, contact_line, declined_line, overrun_line, permission_line
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Signing, TabSheet

UNWRITTEN_NOTICE = "{0} was given {1}: ask for it in writing before anything is taken apart."


def show(book: OpenBook, sheet: JobSheet) -> TabSheet:
    page, now = permission_page(book, sheet.number), book.clock()
    blocks = (
        _standing(page),
        _customer(page, now),
        *permission_found.blocks(page, now),
        _authority(page, now),
        estimate_lines.block(book, page),
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
    return " ".join(filter(None, (price_words.above(page.agreed.priced), unwritten, _estimate_due(page))))


def _estimate_due(page: PermissionPage) -> str:
    limit = page.agreed.priced.limit
    if page.estimated or limit is None or limit.total is None or not wants_estimate(page.profile, limit.total):
        return ""
    return (
        f"By the rules of {page.profile.title} a written estimate is due before this work, and none has left the shop."
    )


def _standing(page: PermissionPage) -> Block:
    return Block("How the price stands", facts=price_words.standing(page.agreed.priced, page.shop.currency))


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
        (*(asked_line(page, one) for one in page.agreed.asked), *(permission_line(page, one, now) for one in given)),
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
