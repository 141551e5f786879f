"""`jobbook import` and `jobbook export`. Exit status 1 where rows are wrong, 2 for whatever else is refused."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from jobbook.command_words import ALTERED, AS_JSON, plainly, say

if TYPE_CHECKING:
    from jobbook.core.people import Person
    from jobbook.services.lists.importing import Done
    from jobbook.services.lists.planning import Plan
    from jobbook.services.opened import OpenBook

FILE = click.Path(path_type=Path)
MOST_SHOWN = 100  # sentences; --json has them all
BY = click.option("--by", "person", default="", help="Who does it: a person's short word in the book.")


def _told(_context: click.Context, _option: click.Parameter, pairs: tuple[str, ...]) -> dict[str, str]:
    if wrong := next((pair for pair in pairs if "=" not in pair), None):
        raise click.BadParameter(f"“{wrong}” is not HEADING=FACT, like “Number plate=plate”.")
    return {heading.strip(): fact.strip() for heading, _, fact in (pair.rpartition("=") for pair in pairs)}


@click.command("import")
@click.argument("book")
@click.argument("kind")
@click.argument("file", type=FILE)
@click.option("--dry-run", is_flag=True, help="Say what would become of each row, and keep nothing.")
@click.option("--map", "told", multiple=True, callback=_told, metavar="HEADING=FACT", help="What a column holds.")
@click.option(
    "--good-rows", is_flag=True, help="Take in the rows that nothing is wrong with, and leave out the others."
)
@BY
@AS_JSON
@plainly
def import_list(
    book: str, kind: str, file: Path, dry_run: bool, told: dict[str, str], good_rows: bool, person: str, as_json: bool
) -> int:
    """Take in a list of customers, vehicles or parts from CSV or XLSX: all of it, or nothing."""
    from jobbook.services.lists import importing, planning
    from jobbook.services.opened import open_book

    opened = open_book(book)
    try:
        finished = () if dry_run else tuple(importing.go_on(opened, one) for one in importing.unfinished(opened))
        listed, mapped = planning.headings_of(opened, kind, file, told)
        planned = planning.plan(opened, kind, listed, mapped)
        takes = not dry_run and (good_rows or not planned.findings)
        done = importing.keep(opened, _who(opened, person), planned, good_rows=good_rows) if takes else None
    finally:
        opened.close()
    words = [f"The import of {one.file}, which had broken off, was finished first." for one in finished]
    say(as_json, _facts(planned, done), words + _words(planned, done, dry_run))
    return ALTERED if planned.findings and not good_rows else 0


def _who(opened: "OpenBook", person: str) -> "Person | None":
    from jobbook.services.house.people import get_person

    return get_person(opened, person) if person else None


def _facts(planned: "Plan", done: "Done | None") -> dict[str, Any]:
    listed = planned.listed
    findings = [{"row": one.row, "column": one.column, "message": one.sentence} for one in planned.findings]
    notes = [{"row": one.row, "message": one.sentence} for one in planned.notes]
    columns = dict(zip(listed.headings, planned.mapped, strict=True))
    counts = {what: planned.counts.get(what, 0) for what in ("new", "changed", "same")}
    return {
        "file": listed.name, "list": planned.kind, "read_as": listed.how, "columns": columns,
        "rows": len(listed.rows), **counts, "findings": findings, "notes": notes, "kept": done is not None,
    }  # fmt: skip


def _words(planned: "Plan", done: "Done | None", dry_run: bool) -> list[str]:
    from jobbook.services.lists.wording import columns_words, counts_words

    said = [one.sentence for one in (*planned.findings, *planned.notes)]
    more = [f"And {len(said) - MOST_SHOWN} more; --json names them all."] if len(said) > MOST_SHOWN else []
    if done is not None:
        last = f"Kept: {counts_words(planned)}."
    elif dry_run:
        last = f"Nothing was kept, as asked. It would be {counts_words(planned)}."
    else:
        last = f"Nothing was kept, because of {planned.left_out} rows. Put them right, or leave them out: --good-rows."
    return [columns_words(planned.kind, planned.listed, planned.mapped), *said[:MOST_SHOWN], *more, last]


@click.command("export")
@click.argument("book")
@click.argument("kind")
@click.argument("file", type=FILE)
@BY
@AS_JSON
@plainly
def export_list(book: str, kind: str, file: Path, person: str, as_json: bool) -> int:
    """Write the list of customers, vehicles or parts to FILE: .csv, .xlsx or .json."""
    from jobbook.services.lists.exporting import export
    from jobbook.services.lists.wording import exported_words
    from jobbook.services.opened import open_book

    opened = open_book(book)
    try:
        written = export(opened, _who(opened, person), kind, file)
    finally:
        opened.close()
    facts = {"file": str(written.file), "list": kind, "rows": written.rows, "erased": written.erased}
    say(as_json, facts, [exported_words(written)])
    return 0
