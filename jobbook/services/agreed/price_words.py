"""What the job page says of money: what is allowed, what the lines come to, what was used so far."""

from jobbook.core.desk.estimate import Totals
from jobbook.core.desk.price import Priced, above, customers, used
from jobbook.core.desk.profiles import Profile
from jobbook.services.sheet.sheets import Fact

__all__ = ["above", "allowed_and_used", "standing"]


def allowed_and_used(priced: Priced, currency: str) -> str:
    """The few words of the left page."""
    limit = priced.limit
    if limit is None or limit.total is None:
        said = "without a limit" if limit is not None else "nothing yet"
    else:
        said = limit.total.shown
    return f"{said}, so far {used(priced, currency).gross.figures}" if priced.lines else said


def standing(priced: Priced, currency: str, profile: Profile) -> tuple[Fact, ...]:
    """How the price stands, for the head of the Permission tab."""
    limit, so_far = priced.limit, used(priced, currency).gross
    total = limit.total.shown if limit is not None and limit.total is not None else "no limit yet"
    over = limit.tolerance if limit is not None else None
    more = f"and {over.figures} over it without asking · {profile.title}" if over is not None and over.units else ""
    facts = [Fact("Allowed", total, more or f"nothing over it without asking · {profile.title}", strong=True)]
    if priced.lines:
        facts += [Fact("Lines come to", *_sum(customers(priced, currency))), Fact("Done so far", so_far.shown)]
    payer = priced.authority
    if payer is not None:
        facts.append(Fact("The payer allowed", payer.total.shown if payer.total else "without a limit"))
    return tuple(facts)


def _sum(totals: Totals) -> tuple[str, str]:
    taxes = [f"{tax.figures} tax at {rate} %" for rate, tax in totals.taxes.items()]
    unknown = [f"{totals.unpriced} without a price yet"] if totals.unpriced else []
    return totals.gross.shown, " · ".join([f"{totals.net.figures} net", *taxes, *unknown])
