"""What the arrival paper and the estimate say of permission: in words, with what became of it, and as it was signed."""

from collections.abc import Iterable

from jobbook.core.desk import signature
from jobbook.core.desk.money import money_or_none
from jobbook.core.desk.permission import MAY, MOVED, SCOPES, Change, Declined, counts, parts_words, withdrawn
from jobbook.core.jobs import Permission
from jobbook.core.written import ERASED, unless_erased
from jobbook.paperwork.answers import Answer
from jobbook.paperwork.signed import WIDTH, Allowed, Drawn
from jobbook.services.agreed.permission_records import Agreed
from jobbook.services.papers.gathered import JobFacts, day, moment


def allowed(there: Agreed) -> tuple[Allowed, ...]:
    """Every permission that was given, withdrawn ones too, since somebody may hold a paper that names them."""
    return tuple(_allowed(one, there.changes) for one in there.permissions)


def _allowed(one: Permission, changes: Iterable[Change]) -> Allowed:
    listed = list(changes)
    scope = SCOPES[one.scope]
    limit = _amount(one.total, one.currency)
    over = _amount(one.tolerance, one.currency)
    by = ", ".join(filter(None, (unless_erased(one.who), one.how, unless_erased(one.reached_at), moment(one.at))))
    number = f"number {one.authority}" if one.authority else ""
    right = "" if one.may in ("", "customer") else f"{MAY[one.may]} {unless_erased(one.acts_for)}".strip()
    void = "" if counts(one) else "does not count as a permission"
    became = "\n".join(
        filter(None, (number, right, void, *(_became(change) for change in listed if change.of == one.entry)))
    )
    return Allowed(
        f"{scope[0].upper()}{scope[1:]}: {one.what}",
        "withdrawn" if withdrawn(one, listed) else f"{limit}{f' + {over}' if over else ''}",
        by,
        became,
    )


def _amount(text: str, currency: str) -> str:
    money = money_or_none(text, currency)
    return money.shown if money is not None else text


def _became(change: Change) -> str:
    if change.what == MOVED:
        return f"moved to job {change.to}"
    new = (change.total and f"to {change.total}", change.valid_until and f"until {day(change.valid_until)}")
    by, why = f"by {unless_erased(change.who)}:", unless_erased(change.why)
    return " ".join(filter(None, (change.what, *new, moment(change.at), by, why)))


def declined(there: Agreed) -> tuple[Answer, ...]:
    """What was declined, each with the consequence that was said."""
    return tuple(_declined(one) for one in there.declined)


def _declined(one: Declined) -> Answer:
    by = ", ".join(filter(None, (unless_erased(one.who), one.how, unless_erased(one.reached_at), moment(one.at))))
    barred = "The shop does not let the vehicle go without it." if one.bars else ""
    return Answer(one.what, "declined", "", "\n".join(filter(None, (one.consequence, barred))), by)


def drawn(there: Agreed) -> tuple[Drawn, ...]:
    """The signatures that were drawn, of permissions that stand."""
    made = []
    for one in there.as_they_stand():
        signed = there.signature_of(one.entry)
        if signed is None:
            continue
        words = signed.signed
        picture = signature.drawing(words.path, WIDTH, unless_erased(signed.name)) if words is not None else None
        text, digest = (words.text, f"SHA-256 {words.digest}") if words is not None else (ERASED, ERASED)
        made.append(Drawn(unless_erased(signed.name), moment(signed.at), text, digest, picture))
    return tuple(made)


def parts_back(facts: JobFacts, there: Agreed) -> str:
    return parts_words(there.as_they_stand(), facts.job.parts_back) or "not asked"


def reassembly(there: Agreed) -> str:
    """What putting together again costs, if the work is taken apart and does not go on."""
    last = next((one for one in reversed(there.as_they_stand()) if one.reassembly), None)
    if last is None:
        return "No charge for putting together again was announced, so none is made if the work does not go on."
    return f"{_amount(last.reassembly, last.currency)}, tax included, if it was taken apart and the work does not go on"
