"""Vehicles where they stand: their plates, owners, odometer readings, and what was changed on them."""

from typing import Any

from jobbook.core.days import in_time
from jobbook.core.vehicle.ownership import Modification, Owner, Plate
from jobbook.core.vehicle.vehicles import Odometer, Unread, Vehicle
from jobbook.db.rows import Rows, payload_of, record, unsealed
from jobbook.db.search import Question, joined, matching
from jobbook.db.standings.standing_names import kept_as, kept_of, numbers_of

VEHICLE = """
    SELECT v.id, v.vin, v.plate, v.make, v.model, v.customer, e.body
    FROM vehicle v JOIN journal e ON e.number = v.entry
"""
ODOMETERS = """
    SELECT o.value, o.unit, o.what, o.at, o.entry, o.reset, o.old_end, o.old_unit, o.new_start,
        j.body -> 'payload' ->> 'note' AS note
    FROM odometer o JOIN journal j ON j.number = o.entry WHERE o.vehicle = :vehicle
"""
NOW_FIRST = "CASE WHEN until = '' THEN 0 ELSE 1 END"
OWNERS = """
    SELECT o.customer AS customer_id, o.since, o.until, o.vehicle AS vehicle_id, o.entry, c.name AS name_seal,
        s.value AS name
    FROM owner o JOIN customer c ON c.id = o.customer LEFT JOIN sealed s ON s.commitment = c.name
"""
OF_VEHICLE = Question(
    rare="""v.id IN (SELECT subject FROM found WHERE kind = 'vehicle' AND {found}
    UNION SELECT id FROM vehicle WHERE customer IN (SELECT subject FROM found WHERE kind = 'customer' AND {found}))""",
    common="""(EXISTS (SELECT 1 FROM found WHERE kind = 'vehicle' AND subject = v.id AND {found})
    OR EXISTS (SELECT 1 FROM found WHERE kind = 'customer' AND subject = v.customer AND {found}))""",
)


def page_sql(start: str, key: str, after: Any, conditions: list[str]) -> str:
    """A page, the newest first, read by key."""
    where = ([f"{key} < :after"] if after is not None else []) + conditions
    return f"{start} {'WHERE ' + ' AND '.join(where) if where else ''} ORDER BY {key} DESC LIMIT :limit"


