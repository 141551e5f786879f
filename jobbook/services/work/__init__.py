"""Work on a vehicle, as a person does it: begin a method, keep acts, sign, undo, correct, allow, let go."""

from jobbook.services.work.afterwards import add_thing, allow, correct, end_finding, let_go
from jobbook.services.work.beginning import begin_method
from jobbook.services.work.countersigning import countersign
from jobbook.services.work.keeping import keep, keep_as_happened
from jobbook.services.work.passing import pass_on, take_on, what_is_open
from jobbook.services.work.signing import sign, undo
from jobbook.services.work.written import Written

__all__ = [
    "Written", "add_thing", "allow", "begin_method", "correct", "countersign", "end_finding", "keep",
    "keep_as_happened", "let_go", "pass_on", "sign", "take_on", "undo", "what_is_open",
]  # fmt: skip
