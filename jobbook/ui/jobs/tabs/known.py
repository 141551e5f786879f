"""Parts that the shop knows by their numbers, offered while one of them is typed. What a part is and whose it is can be
known; its condition and its serial are read from the one in hand."""

from collections.abc import Callable, Mapping

from jobbook.core.vehicle.parts import KnownPart
from jobbook.services.house.known_parts import known_parts
from jobbook.services.opened import OpenBook
from jobbook.ui.jobs.tabs.records import Answers, Offer, Offers

ENOUGH, MOST = 2, 4  # letters before anything is offered, and how many are


def offers(book: OpenBook, typed: tuple[str, ...], fills: Callable[[KnownPart], Mapping[str, str]]) -> Offers:
    """Offers by what stands in the `typed` fields, the first that something is found by. Nothing is offered that would
    change nothing."""

    def offered(given: Answers) -> tuple[Offer, ...]:
        for name in typed:
            text = given.get(name, "").strip()
            found = known_parts(book, text=text, limit=MOST).rows if len(text) >= ENOUGH else ()
            told = (Offer(_words(one), _news(fills(one), given)) for one in found)
            if news := tuple(one for one in told if one.fills):
                return news
        return ()

    return offered


def _words(part: KnownPart) -> str:
    return " · ".join(filter(None, (part.number, part.title, part.supplier)))


def _news(fills: Mapping[str, str], given: Answers) -> Mapping[str, str]:
    return {name: text for name, text in fills.items() if text and name in given and given[name].strip() != text}
