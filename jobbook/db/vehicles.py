"""Vehicles and customers where they stand, and the odometer readings."""

from typing import Any

from jobbook.core.errors import NotFound
from jobbook.core.vehicles import Customer, Odometer, Vehicle
from jobbook.db.rows import Rows, payload_of, record, unsealed
from jobbook.db.search import Question, matching

VEHICLE = """
    SELECT v.id, v.vin, v.plate, v.make, v.model, v.customer, e.body
    FROM vehicle v JOIN journal e ON e.number = v.entry
"""
CUSTOMER = """
    SELECT c.id, c.name AS name_seal, c.address AS address_seal, c.phone AS phone_seal, c.email AS email_seal,
        n.value AS name, a.value AS address, t.value AS phone, m.value AS email
    FROM customer c
    LEFT JOIN sealed n ON n.commitment = c.name LEFT JOIN sealed a ON a.commitment = c.address
    LEFT JOIN sealed t ON t.commitment = c.phone LEFT JOIN sealed m ON m.commitment = c.email
"""
OF_VEHICLE = Question(
    rare="""v.id IN (SELECT subject FROM found WHERE kind = 'vehicle' AND {found}
    UNION SELECT id FROM vehicle WHERE customer IN (SELECT subject FROM found WHERE kind = 'customer' AND {found}))""",
    common="""(EXISTS (SELECT 1 FROM found WHERE kind = 'vehicle' AND subject = v.id AND {found})
    OR EXISTS (SELECT 1 FROM found WHERE kind = 'customer' AND subject = v.customer AND {found}))""",
)
OF_CUSTOMER = Question(
    rare="c.id IN (SELECT subject FROM found WHERE kind = 'customer' AND {found})",
    common="EXISTS (SELECT 1 FROM found WHERE kind = 'customer' AND subject = c.id AND {found})",
)


def page_sql(start: str, key: str, after: Any, conditions: list[str]) -> str:
    """A page, the newest first, read by key."""
    where = ([f"{key} < :after"] if after is not None else []) + conditions
    return f"{start} {'WHERE ' + ' AND '.join(where) if where else ''} ORDER BY {key} DESC LIMIT :limit"


class Vehicles:
    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def get(self, number: int) -> Vehicle:
        """One vehicle. Raises NotFound."""
        row = self._rows.first(f"{VEHICLE} WHERE v.id = :number", number=number)
        if row is None:
            raise NotFound(f"There is no vehicle {number} in the book; nothing was changed.")
        return _vehicle(row)

    def page(self, after: int | None = None, limit: int = 100, text: str = "") -> list[Vehicle]:
        """Vehicles, the newest first, after that id; `text` finds by VIN, its end, plate, make, model, customer."""
        conditions, values = matching(self._rows, text, OF_VEHICLE)
        values |= {"limit": limit} | ({"after": after} if after is not None else {})
        return [_vehicle(row) for row in self._rows.all(page_sql(VEHICLE, "v.id", after, conditions), **values)]

    def by_vin(self, vin: str) -> Vehicle | None:
        row = self._rows.first(f"{VEHICLE} WHERE v.vin = :vin AND v.vin <> '' ORDER BY v.id", vin=vin)
        return None if row is None else _vehicle(row)

    def by_plate(self, plate: str) -> list[Vehicle]:
        """Vehicles with this plate as written; plates move from one vehicle to another, so there may be several."""
        sql = f"{VEHICLE} WHERE v.plate = :plate AND v.plate <> '' ORDER BY v.id DESC"
        return [_vehicle(row) for row in self._rows.all(sql, plate=plate)]

    def odometers(self, vehicle: int) -> list[Odometer]:
        """Every reading that counts, the newest first."""
        sql = """SELECT value, unit, what, at, entry, note FROM odometers
            WHERE kind = 'odometer/1' AND vehicle = :vehicle ORDER BY entry DESC"""
        return [record(Odometer, dict(row)) for row in self._rows.all(sql, vehicle=vehicle)]


def _vehicle(row: Any) -> Vehicle:
    facts = payload_of(row["body"])
    standing = {name: row[name] for name in ("id", "vin", "plate", "make", "model")}
    return record(Vehicle, facts | standing | {"customer_id": row["customer"] or 0})


class Customers:
    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def get(self, number: int) -> Customer:
        """One customer; what was erased is None. Raises NotFound."""
        row = self._rows.first(f"{CUSTOMER} WHERE c.id = :number", number=number)
        if row is None:
            raise NotFound(f"There is no customer {number} in the book; nothing was changed.")
        return _customer(row)

    def page(self, after: int | None = None, limit: int = 100, text: str = "") -> list[Customer]:
        """Customers, the newest first, after the id given; `text` finds by the beginnings of name and telephone."""
        conditions, values = matching(self._rows, text, OF_CUSTOMER)
        values |= {"limit": limit} | ({"after": after} if after is not None else {})
        return [_customer(row) for row in self._rows.all(page_sql(CUSTOMER, "c.id", after, conditions), **values)]


def _customer(row: Any) -> Customer:
    said = {name: unsealed(row[f"{name}_seal"], row[name]) for name in ("name", "address", "phone", "email")}
    return Customer(id=row["id"], **said)
