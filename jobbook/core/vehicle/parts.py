"""Parts and single-use pieces of a job: needed, issued, fitted, discarded, returned unused."""

from dataclasses import dataclass

CONDITIONS = ("new", "reconditioned", "used", "customer-supplied")


@dataclass(frozen=True)
class KnownPart:
    """A part that the shop knows by its number, whether or not one lies on the shelf. `kind`: part, piece, seal;
    `warranty_months` is the supplier's term as text, "" where nobody said."""

    id: int
    number: str
    title: str
    supplier: str = ""
    kind: str = "part"
    warranty_months: str = ""
    note: str = ""


@dataclass(frozen=True)
class Piece:
    """Something issued to a job from a delivery: a part, or `count` single-use pieces alike.

    `serves` is the full name of the thing that it is for (`lower_bolt@RL`); `state`: issued, fitted, returned unused,
    wrong (not fitted), discarded."""

    id: str
    job: int
    serves: str
    title: str
    count: int = 1
    number: str = ""
    serial: str = ""
    batch: str = ""
    condition: str = "new"
    supplier: str = ""
    delivery_note: str = ""
    purchase_invoice: str = ""
    kind: str = "piece"  # part, piece, seal
    state: str = "issued"
    issued_at: str = ""
    issued_by: str = ""
    entry: int = 0
    warranty_months: str = ""  # the supplier's term, empty where nobody said
    warranty_distance: str = ""
    warranty_from: str = ""
