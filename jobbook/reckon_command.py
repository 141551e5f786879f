"""`jobbook reckon`: any figure of the list by name, one at a time or a file of them."""

import json
import sys
from pathlib import Path
from typing import Any

import click

from jobbook.core.errors import BookError, Unreadable

BAD_INPUT = 2


@click.command()
@click.argument("name", required=False)
@click.argument("given", nargs=-1)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON value.")
@click.option("--batch", "file", type=click.Path(path_type=Path), help="A JSON list of {id, reckon, given}.")
def reckon(name: str | None, given: tuple[str, ...], as_json: bool, file: Path | None) -> None:
    """Compute the figure NAME from key=value pairs. Without a name, list them with inputs, units and source.

    Exit status 2 with one sentence for bad input. With --batch, each bad case has its own error and the status is 0.
    """
    try:
        click.echo(_said(name, given, as_json, file))
    except BookError as error:
        click.echo(str(error), err=True)
        sys.exit(BAD_INPUT)


def _said(name: str | None, given: tuple[str, ...], as_json: bool, file: Path | None) -> str:
    # The list of figures is imported when it is asked for: the window starts without it.
    from jobbook.services.measured import reckoning

    if file is not None:
        return _json(reckoning.batch(_text_of(file)))
    if name is None:
        return _list(as_json)
    results = reckoning.reckon(name, reckoning.given_words(given))
    return _json(results) if as_json else "\n".join(reckoning.sentences(results))


def _list(as_json: bool) -> str:
    from jobbook.services.measured import reckoning

    lines = reckoning.listing()
    if as_json:
        return _json([vars(line) for line in lines])
    return "\n".join(
        f"{line.name}: {line.says}\n    given: {'; '.join(line.inputs)}\n"
        f"    result: {', '.join(line.results)}\n    source: {line.source}"
        for line in lines
    )


def _text_of(file: Path) -> str:
    try:
        return file.read_text(encoding="utf-8")
    except OSError as error:
        raise Unreadable(f"{file} was not read: the file system said “{error.strerror}”; look at the path.") from None
    except UnicodeDecodeError:
        raise Unreadable(f"{file} was not read: it is no text in UTF-8; save it as such.") from None


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, indent=1, allow_nan=False)
