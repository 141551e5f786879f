"""The shape of a book: made by migrations, and brought up to date by them. Alembic is imported only then."""

from pathlib import Path

from sqlalchemy import Connection, text

from jobbook.db.triggers import POSTGRESQL, POSTGRESQL_NAMES, SQLITE
from jobbook.db.views import views

VERSION = (1, 1)  # a newer minor version may be opened by this program, a newer major one not
MIGRATIONS = Path(__file__).parent / "migrations"


def bring_up(connection: Connection) -> None:
    """Make or bring up to date the tables, views and triggers; to be called inside a transaction.

    In a book that has entries, where things stand is written anew: a later version may read more from them."""
    from alembic import command
    from alembic.config import Config

    from jobbook.db.standings.restanding import stand_anew

    _drop_what_holds_nothing(connection)
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
    stand_anew(connection)
    _make_what_holds_nothing(connection)
    major, minor = VERSION
    connection.exec_driver_sql("DELETE FROM schema")
    connection.exec_driver_sql(f"INSERT INTO schema (one, major, minor) VALUES (1, {major}, {minor})")


def version(connection: Connection) -> tuple[int, int]:
    """The version of the book's shape."""
    row = connection.exec_driver_sql("SELECT major, minor FROM schema").one()
    return int(row[0]), int(row[1])


def _on_sqlite(connection: Connection) -> bool:
    return connection.dialect.name == "sqlite"


def _drop_what_holds_nothing(connection: Connection) -> None:
    if _on_sqlite(connection):
        listed = "SELECT type, name FROM sqlite_master WHERE type IN ('view', 'trigger')"
        for kind, name in connection.exec_driver_sql(listed).all():
            connection.exec_driver_sql(f'DROP {kind} "{name}"')
        return
    there = connection.exec_driver_sql("SELECT to_regclass('journal')").scalar()
    for table, names in POSTGRESQL_NAMES if there else ():
        for name in names:
            connection.exec_driver_sql(f"DROP TRIGGER IF EXISTS {name} ON {table}")
    for name in reversed(views("BIGINT")):
        connection.exec_driver_sql(f"DROP VIEW IF EXISTS {name}")


def _make_what_holds_nothing(connection: Connection) -> None:
    sqlite = _on_sqlite(connection)
    for view in views("INTEGER" if sqlite else "BIGINT").values():
        connection.execute(text(view))
    for trigger in SQLITE.values() if sqlite else POSTGRESQL:
        connection.execute(text(trigger))
