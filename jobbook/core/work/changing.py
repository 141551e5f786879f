"""A record with some of its fields changed, as `dataclasses.replace` gives it.

A replay changes the state some five times an act. The library's own way calls the constructor with every field anew,
and took two thirds of a replay; a copy of the fields comes to the same for records that compute nothing when they are
made. Those of the work do not.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import replace  # so that types are checked field by field
else:

    def replace(record: Any, /, **changes: Any) -> Any:
        """Return the record with these fields changed. Raises TypeError for a field that it does not have."""
        kind = type(record)
        if not changes.keys() <= kind.__dataclass_fields__.keys():
            raise TypeError(f"{kind.__name__} has no field {sorted(changes.keys() - kind.__dataclass_fields__.keys())}")
        made = object.__new__(kind)
        made.__dict__.update(record.__dict__, **changes)
        return made


__all__ = ["replace"]
