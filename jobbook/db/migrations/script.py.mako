"""${message}."""

from alembic import op

revision = ${repr(up_revision)}
down_revision = ${repr(down_revision)}


def upgrade() -> None:
    """A table of the journal's own is never altered in batch mode: that once deleted rows and dropped triggers."""
    ${upgrades if upgrades else "pass"}
