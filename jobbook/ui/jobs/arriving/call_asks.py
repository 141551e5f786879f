"""What is asked when somebody calls, in the order in which one asks it on the telephone."""

from collections.abc import Callable

from jobbook.core.desk.calls import AFTER, DRIVEN, TEMPERATURES
from jobbook.core.jobs import PAYERS
from jobbook.core.work.model import CORNERS
from jobbook.services.sheet.sheets import Ask, Option, options_of
from jobbook.ui.forms import Section

Asked = tuple[Ask | Section, ...]
Tr = Callable[[str], str]
When = Callable[[str], str]  # says back the day or time that was typed


def caller_asks(tr: Tr, when: When) -> Asked:
    payers = options_of(PAYERS)
    return (
        Section(tr("Who calls, about which vehicle")),
        Ask("caller", tr("Name")),
        Ask("phone", tr("Number to call back"), "serial"),
        Ask("plate", tr("Plate"), "serial", required=False),
        Ask("vehicle", tr("Make and model"), required=False),
        Ask("payer", tr("Who pays"), "choice", payers, value="customer"),
        Section(tr("When it comes")),
        Ask("driven", tr("Can it be driven?"), "choice", options_of(DRIVEN), value="unknown"),
        Ask("overnight", tr("Stands overnight for a leak-down"), "choice", YES_NO, value="no"),
        Ask("expected", tr("Appointed for, like fri 17:00"), "time", required=False, hint=when),
    )


def complaint_asks(tr: Tr) -> Asked:
    corners = options_of(CORNERS)
    return (
        Section(tr("What is wrong, in the caller's words")),
        Ask("words", tr("Complaint"), "long text"),
        Ask("warning", tr("Warning text on the dash"), required=False),
        Ask("since", tr("Since when"), required=False),
        Ask("corners", tr("Which corner"), "pieces", corners, required=False),
        Ask("temperature", tr("It shows when it is"), "choice", options_of(TEMPERATURES), value="unknown"),
        Ask("after", tr("It shows"), "choice", options_of(AFTER), value="unknown"),
        Ask("elsewhere", tr("Earlier work elsewhere"), "long text", required=False),
    )


def change_asks(tr: Tr) -> Asked:
    return (Ask("reason", tr("Why the call is changed"), required=False),)


YES_NO = (Option("yes", "yes"), Option("no", "no"))
