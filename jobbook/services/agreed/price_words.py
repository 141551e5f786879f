"""What the job page says of money: what is allowed, what the lines come to, what was used so far."""

from jobbook.core.desk.estimate import Totals
from jobbook.core.desk.price import Given, Priced, above, customers, used
from jobbook.services.house.profiles import NEUTRAL, profiles
from jobbook.services.sheet.sheets import Fact

__all__ = ["above", "allowed_and_used", "over_words", "standing"]


def allowed_and_used(priced: Priced, currency: str) -> str:
    """The few words of the left page."""
    limit = priced.limit
    if limit is None or limit.total is None:
        said = "without a limit" if limit is not None else "nothing yet"
    else:
        said = limit.total.shown
    return f"{said}, so far {used(priced, currency).gross.figures}" if priced.lines else said


def standing(priced: Priced, currency: str) -> tuple[Fact, ...]:
    """How the price stands, for the head of the Permission tab."""
    limit, so_far = priced.limit, used(priced, currency).gross
    if limit is None or limit.total is None:
        facts = [Fact("Allowed", "no limit yet", strong=True)]
    else:
        facts = [Fact("Allowed", limit.total.shown, over_words(limit), strong=True)]
    if priced.lines:
        facts += [Fact("Lines come to", *_sum(customers(priced, currency))), Fact("Done so far", so_far.shown)]
    payer = priced.authority
    if payer is not None:
        facts.append(Fact("The payer allowed", payer.total.shown if payer.total else "without a limit"))
    return tuple(facts)


def over_words(limit: Given) -> str:
    """How far the price may go over this limit without asking, and by whose rules; the profile is that of its day."""
    profile = profiles().get(limit.profile)
    rules = f", by the rules of {profile.title}" if profile is not None and profile.key != NEUTRAL else ""
    over = limit.tolerance
    return f"{f'and {over.figures}' if over is not None and over.units else 'nothing'} over it without asking{rules}"


def _sum(totals: Totals) -> tuple[str, str]:
    taxes = [f"{tax.figures} tax at {rate} %" for rate, tax in totals.taxes.items()]
    unknown = [f"{totals.unpriced} without a price yet"] if totals.unpriced else []
    return totals.gross.shown, " · ".join([f"{totals.net.figures} net", *taxes, *unknown])
