"""The list of figures, judging: readings, limits, life of parts, warranty."""

from jobbook.core.figures import given as read
from jobbook.core.figures.doubt import decide, readings
from jobbook.core.figures.figure import Figure, Input, amount, number
from jobbook.core.figures.partlife import compare_lives, part_life
from jobbook.core.figures.wear import wear_link

MOST_MONTHS = 600

ROWS = (
    Figure(
        "readings",
        "Mean and uncertainty of repeated readings",
        (
            Input("values", read.figures, "list of figures"),
            Input("resolution", read.not_negative, "figure", optional=True),
            Input("gauge_expanded", read.not_negative, "uncertainty with k = 2", optional=True),
        ),
        readings,
        ("mean", "deviation", "uncertainty", "combined", "freedom", "expanded", "unit"),
        "GUM (JCGM 100) 4.2, 4.3.7, 5.1, G.4",
    ),
    Figure(
        "decide",
        "A reading against its limits, with a guard band",
        (
            *(Input(key, read.measured, "figure") for key in ("value", "lower", "upper")),
            Input("expanded", read.not_negative, "uncertainty with k = 2"),
        ),
        decide,
        ("verdict",),
        "ISO 14253-1, JCGM 106, ILAC-G8",
    ),
    Figure(
        "part-life",
        "Share of parts that survives to a time",
        (
            Input("durations", read.numbers, "list of numbers in one unit"),
            Input("failed", read.answers, "list of 1 (failed) and 0 (still alive)"),
            number("at", least=0, optional=True),
        ),
        part_life,
        ("survival", "low", "high", "median"),
        "Kaplan and Meier 1958; 95 % log-log limits",
    ),
    Figure(
        "part-life-compare",
        "Whether the parts of two suppliers live alike",
        (
            Input("first", read.sample, "durations and failed, or 6 6 6+ 7 with a plus behind those alive"),
            Input("second", read.sample, "the same of the other supplier"),
        ),
        compare_lives,
        ("chi_square", "p"),
        "Mantel 1966 (log-rank)",
    ),
    Figure(
        "wear-link",
        "Whether a failure lies within months and distance after the fit",
        (
            *(Input(key, read.day, "date such as 2024-02-29") for key in ("fit_date", "failure_date")),
            *(amount(key, "km", least=0) for key in ("fit_odometer", "failure_odometer")),
            number(
                "months", least=0, most=MOST_MONTHS, optional=True, reader=read.whole, says="whole number of months"
            ),
            amount("distance", "km", least=0, optional=True),
        ),
        wear_link,
        ("inside", "days_left", "distance_left", "distance_unit"),
        "Calendar months; limits from the warranty",
    ),
)
