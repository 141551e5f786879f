"""What follows from how long parts lived, in plain words, with a warning where the numbers are small."""

from collections.abc import Sequence
from fractions import Fraction

from jobbook.core.errors import Refused
from jobbook.core.figures.partlife import Life, Sample, alive_at, compare_lives, part_life
from jobbook.core.vehicle.life_curves import sample
from jobbook.core.vehicle.part_lives import DAYS_IN_A_YEAR, Watched
from jobbook.core.written import thousands

# Common practice, no standard: so few failures or parts say little, whatever is reckoned from them. The first is the
# old rule that a chi-square needs five expected cases on each side (Cochran 1954, from memory).
FEW_FAILURES, FEW_PARTS = 5, 20
USUAL_LEVEL = 0.05  # convention: chance alone gives as much in less than 1 of 20 cases
LOOKED_AT = (1, 2, 3, 5, 10)  # years that are said in words, as far as there is something to say
FEW = "Few failures ({}): what is reckoned from them is a hint, not a finding."
KM_LOOKED_AT = (20_000, 50_000, 100_000, 200_000)


def alike(first: Sample, second: Sample, names: tuple[str, str], measure: str) -> tuple[str, ...]:
    """Whether two samples live alike, in plain words, with a warning where the numbers are small."""
    try:
        found = compare_lives(first, second)
    except Refused:
        return (f"Nothing can be compared yet: no part failed while parts of both were watched by {measure}.",)
    due = found.failed + sum(second.failed) - found.expected
    chance = f"Chance alone gives as large a difference in {_in_hundred(found.p)} of 100 cases"
    if found.p < USUAL_LEVEL:
        worse = names[0] if found.failed > found.expected else names[1]
        said = f"They do not live alike: those of {worse} fail earlier. {chance}."
    else:
        said = f"No difference is shown. {chance}; that does not prove that they live alike."
    counts = f"{names[0]}: {found.failed} failed, {found.expected:.1f} would have if both lived alike."
    few = _few(first, second, min(found.expected, due))
    return (said, counts, *((few,) if few else ()))


def _in_hundred(p: float) -> str:
    return "less than 1" if p < 0.01 else str(round(p * 100))


def _few(first: Sample, second: Sample, least_due: float) -> str:
    if least_due >= FEW_FAILURES and min(len(first.durations), len(second.durations)) >= FEW_PARTS:
        return ""
    return (
        f"Few parts: under {FEW_PARTS} of one, or under {FEW_FAILURES} failures to be expected. Treat this as a hint, "
        "not as a finding, and look at each failure by itself."
    )


def life_words(name: str, parts: Sequence[Watched], measure: str) -> list[str]:
    """How many there were and what became of them, how many live how long, and what is not known."""
    before = f"{name}: " if name else ""
    listed = [one.part for one in parts]
    failed = sum(part.failed for part in listed)
    on = sum(not part.off_at for part in listed)
    unsaid = sum(bool(part.off_at) and part.reason in ("", "not known") for part in listed)
    told = [f"{len(listed)} fitted, {failed} failed, {on} still on when last seen"]
    other = len(listed) - failed - on
    told += [f"{other} came off otherwise"] if other else []
    said = [f"{before}{', '.join(told)}."]
    one = sample(parts, measure)
    if unsaid:
        said.append(
            f"{unsaid} came off and nobody said why: counted as alive until then, so the truth may be worse. "
            "Say why under Parts of their jobs."
        )
    if len(one.durations) < len(parts):
        said.append(f"{len(parts) - len(one.durations)} left out: how far they ran is not known for certain.")
    if not one.durations:
        return said
    few = [FEW.format(failed)] if failed < FEW_FAILURES and not name else []
    return [*said, *few, *_lengths(one.durations, one.failed, measure)]


def _lengths(durations: Sequence[Fraction], failed: Sequence[bool], measure: str) -> list[str]:
    marks = [(mark * DAYS_IN_A_YEAR, f"{mark} year{'s' if mark > 1 else ''}") for mark in LOOKED_AT]
    if measure == "km":
        marks = [(Fraction(mark), _km(mark)) for mark in KM_LOOKED_AT]
    said = []
    for at, words in marks:
        if at <= max(durations):
            said.append(_after(words, part_life(durations, failed, at), alive_at(durations, at)))
    half = part_life(durations, failed).median
    if half is None:
        return [*said[-2:], "More than half still work, so half of their life is not known yet."]
    length = f"{float(half / DAYS_IN_A_YEAR):.1f} years" if measure == "days" else _km(round(half))
    return [*said[-2:], f"Half fail within {length}."]


def _after(words: str, found: Life, watched: int) -> str:
    """What lives at a time; before the first failure the method has no limits, so the count alone is said."""
    if found.survival == 1:
        return f"None had failed after {words}; {watched} {'was' if watched == 1 else 'were'} watched that long."
    sure = _sure(found.low, found.high)
    return f"After {words} {_percent(found.survival)} still work{sure}; {watched} watched that long."


def _km(length: int) -> str:
    return f"{thousands(length)} km"


def _percent(share: Fraction | float) -> str:
    return f"{float(share) * 100:.0f} %"


def _sure(low: float | None, high: float | None) -> str:
    if low is None or high is None:
        return ""
    return f" (95 % limits {_percent(low)} to {_percent(high)})"
