"""Jobs where they stand now."""

from collections.abc import Iterable
from typing import Any

from jobbook.core.days import in_time
from jobbook.core.jobs import Concern, Job, JobRow
from jobbook.db.rows import Rows, payload_of, record, unsealed
from jobbook.db.search import Question, matching, number_words

ROW = """
    SELECT j.number, j.stage, j.opened_at, j.vehicle, j.promised, v.make, v.model, v.plate, v.vin,
        c.name AS customer_seal, cs.value AS customer, k.words AS words_seal, ks.value AS words,
        r.done_at AS released_at
    FROM job j JOIN vehicle v ON v.id = j.vehicle
    LEFT JOIN customer c ON c.id = j.customer LEFT JOIN sealed cs ON cs.commitment = c.name
    LEFT JOIN concern k ON k.job = j.number
        AND k.number = (SELECT MIN(first.number) FROM concern first WHERE first.job = j.number)
    LEFT JOIN sealed ks ON ks.commitment = k.words
    LEFT JOIN journal r ON r.number = j.released
"""
NEWEST_FIRST = "ORDER BY j.opened_at DESC, j.number DESC"
OF_JOB = Question(
    rare="""j.number IN (
    SELECT subject FROM found WHERE kind = 'job' AND {found}
    UNION SELECT number FROM job WHERE vehicle IN (SELECT subject FROM found WHERE kind = 'vehicle' AND {found})
    UNION SELECT number FROM job WHERE customer IN (SELECT subject FROM found WHERE kind = 'customer' AND {found}))""",
    common="""(EXISTS (SELECT 1 FROM found WHERE kind = 'vehicle' AND subject = j.vehicle AND {found})
    OR EXISTS (SELECT 1 FROM found WHERE kind = 'customer' AND subject = j.customer AND {found})
    OR EXISTS (SELECT 1 FROM found WHERE kind = 'job' AND subject = j.number AND {found}))""",
)
ONE = """
    SELECT j.number, j.stage, j.opened_at, j.promised, j.vehicle, j.customer, e.body, e.body ->> 'done_by' AS opened_by,
        r.body AS release, r.done_at AS released_at,
        r.body ->> 'done_by' AS released_by, o.value AS brought_by, d.value AS condition,
        a.value AS may_authorise, p.value AS payer_name
    FROM job j JOIN journal e ON e.number = j.entry LEFT JOIN journal r ON r.number = j.released
    LEFT JOIN sealed o ON o.commitment = e.body -> 'payload' ->> 'brought_by'
    LEFT JOIN sealed d ON d.commitment = e.body -> 'payload' ->> 'condition'
    LEFT JOIN sealed a ON a.commitment = e.body -> 'payload' ->> 'may_authorise'
    LEFT JOIN sealed p ON p.commitment = e.body -> 'payload' ->> 'payer_name'
    WHERE j.number = :number
"""
CONCERNS = """
    SELECT k.number, k.words AS words_seal, s.value AS words, k.cause, k.confidence, k.correction
    FROM concern k LEFT JOIN sealed s ON s.commitment = k.words WHERE k.job = :number ORDER BY k.number
"""
MOST_LOOKED_AT = 5_000  # the newest of a kind, some years of a small shop; nothing sorts the numbers that others gave
OTHERS = (("permission/1", "authority"), ("issued/1", "delivery_note"), ("issued/1", "purchase_invoice"),
          ("job-opened/1", "from_paper"))  # fmt: skip
OF_OTHERS = " UNION ALL ".join(
    f"""SELECT job, said FROM (SELECT job, body -> 'payload' ->> '{name}' AS said FROM journal WHERE kind = '{kind}'
    ORDER BY number DESC LIMIT :most) {kind.partition("-")[0].partition("/")[0]}_{name} WHERE said <> ''"""
    for kind, name in OTHERS
)
SEALED = ("brought_by", "condition", "may_authorise", "payer_name")


