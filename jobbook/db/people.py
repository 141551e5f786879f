"""The shop, its people, and how they show that it is they."""

from typing import Any

from jobbook.core.errors import NotFound
from jobbook.core.people import Person, Shop
from jobbook.db.rows import Rows, payload_of, record

PERSON = """
    SELECT p.id, p.name, p.active, e.body,
        (SELECT 1 FROM credential c WHERE c.person = p.id AND c.what = 'pin') AS has_pin,
        (SELECT 1 FROM credential c WHERE c.person = p.id AND c.what = 'badge') AS has_badge
    FROM person p JOIN journal e ON e.number = p.entry
"""
SECRET = """
    SELECT s.value FROM credential c JOIN sealed s ON s.commitment = c.commitment
    WHERE c.person = :person AND c.what = :what
"""


def read_shop(rows: Rows, book: str) -> Shop:
    """The workshop as it stands. Raises NotFound in a book that was never opened for one."""
    body = rows.value("SELECT e.body FROM shop s JOIN journal e ON e.number = s.entry")
    if body is None:
        raise NotFound("The workshop's name is not in the book yet; enter it in The shop.")
    return record(Shop, payload_of(body) | {"book_id": book})


class People:
    """The people of the shop, also those who have left."""

    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def get(self, person: str) -> Person:
        """One person. Raises NotFound."""
        return _person(self._rows.one(f"person “{person}”", f"{PERSON} WHERE p.id = :person", person=person))

    def all(self) -> list[Person]:
        """Everybody, by name."""
        return [_person(row) for row in self._rows.all(f"{PERSON} ORDER BY p.name, p.id")]


def _person(row: Any) -> Person:
    facts = payload_of(row["body"])
    return Person(
        id=row["id"],
        name=row["name"],
        permissions=frozenset(facts.get("permissions", ())),
        active=bool(row["active"]),
        has_pin=bool(row["has_pin"]),
        has_badge=bool(row["has_badge"]),
        learning=bool(facts.get("learning", False)),
    )


class Credentials:
    """Hashes of PINs and badges: sealed, so that the journal witnesses them without holding them."""

    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def pin_hash(self, person: str) -> str | None:
        return self._secret(person, "pin")

    def badge_hash(self, person: str) -> str | None:
        return self._secret(person, "badge")

    def _secret(self, person: str, what: str) -> str | None:
        found: str | None = self._rows.value(SECRET, person=person, what=what)
        return found

    def by_badge(self, badge_hash: str) -> str | None:
        """The id of the person whose badge has this hash."""
        found: str | None = self._rows.value(
            "SELECT c.person FROM credential c JOIN sealed s ON s.commitment = c.commitment "
            "WHERE c.what = 'badge' AND s.value = :badge_hash ORDER BY c.person",
            badge_hash=badge_hash,
        )
        return found

    def commitment(self, person: str, what: str) -> str:
        """What the journal holds in place of the hash, or "" where there is none."""
        sql = "SELECT commitment FROM credential WHERE person = :person AND what = :what"
        return str(self._rows.value(sql, person=person, what=what) or "")
