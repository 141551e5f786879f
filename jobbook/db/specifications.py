"""Specifications by variant: every figure that was ever entered stays, and a day says which of them are in force."""

from collections.abc import Callable, Sequence
from datetime import datetime
from typing import Any

from jobbook.core.errors import NotFound
from jobbook.core.vehicle.specifications import Day, OlderUse, SecondLook, Specification, in_force, looked_at
from jobbook.core.vehicle.variants import Variant
from jobbook.db.rows import Rows, payload_of, record
from jobbook.db.shelves import entry_facts

SPECIFICATION = "SELECT s.entry AS number, e.body FROM specification s JOIN journal e ON e.number = s.entry"
TOLD = """
    SELECT number, kind, replaces, body FROM journal
    WHERE kind = 'specification/1' AND body -> 'payload' ->> 'variant' = :variant
    UNION ALL SELECT number, kind, replaces, body FROM journal
    WHERE kind = 'second-look/1' AND body -> 'payload' ->> 'variant' = :variant
    ORDER BY number
"""
NAMES = """
    SELECT variant FROM specification
    UNION SELECT body -> 'payload' ->> 'variant' AS variant FROM journal WHERE kind = 'variant/1' ORDER BY variant
"""
VARIANTS = "SELECT number, body FROM journal WHERE kind = 'variant/1' ORDER BY number"
CHOSEN = """
    SELECT number, body FROM journal
    WHERE kind = 'variant-chosen/1' AND CAST(body -> 'payload' ->> 'vehicle' AS {int}) = :vehicle ORDER BY number
"""
VARIANT_THEN = """
    SELECT body FROM journal
    WHERE kind = 'vehicle/1' AND CAST(body -> 'payload' ->> 'vehicle' AS {int}) = :vehicle AND number < :before
    ORDER BY number DESC LIMIT 1
"""
USED = """
    SELECT j.job, j.body FROM journal j
    JOIN job ON job.number = j.job JOIN vehicle ON vehicle.id = job.vehicle JOIN journal v ON v.number = vehicle.entry
    WHERE j.kind = 'act/1' AND j.body -> 'payload' -> 'act' ->> 'do' = 'figure'
      AND j.body -> 'payload' -> 'act' -> 'figure' ->> 'key' = :key AND v.body -> 'payload' ->> 'variant' = :variant
    ORDER BY j.number
"""


class Specifications:
    def __init__(self, rows: Rows, clock: Callable[[], datetime]) -> None:
        self._rows, self._clock = rows, clock

    def for_variant(self, variant: str, day: Day | None = None) -> list[Specification]:
        """The figures in force for a variant on a day, by key; today's where no day is named."""
        day = day or Day(self._clock().date().isoformat())
        return list(in_force(self.ever_of(variant, day.before), day))

    def ever_of(self, variant: str, before: int = 0) -> tuple[Specification, ...]:
        """Every figure that was entered for a variant, in the order of entry, with the second look at each. One that
        was corrected is left out. `before`: as the book stood before that entry."""
        rows = [row for row in self._rows.all(TOLD, variant=variant) if not before or row["number"] < before]
        replaced = {row["replaces"] for row in rows}
        kept = [row for row in rows if row["number"] not in replaced]
        figures = [_specification(row) for row in kept if row["kind"] == "specification/1"]
        return looked_at(figures, (_look(row) for row in kept if row["kind"] == "second-look/1"))

    def names(self) -> list[str]:
        """The variants that figures or facts were entered for."""
        return [row["variant"] for row in self._rows.all(NAMES)]

    def variants(self) -> list[str]:
        """The variants that have figures."""
        return [row["variant"] for row in self._rows.all("SELECT DISTINCT variant FROM specification ORDER BY variant")]

    def get(self, number: int) -> Specification:
        """One figure, the last one of its key. Raises NotFound, also where a newer one was entered since."""
        row = self._rows.first(f"{SPECIFICATION} WHERE s.id = :number", number=number)
        if row is None:
            raise NotFound(f"There is no figure {number} in force; nothing was changed.")
        return _specification(row)

    def known_variants(self) -> list[Variant]:
        """What is known of each variant, as it was told last, by name."""
        told = {facts["variant"]: facts | {"entry": number} for number, facts in self._facts(VARIANTS)}
        return [record(Variant, facts | {"name": name}) for name, facts in sorted(told.items())]

    def chosen_for(self, vehicle: int) -> list[dict[str, Any]]:
        """Who said which variant a vehicle is, and from what, in the order in which it was said."""
        entries = self._rows.all(CHOSEN.format(int=self._int), vehicle=vehicle)
        return [_chosen(entry_facts(row["body"])) for row in entries]

    def variant_then(self, vehicle: int, before: int) -> str | None:
        """The variant that a vehicle was taken for before an entry; None where the book did not know the vehicle."""
        body = self._rows.value(VARIANT_THEN.format(int=self._int), vehicle=vehicle, before=before)
        return str(payload_of(body).get("variant", "")) if body is not None else None

    def used(self, variant: str, key: str) -> list[OlderUse]:
        """The figures of this key that jobs of this variant took over, in the order of entry."""
        return [_use(row) for row in self._rows.all(USED, variant=variant, key=key)]

    @property
    def _int(self) -> str:
        return "INTEGER" if self._rows.on_sqlite else "BIGINT"

    def _facts(self, sql: str, **values: Any) -> Sequence[tuple[int, dict[str, Any]]]:
        return [(row["number"], payload_of(row["body"])) for row in self._rows.all(sql, **values)]


def _specification(row: Any) -> Specification:
    facts = entry_facts(row["body"])
    payload = facts["payload"]
    read = {"id": payload.get("specification") or row["number"], "entry": row["number"]}
    return record(Specification, payload | read | {"read_by": facts["done_by"], "entered_at": facts["entered_at"]})


def _look(row: Any) -> SecondLook:
    facts = entry_facts(row["body"])
    return SecondLook(int(facts["payload"]["figure"]), str(facts["done_by"]), str(facts["payload"]["doubt"]))


def _chosen(facts: dict[str, Any]) -> dict[str, Any]:
    return dict(facts["payload"]) | {"by": facts["done_by"], "at": facts["done_at"]}


def _use(row: Any) -> OlderUse:
    facts = entry_facts(row["body"])
    figure = facts["payload"]["act"]["figure"]
    told = (figure.get(name, "") for name in ("text", "tolerance", "document", "edition"))
    return OlderUse(row["job"], str(facts["done_at"]), *told)
