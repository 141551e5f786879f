"""Fitted parts where they stand: of a vehicle, of a kind over the whole book, and the odometers beside them."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from jobbook.core.vehicle.part_lives import Counted, FittedPart, Kind
from jobbook.core.vehicle.vehicles import Odometer
from jobbook.core.vehicle.warranty import Term
from jobbook.db.rows import Rows, payload_of, record

AXLE = "CASE substr(f.place, 1, 1) WHEN 'F' THEN 'F' WHEN 'R' THEN 'R' ELSE '' END"
PART = "SELECT f.*, j.vehicle FROM fitted f JOIN job j ON j.number = f.job WHERE f.fitted_at <> ''"
OF_VEHICLE = """
    SELECT f.*, j.vehicle, j.customer, e.body FROM job j CROSS JOIN fitted f JOIN journal e ON e.number = f.entry
    WHERE j.vehicle = :vehicle AND f.job = j.number AND f.fitted_at <> '' ORDER BY f.fitted_at, f.entry
"""
COUNTS = f"""
    SELECT f.function, {AXLE} AS axle, {{columns}} MAX(f.title) AS title, COUNT(*) AS fitted,
        SUM(CASE WHEN f.off_at = '' THEN 1 ELSE 0 END) AS still_on,
        SUM(CASE WHEN f.off_at <> '' AND f.reason = 'failed' THEN 1 ELSE 0 END) AS failed,
        SUM(CASE WHEN f.off_at <> '' AND f.reason IN ('', 'not known') THEN 1 ELSE 0 END) AS unsaid
    FROM fitted f WHERE f.fitted_at <> '' GROUP BY f.function, axle {{grouped}} ORDER BY COUNT(*) DESC, f.function, axle
"""
BY = {"kind": (), "supplier": ("supplier",), "number": ("number", "supplier")}


class PartLives:
    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def counted(self, by: str) -> list[Counted]:
        """How many of each kind there are; `by` is kind, supplier or number."""
        named = BY[by]
        columns = "".join(f"f.{name}, " for name in named)
        grouped = "".join(f", f.{name}" for name in named)
        found = self._rows.all(COUNTS.format(columns=columns, grouped=grouped))
        return [_counted(row, named) for row in found]

    def of_kind(self, kind: Kind) -> list[FittedPart]:
        """Every part of a kind that was ever fitted."""
        where, values = _of_kind(kind)
        return [_part(row) for row in self._rows.all(f"{PART} AND {where} ORDER BY f.entry", **values)]

    def on_vehicle(self, vehicle: int) -> list[FittedPart]:
        """Every part that was ever fitted to a vehicle, in the order of fitting."""
        return [_with_term(row) for row in self._rows.all(OF_VEHICLE, vehicle=vehicle)]

    def of_the_vehicle(self, job: int) -> list[FittedPart]:
        """The same of the vehicle of a job."""
        sql = OF_VEHICLE.replace(":vehicle", "(SELECT vehicle FROM job WHERE number = :job)")
        return [_with_term(row) for row in self._rows.all(sql, job=job)]

    def readings_of(self, vehicle: int) -> list[tuple[int, Odometer]]:
        """The odometer of one vehicle, the newest first, each reading with its job."""
        rows = self._rows.all("SELECT * FROM odometer WHERE vehicle = :vehicle ORDER BY entry DESC", vehicle=vehicle)
        return [(row["job"] or 0, record(Odometer, dict(row))) for row in rows]

    def readings(self, kind: Kind) -> dict[int, list[tuple[int, Odometer]]]:
        """The odometer readings of the vehicles that have parts of a kind, by vehicle, the newest first, each with its
        job."""
        where, values = _of_kind(kind)
        sql = f"""SELECT o.* FROM odometer o WHERE o.vehicle IN
            (SELECT j.vehicle FROM fitted f JOIN job j ON j.number = f.job WHERE f.fitted_at <> '' AND {where})
            ORDER BY o.vehicle, o.entry DESC"""
        found: dict[int, list[tuple[int, Odometer]]] = {}
        for row in self._rows.all(sql, **values):
            found.setdefault(row["vehicle"], []).append((row["job"] or 0, record(Odometer, dict(row))))
        return found

    def last_seen(self, kind: Kind) -> dict[int, str]:
        """When each vehicle that has parts of a kind was last in the shop: its last arrival or release."""
        where, values = _of_kind(kind)
        sql = f"""SELECT v.vehicle, MAX(COALESCE(r.done_at, v.opened_at)) AS at FROM job v
            LEFT JOIN journal r ON r.number = v.released WHERE v.vehicle IN
            (SELECT j.vehicle FROM fitted f JOIN job j ON j.number = f.job WHERE f.fitted_at <> '' AND {where})
            GROUP BY v.vehicle"""
        return {row["vehicle"]: row["at"] for row in self._rows.all(sql, **values)}


def _of_kind(kind: Kind) -> tuple[str, dict[str, Any]]:
    where = ["f.function = :function", f"{AXLE} = :axle"]
    values: dict[str, Any] = {"function": kind.function, "axle": kind.axle}
    for name in ("number", "supplier"):
        said = getattr(kind, name)
        if said is not None:
            where.append(f"f.{name} = :{name}")
            values[name] = said
    return " AND ".join(where), values


def _counted(row: Any, named: Sequence[str]) -> Counted:
    kind = Kind(row["function"], row["axle"], **{name: row[name] for name in named})
    counts = {name: int(row[name]) for name in ("fitted", "failed", "still_on", "unsaid")}
    return Counted(kind, row["title"], **counts)


def _part(row: Any) -> FittedPart:
    return record(FittedPart, dict(row) | {"off_job": row["off_job"] or 0, "customer": 0})


def _with_term(row: Any) -> FittedPart:
    """A part with the term of its supplier and with whose the vehicle was."""
    facts = payload_of(row["body"])
    term = Term(*(str(facts.get(name, "")) for name in ("warranty_months", "warranty_distance", "warranty_from")))
    return replace(_part(row), term=term, customer=row["customer"] or 0)