class Vehicles:
    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def get(self, number: int) -> Vehicle:
        """One vehicle, also by a number that was merged into it. Raises NotFound."""
        return _vehicle(
            self._rows.one(f"vehicle {number}", f"{VEHICLE} WHERE v.id = {kept_as('vehicle')}", number=number)
        )

    def of_owner(self, customer: int) -> dict[int, Vehicle]:
        """The vehicles that are and were a customer's, by number."""
        sql = f"{VEHICLE} WHERE v.id IN (SELECT vehicle FROM owner WHERE customer = :customer)"
        return {int(row["id"]): _vehicle(row) for row in self._rows.all(sql, customer=customer)}

    def kept_of(self, number: int) -> int:
        """The number under which a vehicle stands now: its own, or that of the one it was merged with."""
        return kept_of(self._rows, "vehicle", number)

    def page(self, after: int | None = None, limit: int = 100, text: str = "") -> list[Vehicle]:
        """Vehicles, the newest first, after that id; `text` finds by VIN, its end, plate, make, model, customer."""
        conditions, values = matching(self._rows, text, OF_VEHICLE, ("vehicle", "customer"))
        values |= {"limit": limit} | ({"after": after} if after is not None else {})
        return [_vehicle(row) for row in self._rows.all(page_sql(VEHICLE, "v.id", after, conditions), **values)]

    def by_vin(self, vin: str) -> Vehicle | None:
        row = self._rows.first(f"{VEHICLE} WHERE v.vin = :vin AND v.vin <> '' ORDER BY v.id", vin=vin)
        return None if row is None else _vehicle(row)

    def by_vin_end(self, end: str, limit: int = 5) -> list[Vehicle]:
        """Vehicles whose VIN, or its last eight or six, is this; the newest first."""
        sql = "SELECT subject FROM found WHERE kind = 'vehicle' AND token = :token"
        where = f"WHERE v.id IN ({sql}) AND v.vin <> '' ORDER BY v.id DESC LIMIT :limit"
        found = [_vehicle(row) for row in self._rows.all(f"{VEHICLE} {where}", token=joined(end), limit=limit)]
        return [one for one in found if joined(one.vin).endswith(joined(end))]

    def by_plate(self, plate: str) -> list[Vehicle]:
        """Vehicles that bear this plate now, however its parts are separated; the newest first."""
        sql = f"""{VEHICLE} WHERE v.id IN (SELECT vehicle FROM plate WHERE folded = :folded AND until = '')
            ORDER BY v.id DESC"""
        return [_vehicle(row) for row in self._rows.all(sql, folded=joined(plate))]

    def plates(self, vehicle: int) -> list[Plate]:
        """The plates of a vehicle: the one that it bears, then the newest first."""
        sql = f"""SELECT plate, since, until, vehicle AS vehicle_id, entry FROM plate
            WHERE vehicle = :vehicle ORDER BY {NOW_FIRST}, entry DESC"""
        return [record(Plate, dict(row)) for row in self._rows.all(sql, vehicle=vehicle)]

    def bearers(self, plate: str) -> list[Plate]:
        """Every vehicle that bears or bore this plate, the newest first."""
        sql = """SELECT plate, since, until, vehicle AS vehicle_id, entry FROM plate
            WHERE folded = :folded AND folded <> '' ORDER BY entry DESC"""
        return [record(Plate, dict(row)) for row in self._rows.all(sql, folded=joined(plate))]

    def owners(self, vehicle: int) -> list[Owner]:
        """Whose the vehicle is, and whose it was, the newest first."""
        sql = f"{OWNERS} WHERE o.vehicle = :vehicle ORDER BY {NOW_FIRST}, o.entry DESC"
        return [owner_of(row) for row in self._rows.all(sql, vehicle=vehicle)]

    def odometers(self, vehicle: int) -> list[Odometer]:
        """Every reading that counts, the newest first."""
        read = [
            record(Odometer, {key: value for key, value in row.items() if value is not None})
            for row in self._rows.all(ODOMETERS, vehicle=vehicle)
        ]
        return sorted(read, key=lambda one: (in_time(one.at), one.entry), reverse=True)

    def unread(self, vehicle: int) -> list[Unread]:
        """The visits at which the odometer could not be read, the newest first."""
        return [record(Unread, dict(row)) for row in self._of("odometers_unread", vehicle)]

    def modifications(self, vehicle: int) -> list[Modification]:
        """What was found changed on a vehicle, the newest first."""
        rows = self._of("modifications", vehicle)
        return [record(Modification, dict(row) | {"where": row["place"]}) for row in rows]

    def entry_of(self, vehicle: int) -> int:
        """The entry that speaks of a vehicle now, for a correction."""
        return int(self._rows.value("SELECT entry FROM vehicle WHERE id = :vehicle", vehicle=vehicle) or 0)

    def vins_said(self, vehicle: int) -> list[tuple[int, str]]:
        """Each entry that says its facts with the VIN in it, the oldest first; replaced ones are among them."""
        said = f"CAST(body -> 'payload' ->> 'vehicle' AS {'INTEGER' if self._rows.on_sqlite else 'BIGINT'})"
        sql = f"""SELECT number, body -> 'payload' ->> 'vin' AS vin FROM journal
            WHERE kind = 'vehicle/1' AND {said} = :vehicle"""
        found = [row for one in self.numbers(vehicle) for row in self._rows.all(sql, vehicle=one)]
        return sorted((row["number"], row["vin"] or "") for row in found)

    def numbers(self, vehicle: int) -> list[int]:
        """Its own number, and those that were merged into it."""
        return numbers_of(self._rows, "vehicle", vehicle)

    def _of(self, view: str, vehicle: int) -> list[dict[str, Any]]:
        sql = f"SELECT * FROM {view} WHERE vehicle = :vehicle"
        found = [dict(row) for one in self.numbers(vehicle) for row in self._rows.all(sql, vehicle=one)]
        told = ({key: value for key, value in row.items() if value is not None} for row in found)
        return sorted(told, key=lambda row: -int(row["entry"]))


def owner_of(row: Any) -> Owner:
    return record(Owner, dict(row) | {"name": unsealed(row["name_seal"], row["name"])})


def _vehicle(row: Any) -> Vehicle:
    facts = payload_of(row["body"])
    standing = {name: row[name] for name in ("id", "vin", "plate", "make", "model")}
    return record(Vehicle, facts | standing | {"customer_id": row["customer"] or 0})
