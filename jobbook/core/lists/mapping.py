"""Which column of a list holds which fact: guessed by its heading, or said by somebody."""

import unicodedata
from collections.abc import Mapping, Sequence

from jobbook.core.errors import Refused
from jobbook.core.lists.columns import KINDS, Column

NOT_TAKEN = ""
UMLAUTS = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue"})

Mapped = tuple[str, ...]  # for each column of the list the name of its fact, or ""


def folded(heading: str) -> str:
    """A heading in small letters and digits."""
    apart = unicodedata.normalize("NFKD", unicodedata.normalize("NFC", heading).casefold().translate(UMLAUTS))
    return "".join(sign for sign in apart if sign.isalnum())


def guess(kind: str, headings: Sequence[str]) -> Mapped:
    """The facts that these headings seem to mean. A fact that one column alone can hold is given to the first."""
    taken: list[str] = []
    for heading in headings:
        name = _named(kind, folded(heading))
        again = name in taken and name != NOT_TAKEN and not column_of(kind, name).between
        taken.append(NOT_TAKEN if again else name)
    return tuple(taken)


def _named(kind: str, heading: str) -> str:
    by_name = (one.name for one in KINDS[kind] if heading in (folded(one.name), folded(one.title)))
    by_words = (one.name for one in KINDS[kind] if heading in one.called)
    return next(by_name, "") or next(by_words, NOT_TAKEN)


def said(kind: str, headings: Sequence[str], start: Mapped, told: Mapping[str, str]) -> Mapped:
    """The mapping with what somebody said of some headings; "" or "-" says that a column is left out.

    Raises Refused for a heading that is not there and a fact that there is none of."""
    by_heading = {folded(heading): place for place, heading in enumerate(headings)}
    names = {word: one.name for one in KINDS[kind] for word in (folded(one.name), folded(one.title))}
    mapped = list(start)
    for heading, fact in told.items():
        if folded(heading) not in by_heading:
            raise Refused(f"Nothing was read: the list has no column “{heading}”. It has {_listed(headings)}.")
        wanted = fact.strip()
        if wanted not in ("", "-") and folded(wanted) not in names:
            facts = ", ".join(one.name for one in KINDS[kind])
            raise Refused(f"Nothing was read: “{fact}” is nothing that {kind} have. They have {facts}.")
        mapped[by_heading[folded(heading)]] = names.get(folded(wanted), NOT_TAKEN)
    _look_at_twice(kind, headings, mapped)
    return tuple(mapped)


def _look_at_twice(kind: str, headings: Sequence[str], mapped: Sequence[str]) -> None:
    """Refused where two columns would hold what one alone can hold."""
    for one in KINDS[kind]:
        both = [headings[place] for place, name in enumerate(mapped) if name == one.name]
        if len(both) > 1 and not one.between:
            raise Refused(f"Nothing was read: {_listed(both)} cannot both be “{one.title}”; leave one of them out.")


def look_at_mapping(kind: str, mapped: Mapped, headings: Sequence[str]) -> None:
    """Refused where a fact that every row needs has no column."""
    missing = [one for one in KINDS[kind] if one.needed and one.name not in mapped]
    if missing:
        raise Refused(
            f"Nothing was read: no column of the list is taken for “{missing[0].title}”. It has {_listed(headings)}; "
            "say which of them it is."
        )


def column_of(kind: str, name: str) -> Column:
    return next(one for one in KINDS[kind] if one.name == name)


def _listed(headings: Sequence[str]) -> str:
    return ", ".join(f"“{heading}”" for heading in headings if heading)
