"""Customers where they stand: the people to speak to, and the vehicles that are and were theirs."""

from typing import Any

from jobbook.core.vehicle.ownership import Contact, Owner
from jobbook.core.vehicle.vehicles import Customer
from jobbook.db.rows import Rows, unsealed
from jobbook.db.search import Question, joined, matching
from jobbook.db.standings.standing_names import kept_as, kept_of, numbers_of
from jobbook.db.vehicles import OWNERS, owner_of, page_sql

CUSTOMER = """
    SELECT c.id, c.name AS name_seal, c.address AS address_seal, c.phone AS phone_seal, c.email AS email_seal,
        n.value AS name, a.value AS address, t.value AS phone, m.value AS email,
        e.body -> 'payload' ->> 'fleet' AS fleet,
        e.body -> 'payload' ->> 'elsewhere' AS elsewhere_seal, x.value AS elsewhere
    FROM customer c JOIN journal e ON e.number = c.entry
    LEFT JOIN sealed n ON n.commitment = c.name LEFT JOIN sealed a ON a.commitment = c.address
    LEFT JOIN sealed t ON t.commitment = c.phone LEFT JOIN sealed m ON m.commitment = c.email
    LEFT JOIN sealed x ON x.commitment = e.body -> 'payload' ->> 'elsewhere'
"""
CONTACTS = """
    SELECT c.number, c.name AS name_seal, c.phone AS phone_seal, c.role, c.may_authorise,
        n.value AS name, t.value AS phone
    FROM contact c LEFT JOIN sealed n ON n.commitment = c.name LEFT JOIN sealed t ON t.commitment = c.phone
    WHERE c.customer = :customer ORDER BY c.number
"""
# Entries are numbered as time goes, so that no customer is looked at whose entry came after the first job of the years.
LAST_SEEN_BEFORE = """
    SELECT c.id, n.value AS name, e.done_at AS said_at,
        (SELECT COUNT(*) FROM job j WHERE j.customer = c.id) AS jobs,
        (SELECT MAX(COALESCE(r.done_at, j.opened_at)) FROM job j LEFT JOIN journal r ON r.number = j.released
            WHERE j.customer = c.id) AS last
    FROM customer c JOIN journal e ON e.number = c.entry JOIN sealed n ON n.commitment = c.name
    WHERE c.entry <= (SELECT COALESCE(MIN(f.entry), 9000000000000000) FROM (
            SELECT j.entry FROM job j WHERE j.opened_at >= :day ORDER BY j.opened_at, j.number LIMIT 1) f)
        AND e.done_at < :day AND n.value IS NOT NULL
        AND NOT EXISTS (SELECT 1 FROM job j LEFT JOIN journal r ON r.number = j.released
            WHERE j.customer = c.id AND COALESCE(r.done_at, '9999') >= :day)
    ORDER BY c.id LIMIT :limit
"""
OF_CUSTOMER = Question(
    rare="c.id IN (SELECT subject FROM found WHERE kind = 'customer' AND {found})",
    common="EXISTS (SELECT 1 FROM found WHERE kind = 'customer' AND subject = c.id AND {found})",
)


class Customers:
    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def get(self, number: int) -> Customer:
        """One customer, also by a number that was merged into theirs; what was erased is None. Raises NotFound."""
        return _customer(
            self._rows.one(f"customer {number}", f"{CUSTOMER} WHERE c.id = {kept_as('customer')}", number=number)
        )

    def kept_of(self, number: int) -> int:
        """The number under which a customer stands now: their own, or that of the one they were merged with."""
        return kept_of(self._rows, "customer", number)

    def page(self, after: int | None = None, limit: int = 100, text: str = "") -> list[Customer]:
        """Customers, the newest first, after the id given; `text` finds by the beginnings of name and telephone."""
        conditions, values = matching(self._rows, text, OF_CUSTOMER, ("customer",))
        values |= {"limit": limit} | ({"after": after} if after is not None else {})
        return [_customer(row) for row in self._rows.all(page_sql(CUSTOMER, "c.id", after, conditions), **values)]

    def by_phone(self, phone: str, limit: int = 5) -> list[Customer]:
        """Customers with this telephone number, or somebody to speak to who has it."""
        where = "c.id IN (SELECT subject FROM found WHERE kind = 'customer' AND token = :token)"
        sql = f"{CUSTOMER} WHERE {where} ORDER BY c.id DESC LIMIT :limit"
        return [_customer(row) for row in self._rows.all(sql, token=joined(phone), limit=limit)]

    def contacts(self, customer: int) -> list[Contact]:
        """The people at a customer, in their order."""
        return [_contact(row) for row in self._rows.all(CONTACTS, customer=customer)]

    def owned(self, customer: int) -> list[Owner]:
        """The vehicles that are and were theirs, the newest first."""
        rows = self._rows.all(f"{OWNERS} WHERE o.customer = :customer ORDER BY o.entry DESC", customer=customer)
        return [owner_of(row) for row in rows]

    def numbers(self, customer: int) -> list[int]:
        """Their own number, and those that were merged into it."""
        return numbers_of(self._rows, "customer", customer)

    def entries(self, customer: int) -> list[int]:
        """The numbers of the entries that say their facts, the oldest first."""
        said = f"CAST(body -> 'payload' ->> 'customer' AS {'INTEGER' if self._rows.on_sqlite else 'BIGINT'})"
        sql = f"SELECT number FROM journal WHERE kind = 'customer/1' AND {said} = :customer"
        return sorted(row["number"] for one in self.numbers(customer) for row in self._rows.all(sql, customer=one))

    def last_seen_before(self, day: str, limit: int) -> list[dict[str, Any]]:
        """Customers of whom nothing was kept since that day and whose jobs all ended before it, and who were not
        forgotten: id, name, said_at, jobs, last (when the last job ended, None where there was none)."""
        return [dict(row) for row in self._rows.all(LAST_SEEN_BEFORE, day=day, limit=limit)]

    def among_sealed(self, texts: list[str]) -> list[str]:
        """Those of these texts that stand for a sealed value that is still there."""
        sql = "SELECT value FROM sealed WHERE commitment = :text"
        return [text for text in dict.fromkeys(texts) if self._rows.value(sql, text=text) is not None]


def _customer(row: Any) -> Customer:
    names = ("name", "address", "phone", "email", "elsewhere")
    said = {name: unsealed(row[f"{name}_seal"] or "", row[name]) for name in names}
    return Customer(id=row["id"], **said, fleet=str(row["fleet"]).lower() in ("1", "true"))


def _contact(row: Any) -> Contact:
    said = {name: unsealed(row[f"{name}_seal"], row[name]) for name in ("name", "phone")}
    return Contact(row["number"], **said, role=row["role"], may_authorise=bool(row["may_authorise"]))