class Jobs:
    def __init__(self, rows: Rows) -> None:
        self._rows = rows

    def get(self, number: int) -> Job:
        """One job with its concerns, in two queries. Raises NotFound."""
        row = self._rows.one(f"job {number}", ONE, number=number)
        return _job(row, tuple(_concern(k) for k in self._rows.all(CONCERNS, number=number)))

    def entry_of(self, number: int) -> int:
        """The entry that speaks of a job's opening now, for a correction. Raises NotFound."""
        row = self._rows.one(f"job {number}", "SELECT entry FROM job WHERE number = :number", number=number)
        return int(row["entry"])

    def page(
        self, after: tuple[str, int] | None = None, limit: int = 100, text: str = "", stage: str = ""
    ) -> list[JobRow]:
        """Jobs after (opened_at, number), the latest such text first: not quite the newest, where clocks were set back
        between two of them; see `newest_first`. `text` finds by number, vehicle, customer and concern."""
        conditions, values = matching(self._rows, text, OF_JOB)
        values["limit"] = limit
        if stage:
            conditions, values = [*conditions, "j.stage = :stage"], values | {"stage": stage}
        if after is not None:
            conditions.append("(j.opened_at, j.number) < (:opened_at, :number)")
            values |= {"opened_at": after[0], "number": after[1]}
        where = f"WHERE {' AND '.join(conditions)}" if conditions else ""
        return [_job_row(row) for row in self._rows.all(f"{ROW} {where} {NEWEST_FIRST} LIMIT :limit", **values)]

    def with_number_of_others(self, number: str, limit: int) -> list[int]:
        """The jobs, the newest first, that bear a number which begins so and which somebody else gave: a payer's
        authority, a delivery note, an invoice, an old paper."""
        told = self._rows.all(OF_OTHERS, most=MOST_LOOKED_AT)
        jobs = (int(row["job"]) for row in told if any(word.startswith(number) for word in number_words(row["said"])))
        return sorted(set(jobs), reverse=True)[:limit]

    def row(self, number: int) -> JobRow | None:
        """One job as it stands in lists, or None."""
        row = self._rows.first(f"{ROW} WHERE j.number = :number", number=number)
        return None if row is None else _job_row(row)

    def in_shop(self, limit: int) -> list[JobRow]:
        """Vehicles that have not gone back to their customers, those that came first first."""
        stage = (
            "SELECT number FROM (SELECT number FROM job WHERE stage = '{0}' ORDER BY opened_at, number LIMIT :limit) s"
        )
        numbers = f"{stage.format('arrived')} UNION {stage.format('in work')}"
        sql = f"{ROW} WHERE j.number IN ({numbers}) ORDER BY j.opened_at, j.number LIMIT :limit"
        return newest_first(_job_row(row) for row in self._rows.all(sql, limit=limit))[::-1]

    def of_vehicle(self, vehicle: int) -> list[JobRow]:
        """Every visit of one vehicle, the newest first."""
        sql = f"{ROW} WHERE j.vehicle = :vehicle {NEWEST_FIRST}"
        return newest_first(_job_row(row) for row in self._rows.all(sql, vehicle=vehicle))

    def of_customer(self, customer: int) -> list[JobRow]:
        """Every job that a customer brought, the newest first."""
        sql = f"{ROW} WHERE j.customer = :customer {NEWEST_FIRST}"
        return newest_first(_job_row(row) for row in self._rows.all(sql, customer=customer))


def newest_first(rows: Iterable[JobRow]) -> list[JobRow]:
    """In the order of the moments at which they were opened, whatever the clock on the wall said."""
    return sorted(rows, key=lambda row: (in_time(row.opened_at), row.number), reverse=True)


def _job_row(row: Any) -> JobRow:
    return JobRow(
        number=row["number"],
        stage=row["stage"],
        opened_at=row["opened_at"],
        vehicle_id=row["vehicle"],
        vehicle=f"{row['make']} {row['model']}".strip() or "Vehicle",
        plate=row["plate"],
        vin=row["vin"],
        customer=unsealed(row["customer_seal"] or "", row["customer"]),
        concern=unsealed(row["words_seal"] or "", row["words"]),
        promised=row["promised"],
        released_at=row["released_at"] or "",
    )


def _job(row: Any, concerns: tuple[Concern, ...]) -> Job:
    facts = payload_of(row["body"])
    release = payload_of(row["release"]) if row["release"] else {}
    said = {name: unsealed(facts.get(name, ""), row[name]) for name in SEALED}
    standing = {
        "number": row["number"],
        "stage": row["stage"],
        "opened_at": row["opened_at"],
        "promised": row["promised"],
        "opened_by": row["opened_by"],
        "vehicle_id": row["vehicle"],
        "customer_id": row["customer"] or 0,
        "owner_id": facts.get("owner") or row["customer"] or 0,
        "concerns": concerns,
        "released_at": row["released_at"] or "",
        "released_by": row["released_by"] or "",
        "restriction": release.get("restriction", ""),
        "parts_back": release.get("parts_back") or facts.get("parts_back", ""),
    }
    return record(Job, facts | said | standing)


def _concern(row: Any) -> Concern:
    facts = {name: row[name] for name in ("number", "cause", "confidence", "correction")}
    return Concern(words=unsealed(row["words_seal"], row["words"]), **facts)
