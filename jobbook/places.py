"""Where what ships with the program lies: beside the package in a checkout, inside it in an installed wheel."""

from pathlib import Path

from jobbook.core.errors import Unreadable

_PACKAGE = Path(__file__).resolve().parent


def resources() -> Path:
    """Return the folder of methods and profiles that ship."""
    return _found("resources")


def sample() -> Path:
    """Return the folder of the demonstration scenario."""
    return _found("sample_db")


def _found(name: str) -> Path:
    # In a checkout the folder next to the package may be anybody's, so it counts only beside the project file.
    checkout = _PACKAGE.parent
    inside = _PACKAGE / name
    if not inside.is_dir() and (checkout / "pyproject.toml").is_file():
        inside = checkout / name
    if not inside.is_dir():
        raise Unreadable(
            f"The folder {name} is missing from the program; your book is untouched, install the program again."
        )
    return inside
