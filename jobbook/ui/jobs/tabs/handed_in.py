"""What was handed over with the vehicle, on the Arrival tab."""

from jobbook.core.desk.handed_in import HandedIn
from jobbook.core.written import unless_erased
from jobbook.services.office.handed_in import keep_handed_in, of_job
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.sheets import Ask, Fact
from jobbook.ui.jobs.tabs.records import Answers, Block, Deed, Signing

KEY = "handed-in"
ASKED = {
    "keys": "Keys",
    "belongings": "Left in the vehicle",
    "loan_car": "Loan car",
    "lamps": "Warning lamps, messages",
    "said": "Anything else",
}


def block(book: OpenBook, job: int) -> Block:
    told = of_job(book, job)
    values = {key: getattr(told, key) for key in ASKED}
    asks = tuple(Ask(key, title, required=False, value=values[key] or "") for key, title in ASKED.items())
    shown = (Fact(title, unless_erased(values[key]) or "not recorded", strong=False) for key, title in ASKED.items())
    label = "Change what was handed over…" if told.entry else "What was handed over…"
    return Block(
        "Handed over with it",
        facts=tuple(shown) if told.entry else (),
        nothing="Keys, belongings, a loan car, warning lamps: what the arrival paper says was handed over.",
        deeds=(Deed(KEY, label, asks, of=str(told.entry)),),
    )


def keep(book: OpenBook, by: Signing, job: int, deed: Deed, given: Answers) -> str:
    told = HandedIn(given["keys"], given["belongings"], given["loan_car"], given["lamps"], given["said"], int(deed.of))
    keep_handed_in(book, by.who, job, told)
    return "What was handed over"
