"""A job: one visit of one vehicle, with one or more concerns."""

from dataclasses import dataclass

STAGES = ("arrived", "in work", "released")
EXPECTED = "expected"  # no stage: somebody called, and the vehicle has not come yet
LEFT = "left"  # nobody was there: no test before the customer was reached and allowed it
ARRIVALS = {
    "driven": "driven in",
    "recovered": "recovered",
    "no air": "recovered, with no air",
    LEFT: "left after hours",
}
PAYERS = ("customer", "insurer", "supplier", "fleet")
ANSWERS = ("done", "not done", "not possible", "declined", "not applicable", "unknown")


@dataclass(frozen=True)
class Concern:
    """What the customer said, what was found and how it was proved, what was done and how it was shown right."""

    number: int
    words: str | None
    cause: str = ""
    confidence: str = ""  # proved, probable, not found
    correction: str = ""


@dataclass(frozen=True)
class JobRow:
    """A job where it stands now, for lists."""

    number: int
    stage: str
    opened_at: str
    vehicle_id: int
    vehicle: str
    plate: str
    vin: str
    customer: str | None
    concern: str | None
    promised: str = ""
    released_at: str = ""


@dataclass(frozen=True)
class Job:
    """A job where it stands now."""

    number: int
    stage: str
    opened_at: str
    opened_by: str
    vehicle_id: int
    customer_id: int
    arrival: str = "driven"
    brought_by: str | None = ""
    payer: str = "customer"
    promised: str = ""
    condition: str = ""
    fuel: str = ""
    load: str = ""
    concerns: tuple[Concern, ...] = ()
    released_at: str = ""
    released_by: str = ""
    restriction: str = ""
    parts_back: str = ""
    owner_id: int = 0  # whose the vehicle was when it came; 0 where the entry does not say, and it was the customer's
    may_authorise: str | None = ""  # who may allow work, by name; empty: the customer
    payer_name: str | None = ""  # who pays, by name, where it is not the customer
    from_paper: str = ""  # number and day of the paper that an old job was taken from, as far as it has them


@dataclass(frozen=True)
class Permission:
    """What the customer or the payer allowed, with its seven facts: who, how, when, which number or address, what and
    why, added cost, new total. `scope`: diagnosis, dismantle, repair, extra, authority."""

    scope: str
    who: str | None
    how: str
    at: str
    reached_at: str | None
    what: str
    added: str = ""
    total: str = ""
    currency: str = ""
    authority: str = ""  # the payer's number
    wording: str = ""
    entry: int = 0
    valid_until: str = ""  # an ISO day
    may: str = ""  # whether this person may allow it: a key of core/desk/permission.py MAY
    acts_for: str | None = ""  # by what right, where it is not the customer
    reassembly: str = ""  # what putting together again costs if the work does not go on; empty: nothing was announced
    parts_back: str = ""  # a key of core/desk/permission.py PARTS_BACK
    parts_kept: str = ""  # which old parts are not given back, and why
    tolerance: str = ""  # how far the price may go over the total, as the profile said that day
    profile: str = ""
    moved_from: str = ""  # the job that it was first kept on, by mistake
    finding: str = ""  # the entry of the finding whose repair it allows, where it is of one


@dataclass(frozen=True)
class Test:
    """One test of the diagnosis with its answer; "not done" never looks like "passed"."""

    __test__ = False

    name: str
    answer: str
    result: str = ""
    reason: str = ""
    by: str = ""
    at: str = ""
    entry: int = 0


@dataclass(frozen=True)
class FaultCode:
    """One fault code as shown, with the module that showed it; `when` is "before" or "after". An empty code says that
    the module was read and showed none."""

    module: str
    code: str
    text: str
    status: str
    when: str
    at: str
    odometer: str = ""
    cleared: str = ""
    entry: int = 0


@dataclass(frozen=True)
class Reminder:
    """Something that is due by date or distance, to be closed with an outcome."""

    what: str
    due_on: str
    due_at: str = ""
    outcome: str = ""
    job: int = 0
    entry: int = 0
    waits_for: str = ""  # a key of core/desk/waits.py WAITS_FOR, where a vehicle in the shop waits for it
    stands: str = ""  # a key of STANDS: where the vehicle stands meanwhile
    made_at: str = ""


@dataclass(frozen=True)
class IssuedPaper:
    """A paper that left the shop, kept byte for byte."""

    job: int
    kind: str
    version: int
    digest: str
    issued_at: str
    issued_by: str
    entry: int
    file: str
