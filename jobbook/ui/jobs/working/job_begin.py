"""Beginning a method, and the figures that a begun method still lacks for the vehicle's variant. No Qt in here."""

from collections.abc import Mapping

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.services.house import shop
from jobbook.services.job.methods import MethodCard
from jobbook.services.measured.torque_at_work import look_before_keeping
from jobbook.services.opened import OpenBook
from jobbook.services.sheet.lacking import Lacking
from jobbook.services.sheet.sheets import Ask, Option, options_of

CORNER = "corner"
OPTION = "option "
CONFIRMED = "confirmed"  # what looks wrong was read in the document once more
YES_NO = (Option("yes", "yes"), Option("no", "no"))
SHAPES = {"torque": "like 50 N·m, then +90°", "length": "in mm", "pressure": "in bar", "time": "like 2 min"}


def begin_asks(card: MethodCard) -> tuple[Ask, ...]:
    """What is asked before a method is begun: where, and its yes-or-no questions."""
    corners = options_of(card.corners)
    where = (Ask(CORNER, "At which corner", "choice", corners),) if corners else ()
    options = (Ask(OPTION + key, question, "choice", YES_NO) for key, question in card.options.items())
    return (*where, *options)


def answered_options(given: Mapping[str, str]) -> dict[str, bool]:
    """The answered options of a method, by their keys."""
    return {name.removeprefix(OPTION): answer == "yes" for name, answer in given.items() if name.startswith(OPTION)}


def figure_asks(lack: Lacking) -> tuple[Ask, ...]:
    """One question a figure, then the document that they all were read from."""
    asked = tuple(
        Ask(key, _label(title, kind, lack.fasteners.get(key, "")), required=False) for key, kind, title in lack.figures
    )
    source = (
        Ask("tolerance", "Tolerance, where one is given for all of these torques", required=False),
        Ask("document", "Document"),
        Ask("edition", "Edition or date"),
    )
    return (*asked, *source)


def _label(title: str, kind: str, fastener: str) -> str:
    bolt = f" ({fastener})" if fastener else ""
    return f"{title}{bolt}, {SHAPES.get(kind, 'with its unit')}"


def keep_figures(book: OpenBook, who: Person, lack: Lacking, given: Mapping[str, str]) -> str:
    """Keep every figure that was typed, with its source, for the variant. Refused where none was; Doubtful, before any
    is kept, where a torque does not suit its bolt and nobody has confirmed yet that it stands so."""
    if not lack.variant:
        raise Refused("No figure was kept: give the vehicle its variant on the vehicle's page first.")
    typed = [figure for figure in lack.figures if given[figure[0]].strip()]
    if not typed:
        raise Refused("No figure was kept: none was typed.")
    confirmed = bool(given.get(CONFIRMED))
    for key, kind, _ in typed:
        if kind == "torque":
            look_before_keeping(given[key], given["tolerance"], lack.fasteners.get(key, ""), confirmed)
    for key, kind, title in typed:
        shop.keep_specification(
            book,
            who,
            variant=lack.variant,
            key=key,
            kind=kind,
            title=title,
            text=given[key],
            document=given["document"],
            edition=given["edition"],
            tolerance=given["tolerance"] if kind == "torque" else "",
            fastener=lack.fasteners.get(key, ""),
            confirmed=confirmed,
        )
    return f"{len(typed)} figures kept for {lack.variant}" if len(typed) != 1 else f"1 figure kept for {lack.variant}"
