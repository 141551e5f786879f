"""Answers of the Permission tab as the records that they mean."""

from datetime import datetime

from jobbook.core.desk.permission import FACE_TO_FACE, Change
from jobbook.core.jobs import Permission
from jobbook.ui.jobs.tabs import times
from jobbook.ui.jobs.tabs.records import Answers


def permission_of(given: Answers, key: str, now: datetime, currency: str, finding: str = "") -> Permission:
    """A permission, or with the key "authority" the payer's authority; `finding` is the entry that it is of."""
    return Permission(
        scope="authority" if key == "authority" else given["scope"],
        who=given["who"],
        how=given["how"],
        at=times.read(given["at"], now),
        reached_at="" if given["how"] in FACE_TO_FACE else given["reached_at"],
        what=given["what"],
        total=given["total"],
        currency=currency,
        valid_until=times.read_day(given.get("valid_until", ""), now.date()),
        added=given.get("added", ""),
        authority=given.get("authority", ""),
        wording=given.get("wording", ""),
        may=given.get("may", ""),
        acts_for=given.get("acts_for", ""),
        reassembly=given.get("reassembly", ""),
        parts_back=given.get("parts_back", ""),
        parts_kept=given.get("parts_kept", ""),
        finding=finding,
    )


def change_of(given: Answers, of: int, now: datetime) -> Change:
    return Change(
        of,
        given["what"],
        given["who"],
        given["how"],
        times.read(given["at"], now),
        given["reached_at"],
        given["why"],
        given.get("total", ""),
        times.read_day(given.get("valid_until", ""), now.date()),
    )
