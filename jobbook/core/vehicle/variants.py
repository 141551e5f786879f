"""Variants: what a specification is valid for. A variant has a make and model, a span of build and equipment codes."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from jobbook.core.errors import Refused

FITS, MAY_FIT = "fits", "may fit"
_BUILT = re.compile(r"([12][0-9]{3})(?:-(0[1-9]|1[0-2]))?")
_PARTED = re.compile(r"[\s,;]+")


@dataclass(frozen=True)
class Variant:
    """One variant by its name. `built_from` and `built_to` are a year or a year with its month, both included, empty
    where there is no end; every code of `codes` is on a vehicle of this variant."""

    name: str
    make: str = ""
    model: str = ""
    built_from: str = ""
    built_to: str = ""
    codes: tuple[str, ...] = ()
    note: str = ""
    entry: int = 0


@dataclass(frozen=True)
class Seen:
    """What is known of a vehicle. `codes` is None where nobody has read its equipment codes."""

    make: str = ""
    model: str = ""
    built: str = ""
    codes: tuple[str, ...] | None = None


@dataclass(frozen=True)
class Fit:
    """A variant that a vehicle may be. `open` says what is not known of the vehicle yet."""

    variant: Variant
    open: tuple[str, ...] = ()

    @property
    def word(self) -> str:
        return MAY_FIT if self.open else FITS


def read_built(text: str, what: str = "The date of build") -> str:
    """Return 2019 or 2019-05 as typed; empty stays empty. Refused: anything else."""
    typed = text.strip()
    if typed and not _BUILT.fullmatch(typed):
        raise Refused(f"{what} “{typed[:20]}” was not kept: write the year, or year and month like 2019-05.")
    return typed


def read_codes(text: str) -> tuple[str, ...]:
    """Return equipment codes as they stand on a plate: capitals, each once, parted by spaces or commas."""
    return tuple(dict.fromkeys(code.upper() for code in _PARTED.split(text.strip()) if code))


def look_at_span(variant: Variant) -> None:
    """Refused where the span of build ends before it begins."""
    if variant.built_from and variant.built_to and _last(variant.built_to) < _first(variant.built_from):
        raise Refused(
            f"The variant was not kept: it is built from {variant.built_from} to {variant.built_to}, which ends before "
            "it begins. Look at both."
        )


def fits(variants: Iterable[Variant], seen: Seen) -> tuple[Fit, ...]:
    """Return the variants that a vehicle may be: those that certainly fit first, then by name.

    What contradicts is left out; what is not known of the vehicle leaves it open and is named. A variant of which
    nothing but its name is known is never offered by itself."""
    found = [fit for variant in variants if (fit := _fit(variant, seen)) is not None]
    return tuple(sorted(found, key=lambda fit: (len(fit.open), fit.variant.name)))


def _fit(variant: Variant, seen: Seen) -> Fit | None:
    if not (variant.make or variant.model or variant.codes):
        return None
    parts = (
        _same_name(variant.make, seen.make, "make"),
        _same_name(variant.model, seen.model, "model"),
        _within(variant, seen.built),
        _equipped(variant.codes, seen.codes),
    )
    if any(part is None for part in parts):
        return None
    return Fit(variant, tuple(part for part in parts if part))


def _same_name(wanted: str, there: str, what: str) -> str | None:
    """Empty where it is the same, a word where the vehicle's is not known, None where it is another."""
    if not wanted:
        return ""
    if not there:
        return f"{what} not known"
    return "" if wanted.casefold().split() == there.casefold().split() else None


def _within(variant: Variant, built: str) -> str | None:
    if not (variant.built_from or variant.built_to):
        return ""
    if not _BUILT.fullmatch(built.strip()):
        return "date of build not known"
    first, last = _first(built.strip()), _last(built.strip())
    low = _first(variant.built_from) if variant.built_from else first
    high = _last(variant.built_to) if variant.built_to else last
    if last < low or first > high:
        return None
    return "" if low <= first and last <= high else "month of build not known"


def _first(built: str) -> str:
    return built if "-" in built else f"{built}-01"


def _last(built: str) -> str:
    return built if "-" in built else f"{built}-12"


def _equipped(wanted: Sequence[str], there: Sequence[str] | None) -> str | None:
    if not wanted:
        return ""
    if there is None:
        return f"equipment codes not read: {', '.join(wanted)}"
    return "" if set(wanted) <= set(there) else None


def span_words(variant: Variant) -> str:
    """“built 2019 to 2021-06”, or nothing where no span is known."""
    if variant.built_from and variant.built_to:
        return f"built {variant.built_from} to {variant.built_to}"
    if variant.built_from:
        return f"built from {variant.built_from}"
    return f"built to {variant.built_to}" if variant.built_to else ""
