"""The same book without a window. Errors are one sentence on standard error and an exit status."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from jobbook.backup_commands import backup, restore
from jobbook.command_words import ALTERED, AS_JSON, plainly, say
from jobbook.list_commands import export_list, import_list
from jobbook.reckon_command import reckon

if TYPE_CHECKING:
    from jobbook.core.work.findings import Finding
    from jobbook.db.audit import Report


class OpensBooks(click.Group):
    """A group whose first word may also be a book: then the window is opened on it."""

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and self.get_command(ctx, args[0]) is None:
            return "open", self.get_command(ctx, "open"), args
        return super().resolve_command(ctx, args)


@click.group(cls=OpensBooks, invoke_without_command=True)
@click.pass_context
def main(ctx: click.Context) -> None:
    """The job book of an air-suspension workshop. With a BOOK, or nothing, it opens the window."""
    if ctx.invoked_subcommand is None:
        ctx.invoke(open_window, book=None)


main.add_command(reckon)
main.add_command(backup)
main.add_command(restore)
main.add_command(import_list)
main.add_command(export_list)


@main.command("open", hidden=True)
@click.argument("book", required=False)
@plainly
def open_window(book: str | None) -> int:
    from jobbook.app import run

    return run(book)


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
@AS_JSON
@plainly
def sample(folder: Path, as_json: bool) -> int:
    """Build the demonstration book in FOLDER."""
    from jobbook.services.demonstration import build

    built = build(folder)
    facts = {"book": str(folder), "jobs": list(built.jobs), "papers": [str(paper) for paper in built.papers]}
    jobs = ", ".join(str(job) for job in built.jobs)
    say(as_json, facts, [f"The demonstration book lies in {folder}, with jobs {jobs}; every PIN is {built.pin}."])
    return 0


@main.command()
@click.argument("book")
@click.argument("job", type=int)
@click.argument("kind")
@click.option("--out", "folder", type=click.Path(path_type=Path, file_okay=False), required=True)
@click.option("--issue", "issuing", is_flag=True, help="Keep it in the book as a paper that left.")
@click.option("--by", "person", default="", help="Who issues it, by short word; else who released.")
@AS_JSON
@plainly
def paper(book: str, job: int, kind: str, folder: Path, issuing: bool, person: str, as_json: bool) -> int:
    """Print a paper of JOB into a folder: a preview, marked so, or with --issue one that left."""
    from jobbook.services import papers
    from jobbook.services.opened import open_book

    opened = open_book(book)
    try:
        file = papers.print_to(opened, job, kind, folder, issuing=issuing, by=person)
    finally:
        opened.close()
    say(as_json, {"file": str(file), "job": job, "kind": kind, "issued": issuing}, [str(file)])
    return 0


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--book", help="The book that the paper came from.")
@click.option("--key", "fingerprint", help="The fingerprint printed on a paper that you trust.")
@AS_JSON
@plainly
def verify(file: Path, book: str | None, fingerprint: str | None, as_json: bool) -> int:
    """Check a paper or an evidence pack. Exit status 0 consistent, 1 altered, 2 unreadable."""
    from jobbook.services.house.verifying import verify_file

    verdict = verify_file(file, book, fingerprint)
    say(
        as_json,
        {"file": str(file), "verdict": verdict.word, "lost": verdict.lost, "findings": list(verdict.sentences)},
        list(verdict.sentences),
    )
    return verdict.status


@main.command()
@click.argument("book")
@AS_JSON
@plainly
def audit(book: str, as_json: bool) -> int:
    """Check a whole book: leaves, tree, heads, papers, where things stand. Exit status 0, 1 or 2."""
    from jobbook.services.house.verifying import audit_book

    report = audit_book(book)
    facts = {
        "entries": report.entries,
        "papers": report.papers,
        "erased": report.erased,
        "files_erased": len(report.files_erased),
        "findings": list(report.findings),
        "notes": list(report.notes),
        "key": report.fingerprint,
        "epoch": report.epoch,
    }
    say(as_json, facts, [*report.findings, *report.notes, _summary(report)])
    return ALTERED if report.findings else 0


def _summary(report: "Report") -> str:
    erased = f", {report.erased} erased" if report.erased else ""
    files = len(report.files_erased)
    erased += f", {files} file{'s' if files > 1 else ''} erased" if files else ""
    found = f"{len(report.findings)} findings" if report.findings else "sound"
    epoch = f", epoch {report.epoch}" if report.epoch > 1 else ""
    return f"{report.entries} entries, {report.papers} papers{erased}{epoch}: {found}. Key {report.fingerprint}."


@main.group()
def method() -> None:
    """Methods: the ordered steps of one kind of work."""


@method.command("check")
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@AS_JSON
@plainly
def check_methods(files: tuple[Path, ...], as_json: bool) -> int:
    """Check method files against the rules. Exit status 0 none found, 1 findings, 2 unreadable."""
    from jobbook.services.job.methods import check_file

    findings = [(file, finding) for file in files for finding in check_file(file)]
    facts = [
        {"rule": found.rule, "step": found.step, "options": dict(found.options), "message": found.message}
        | ({"file": str(file)} if len(files) > 1 else {})
        for file, found in findings
    ]
    lines = [f"{file}: {_finding_line(found)}" for file, found in findings]
    say(as_json, facts, lines or ["No findings."])
    return ALTERED if findings else 0


def _finding_line(found: "Finding") -> str:
    options = ", ".join(f"{key} {'yes' if value else 'no'}" for key, value in found.options.items())
    place = "end" if found.step == "end" else f"step {found.step}"
    return f"{found.rule}, {place}{f' ({options})' if options else ''}: {found.message}"


if __name__ == "__main__":
    main()
