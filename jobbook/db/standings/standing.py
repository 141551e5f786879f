"""Where things stand: one function per kind of entry writes it, and the rebuild calls the same function.

Each function sees the rows of where things stand and the entry, never the journal, so that it comes to the same in a
rebuild. A correction speaks only while the entry that it corrects was the one that spoke.
"""

from collections.abc import Callable, Mapping

from jobbook.core.record.journal import Entry
from jobbook.db.rows import Rows
from jobbook.db.standings.standing_apart import merge_undone
from jobbook.db.standings.standing_calls import call, call_closed, promise
from jobbook.db.standings.standing_jobs import (
    begun,
    concern,
    job_opened,
    released,
    reminder,
    reminder_closed,
    reopened,
    undone,
)
from jobbook.db.standings.standing_names import (
    book_opened,
    credential,
    erased,
    part,
    person,
    shop,
    specification,
    tool,
)
from jobbook.db.standings.standing_parts import issued, odometer, part_off, piece_state
from jobbook.db.standings.standing_vehicles import customer, merged, vehicle

Standing = Callable[[Rows, Entry], None]


def stays(_rows: Rows, _entry: Entry) -> None:
    """A fact that the views show: nothing stands anywhere else because of it."""


KINDS: Mapping[str, Standing] = {
    "book-opened/1": book_opened,
    "shop/1": shop,
    "person/1": person,
    "credential/1": credential,
    "customer/1": customer,
    "vehicle/1": vehicle,
    "merged/1": merged,
    "merge-undone/1": merge_undone,
    "modification/1": stays,
    "odometer-unknown/1": stays,
    "data-copied/1": stays,
    "call/1": call,
    "call-closed/1": call_closed,
    "tried/1": stays,
    "job-opened/1": job_opened,
    "promise/1": promise,
    "concern/1": concern,
    "odometer/1": odometer,
    "permission/1": stays,
    "permission-changed/1": stays,
    "signature/1": stays,
    "contact/1": stays,
    "overrun/1": stays,
    "declined/1": stays,
    "line/1": stays,
    "estimate-terms/1": stays,
    "handed-in/1": stays,
    "asked/1": stays,
    "test/1": stays,
    "fault-code/1": stays,
    "file/1": stays,
    "file-assigned/1": stays,
    "file-chosen/1": stays,
    "file-marked/1": stays,
    "finding/1": stays,
    "finding-answered/1": stays,
    "phrase/1": stays,
    "stand-begun/1": stays,
    "stand-ended/1": stays,
    "specification/1": specification,
    "second-look/1": stays,
    "variant/1": stays,
    "variant-chosen/1": stays,
    "tool/1": tool,
    "part/1": part,
    "import-begun/1": stays,
    "import-ended/1": stays,
    "issued/1": issued,
    "piece-state/1": piece_state,
    "part-off/1": part_off,
    "line-joiner/1": stays,
    "method/1": stays,
    "begun/1": begun,
    "act/1": stays,
    "sign-off/1": stays,
    "undone/1": undone,
    "allowance/1": stays,
    "released/1": released,
    "reopened/1": reopened,
    "reminder/1": reminder,
    "reminder-closed/1": reminder_closed,
    "paper/1": stays,
    "passed-on/1": stays,
    "accepted/1": stays,
    "erased/1": erased,
    "note/1": stays,
    "waiting/1": stays,
    "backed-up/1": stays,
    "restored/1": stays,
    "clock-set-back/1": stays,
    "put-off/1": stays,
    "retorque/1": stays,
    "kept-on/1": stays,
}

TABLES = (
    "shop", "person", "credential", "customer", "contact", "vehicle", "plate", "owner", "merged", "job", "call",
    "concern", "begun", "tool", "part", "specification", "piece", "fitted", "odometer", "reminder", "found",
)  # fmt: skip
