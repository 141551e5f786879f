"""Records of the arrival paper and the estimate, of the invented workshop."""

from dataclasses import replace
from typing import Any

from jobbook.paperwork.arrival import Arrival
from jobbook.paperwork.estimate import Estimate, EstimateLine
from jobbook.paperwork.issue import Party
from jobbook.paperwork.signed import Allowed, Drawn
from tests.paperwork.records import declined, heights, identity, issue

PARTY = Party("Ansel Harrow", "11 Ropewalk, Quillhaven")
NOTICE = "Nothing is done beyond what is allowed here. If more is found we ask first."
TEXT = "I allow the repair up to the limit: renew the strut. The price is at most 1 480.00 EUR, tax included."


def drawn(**changes: Any) -> Drawn:
    return replace(Drawn("A. Harrow", "23 Nov 2026 17:04", TEXT, "SHA-256 9f2c41d788ab03e5"), **changes)


def allowed() -> Allowed:
    by = "Ansel Harrow, by telephone, Quillhaven 0147, 23 Nov 2026 17:02"
    return Allowed(
        "The repair up to the limit: renew the front left strut", "1 480.00 EUR", by, "changed to 1 500.00 EUR"
    )


def arrival(**changes: Any) -> Arrival:
    made = Arrival(
        issue(),
        "Job 2041: Varnholt estate taken in",
        PARTY,
        "Quillhaven 0147",
        identity(),
        (("Taken in", "23 Nov 2026 16:50, by Jonas Wexley"), ("Brought by", "his son"), ("Promised", "24 Nov 17:00")),
        (("Keys", "two, one with remote"), ("In the vehicle", "child seat, ladder"), ("Loan car", "KX-11-LON")),
        (("Arrived", "driven in"), ("Condition", "scratch on the tailgate, old"), ("Warning lamps", "level, yellow")),
        ("Front left is right down in the morning.", "It also squeaks."),
        replace(heights(), judged="", apart="", after="", limits=""),
        (allowed(),),
        (("Put together again", "140.00 EUR, tax included"), ("Old parts", "wants to see them")),
        (declined(),),
        (NOTICE,),
    )
    return replace(made, **changes)


def lines() -> tuple[EstimateLine, ...]:
    return (
        EstimateLine("ring", "Air strut, front left", "AS-4471-L · new", "1", "640.00", "19 %", "640.01"),
        EstimateLine("disc", "Strut renewed, filled, calibrated", "done", "3.5 h", "78.00", "19.5 %", "273.00"),
    )


def estimate(**changes: Any) -> Estimate:
    made = Estimate(
        issue(),
        "estimate",
        "Estimate: Air strut, front left",
        PARTY,
        identity(),
        (("Taken in", "23 Nov 2026 16:50"), ("Odometer", "128 410 km"), ("Pays", "Tideway Cover")),
        lines(),
        (("Before tax", "913.00"), ("Tax at 19 %", "173.47"), ("To pay, tax included", "1 086.47 EUR")),
        "1 of the lines has no price yet: the sum is not whole.",
        (EstimateLine("bar", "Second strut", "declined", "1", "641.00", "20 %", "642.00"),),
        (("Holds until", "23 Dec 2026"), ("Left out", "What only shows when the strut is out.")),
        (declined(),),
        (allowed(),),
        ("Never drive on a spring that has lost its air.",),
        (NOTICE,),
        (drawn(),),
    )
    return replace(made, **changes)
