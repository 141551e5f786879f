"""The layers of the house. The contracts stand in pyproject.toml, each with a name that says what it forbids."""

import ast
from pathlib import Path

import pytest
from importlinter.cli import lint_imports

ROOT = Path(__file__).resolve().parent.parent

PRESENTERS = sorted((ROOT / "jobbook" / "ui").rglob("*presenter*.py"))


def imported(path: Path) -> set[str]:
    """Return the dotted names that a module imports."""
    nodes = list(ast.walk(ast.parse(path.read_text(encoding="utf-8"))))
    plain = {alias.name for node in nodes if isinstance(node, ast.Import) for alias in node.names}
    return plain | {node.module or "" for node in nodes if isinstance(node, ast.ImportFrom)}


def test_imports_run_strictly_downwards(capsys: pytest.CaptureFixture[str]) -> None:
    status = lint_imports(config_filename=str(ROOT / "pyproject.toml"), no_cache=True)
    assert status == 0, capsys.readouterr().out


def test_presenters_decide_without_qt() -> None:
    offenders = [path for path in PRESENTERS if any(name.startswith("PySide6") for name in imported(path))]
    assert PRESENTERS
    assert not offenders, f"a presenter is plain Python behind a Protocol; move what needs Qt to its page: {offenders}"
