"""The lines of a job: what it will cost, what is done, and what stands round them on the paper."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

from jobbook.core.desk.estimate import CONDITIONS, CUSTOMER, KINDS, STATES, Line, Terms, read_figure, totals
from jobbook.core.desk.money import read_money
from jobbook.core.desk.price import line_facts
from jobbook.core.desk.profiles import WORDS
from jobbook.core.errors import Conflict, NotFound, Refused
from jobbook.core.people import Person, Shop
from jobbook.core.record.journal import Draft
from jobbook.db.store import WritingBook
from jobbook.services.agreed import permission_records as records
from jobbook.services.house.people import writing
from jobbook.services.house.profiles import profile_of
from jobbook.services.job.in_hand import in_hand
from jobbook.services.opened import OpenBook
from jobbook.services.typed_times import look_at_day

LEAST, MOST, HIGHEST_TAX = Decimal("0.01"), Decimal(100_000), Decimal(100)
NOT_KEPT = "The line was not kept"


def default_terms(shop: Shop) -> Terms:
    """The terms of an estimate before anybody said otherwise: the word of the shop's country profile."""
    return Terms(profile_of(shop).value("word"))


def read_line(line: Line, shop: Shop) -> Line:
    """A line as typed, made exact. Refused where something in it cannot be read for certain."""
    if line.kind not in KINDS or line.state not in STATES:
        raise Refused(f"{NOT_KEPT}: it is a part, labour, or something else.")
    if not line.words.strip():
        raise Refused(f"{NOT_KEPT}: say what it is.")
    if line.kind == "part" and line.condition not in CONDITIONS:
        raise Refused(f"{NOT_KEPT}: say in which condition the part is, {', '.join(CONDITIONS.values())}.")
    currency = line.currency or shop.currency
    price = read_money(line.price, currency).text if line.price.strip() else ""
    if line.kind != "other" and price.startswith("-"):
        raise Refused(f"{NOT_KEPT}: only a line of another kind takes something off the price.")
    return replace(
        line,
        words=line.words.strip(),
        part=line.part.strip() if line.kind == "part" else "",
        condition=line.condition if line.kind == "part" else "",
        quantity=read_figure(line.quantity or "1", "the quantity", LEAST, MOST),
        price=price,
        currency=currency,
        tax=read_figure(line.tax or "0", "the tax", Decimal(0), HIGHEST_TAX),
        payer=line.payer.strip() or CUSTOMER,
    )


def keep_line(book: OpenBook, who: Person, job: int, line: Line) -> Line:
    """Keep a new line (number 0), or what a line says from now on. What it said before stays readable.

    Conflict when somebody else changed the line meanwhile; NotFound where there is none of that number."""
    with writing(book, who, "desk") as tx:
        in_hand(tx, job)
        told = read_line(line, tx.shop())
        there = records.agreed(tx, job)
        if line.number:
            _look_at_standing(there, line)
        else:
            told = replace(told, number=1 + max((one.number for one in there.lines), default=0))
        _look_at_reassembly(there, told)
        return _keep(tx, job, told)


def change_state(book: OpenBook, who: Person, job: int, line: Line, state: str) -> Line:
    """Keep that a line was done, declined or struck, or is to do again. A line is never deleted."""
    if state not in STATES:
        raise Refused(f"{NOT_KEPT}: it is {', '.join(STATES)}.")
    with writing(book, who, "desk", "work") as tx:
        in_hand(tx, job)
        _look_at_standing(records.agreed(tx, job), line)
        return _keep(tx, job, replace(line, state=state))


def _keep(tx: WritingBook, job: int, line: Line) -> Line:
    entry = tx.keep(Draft(records.LINE, f"job/{job}", line_facts(line) | {"job": job}, job=job))
    return replace(line, entry=entry.number)


def _look_at_standing(there: records.Agreed, line: Line) -> None:
    now = there.priced.lines.get(line.number)
    if now is None:
        raise NotFound(f"There is no line {line.number} in this job; nothing was kept.")
    if now.entry != line.entry:
        raise Conflict(f"{NOT_KEPT}: somebody else changed line {line.number} meanwhile. Look at it once more.")


def _look_at_reassembly(there: records.Agreed, line: Line) -> None:
    """Putting together again is charged only as it was announced with a permission."""
    if line.kind != "reassembly":
        return
    announced = [one for one in there.permissions if one.reassembly]
    if not announced:
        raise Refused(
            f"{NOT_KEPT}: no charge for putting together again was announced when the work was allowed, "
            "so none can be made."
        )
    most = read_money(announced[-1].reassembly, announced[-1].currency)
    if totals((line,), line.currency).gross.units > most.units:
        raise Refused(f"{NOT_KEPT}: {most.shown} was announced for putting together again, tax included.")


def keep_terms(book: OpenBook, who: Person, job: int, terms: Terms) -> None:
    """Keep the word on the paper, until when the price holds, and what it leaves out."""
    if terms.word not in WORDS:
        raise Refused(f"Nothing was kept: the paper is called {', '.join(WORDS)}.")
    look_at_day(terms.valid_until, "Nothing was kept")
    if terms.valid_until and date.fromisoformat(terms.valid_until) < book.today():
        raise Refused("Nothing was kept: the day until which the price holds is over already.")
    with writing(book, who, "desk") as tx:
        in_hand(tx, job)
        facts = {"job": job, "word": terms.word, "valid_until": terms.valid_until}
        facts |= {"exclusions": tx.seal((terms.exclusions or "").strip())}
        tx.keep(Draft(records.TERMS, f"job/{job}", facts, job=job))
