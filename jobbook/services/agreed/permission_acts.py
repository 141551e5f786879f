"""What the desk's entries mean for the work: it may be taken apart or no more, the payer said yes or took it back, the
price is covered or not, something without which this shop releases no vehicle was declined."""

from collections.abc import Iterator

from jobbook.core.desk.answers_to_findings import KINDS as ANSWER_KINDS
from jobbook.core.desk.permission import MOVED, REFUSED
from jobbook.core.desk.price import KINDS as PRICE_KINDS
from jobbook.core.desk.price import Priced, above, followed, used_up
from jobbook.core.record.journal import Entry
from jobbook.core.work.changing import replace
from jobbook.core.work.model import Act
from jobbook.services.agreed.finding_acts import FINDING, FindingAnswers

DECLINED = "declined/1"
DESK = tuple(dict.fromkeys((*PRICE_KINDS, *ANSWER_KINDS)))
STANDS_SIGNED = (DECLINED, FINDING)  # the entry is signed by who kept it; nobody else has to
BARRED = "Declined: {0}. This shop does not let a vehicle go without it."


class PermissionActs:
    """Follows the entries of one job in their order; it lives for one replay."""

    def __init__(self) -> None:
        self._priced = Priced()
        self._said = ("", "")
        self._findings = FindingAnswers()

    def acts_of(self, entry: Entry) -> Iterator[Act]:
        yield from self._findings.acts_of(entry)
        if entry.kind == DECLINED:
            yield from _barring(entry)
            return
        before = self._priced
        self._priced = followed(before, entry.kind, entry.number, entry.payload)
        yield from _permitting(entry, before, self._priced)
        yield from _authorising(entry, before, self._priced)
        said = above(self._priced), used_up(self._priced)
        if said != self._said:
            self._said = said
            yield replace(act_of("price", entry), on="price", text=said[0], reason=said[1])


def _permitting(entry: Entry, before: Priced, after: Priced) -> Iterator[Act]:
    if after.dismantling > before.dismantling:
        yield act_of("permit", entry)
    elif before.dismantling and not after.dismantling:
        why = "it belongs to another job" if entry.payload["what"] == MOVED else "the customer withdrew it"
        yield replace(act_of("permit", entry), answer="declined", reason=why)


def _authorising(entry: Entry, before: Priced, after: Priced) -> Iterator[Act]:
    if entry.payload.get("what") == REFUSED:
        yield replace(act_of("authority", entry), answer="declined", reason="the payer refused")
    elif after.authority is not None and after.authority != before.authority:
        yield replace(act_of("authority", entry), text=after.authority.valid_until)
    elif before.authority is not None and after.authority is None:
        yield replace(act_of("authority", entry), answer="declined", reason="the payer withdrew the authority")


def _barring(entry: Entry) -> Iterator[Act]:
    if entry.payload.get("bars"):
        said = BARRED.format(entry.payload["what"])
        yield replace(act_of("inspect", entry), finding="must not leave so", text=said)


def act_of(do: str, entry: Entry) -> Act:
    """The act that an entry of the desk is for the work."""
    return Act(do, id=entry.act, at=entry.done_at, by=str(entry.facts["done_by"]))
