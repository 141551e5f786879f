"""Four people of a job: who brought the vehicle, whose it is, who may allow work, who pays."""

from jobbook.core.jobs import PAYERS, Job
from jobbook.services.office import parties
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Fact, options_of
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Signing

KEY = "people"


def block(book: OpenBook, job: Job) -> Block:
    told = parties.parties(book, job)
    pays = told.payer if told.payer == "customer" else ", ".join(filter(None, (told.payer, told.payer_name)))
    said = (
        ("Customer", told.customer),
        ("Brought by", told.brought_by),
        ("Belongs to", told.owner),
        ("May allow work", told.may_authorise),
        ("Pays", pays),
    )
    facts = tuple(Fact(title, value or "not recorded", strong=False) for title, value in said)
    payers = options_of(PAYERS)
    asks = (
        Ask("brought_by", "Brought by, if not the customer", required=False, value=job.brought_by or ""),
        Ask("may_authorise", "May allow work, if not the customer", required=False, value=job.may_authorise or ""),
        Ask("payer", "Who pays", "list", payers, value=job.payer),
        Ask("payer_name", "Payer by name, if not the customer", required=False, value=job.payer_name or ""),
    )
    other = Deed(KEY, "Other people…", asks, explain="What was said at arrival stays readable in the book.")
    return Block("People", facts=facts, deeds=(other,))


def keep(book: OpenBook, by: Signing, job: int, given: Answers) -> str:
    said = {key: given[key].strip() for key in ("brought_by", "may_authorise", "payer", "payer_name")}
    parties.keep_parties(book, by.who, job, **said)
    return "The people of this job"
