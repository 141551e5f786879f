"""What all commands share: one JSON value or sentences, and one sentence with an exit status for what went wrong."""

import json
import sys
from collections.abc import Callable, Mapping
from functools import wraps
from typing import Any, NoReturn

import click

from jobbook.core.errors import Altered, BookError

ALTERED, UNREADABLE = 1, 2
AS_JSON = click.option("--json", "as_json", is_flag=True, help="Print one JSON value.")


def fail(sentence: str, status: int) -> NoReturn:
    """End with one sentence on standard error."""
    click.echo(sentence, err=True)
    sys.exit(status)


def plainly(command: Callable[..., int]) -> Callable[..., None]:
    """Turn what a user can cause into one sentence and exit status 2, or 1 for an altered file.

    The command's own result is the exit status where nothing went wrong."""

    @wraps(command)
    def run(*args: Any, **kwargs: Any) -> None:
        try:
            status = command(*args, **kwargs)
        except Altered as error:
            fail(str(error), ALTERED)
        except BookError as error:
            fail(str(error), UNREADABLE)
        except OSError as error:
            fail(
                f"The file system said “{error.strerror}” for {error.filename}; look at the disk and the path.",
                UNREADABLE,
            )
        sys.exit(status)

    return run


def say(as_json: bool, facts: Mapping[str, Any] | list[Any], sentences: list[str]) -> None:
    """Print the facts as one JSON value, or the sentences."""
    click.echo(json.dumps(facts, ensure_ascii=False, indent=1) if as_json else "\n".join(sentences))
