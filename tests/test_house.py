"""The habits of the house, each as a test whose failure says what to write instead."""

import ast
import re
import sys
import tomllib
from collections.abc import Iterator
from functools import cache
from importlib.metadata import packages_distributions
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent

COLOURS_LIVE_IN = ("jobbook/ui/look.py", "jobbook/paperwork/sheet.py", "jobbook/core/drawing")

CLOCK_AND_CHANCE_LIVE_IN = ("jobbook/app.py", "jobbook/cli.py", "jobbook/services/clock.py")

CLOCK = {
    *("datetime.now", "datetime.utcnow", "datetime.today", "date.today", "time.time", "time.time_ns", "os.urandom"),
    *("uuid.uuid4", "uuid.uuid1", "QDateTime.currentDateTime", "QDate.currentDate", "QTime.currentTime"),
}

CHANCE = {"random", "secrets", "uuid4", "urandom"}

TEXTS = {".py", ".md", ".toml", ".sh", ".txt", ".csv", ".tsv"}


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def modules(*folders: str) -> list[Path]:
    found = sorted(path for folder in folders for path in (ROOT / folder).rglob("*.py"))
    assert found, f"no module was found under {folders}"
    return found


def texts() -> Iterator[Path]:
    for folder in ("jobbook", "tests", "resources", "sample_db", "docs", "packaging"):
        yield from (path for path in sorted((ROOT / folder).rglob("*")) if path.suffix in TEXTS)
    yield from (path for path in sorted(ROOT.iterdir()) if path.suffix in TEXTS)
    yield ROOT / ".ci" / "run"


def named(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def lines_with(pattern: str, paths: Iterator[Path] | list[Path]) -> list[str]:
    """Return place and line wherever the pattern stands."""
    return [
        f"{named(path)}:{number}: {line.strip()[:90]}"
        for path in paths
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if re.search(pattern, line)
    ]


def dotted(node: ast.AST) -> str:
    """Return `a.b` for an attribute of a name, else nothing."""
    return (
        f"{node.value.id}.{node.attr}" if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) else ""
    )


def functions(path: Path) -> list[ast.FunctionDef | ast.AsyncFunctionDef]:
    return [node for node in ast.walk(tree(path)) if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef))]


def length(node: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    return (node.end_lineno or node.lineno) - node.lineno + 1


def test_no_file_is_longer_than_300_lines() -> None:
    long = [named(p) for p in modules("jobbook", "tests") if len(p.read_text(encoding="utf-8").splitlines()) > 300]
    assert not long, f"split these by subject, since nobody reads past 300 lines: {long}"


def test_no_function_is_longer_than_40_lines() -> None:
    long = [
        f"{named(path)}:{node.lineno} {node.name} ({length(node)})"
        for path in modules("jobbook", "tests")
        for node in functions(path)
        if length(node) > 40
    ]
    assert not long, f"take the steps of these out as functions with names of their own: {long}"


def test_no_test_waits_for_a_time_or_pumps_events() -> None:
    found = lines_with(r"\bsleep\(|qtbot\.wait\(|processEvents\(|QTest\.qWait\(", modules("tests"))
    assert not found, f"wait for a signal or a condition (waitSignal, waitUntil) instead of a time: {found}"


def test_no_test_uses_mocks() -> None:
    found = lines_with(r"^\s*(?:from|import) (?:unittest\.mock|mock|pytest_mock)\b|\bmocker\b", modules("tests"))
    assert not found, f"use the real thing, or a stub of a few lines for view, tasks and clock: {found}"


def test_every_test_asserts_something() -> None:
    paths = modules("tests")
    asserting = {node.name for path in paths for node in functions(path) if asserts(node, frozenset())}
    idle = [
        f"{named(path)}:{node.lineno} {node.name}"
        for path in paths
        for node in functions(path)
        if node.name.startswith("test_") and not asserts(node, frozenset(asserting))
    ]
    assert not idle, f"these pass whatever the program does; say what must hold: {idle}"


def asserts(function: ast.AST, others: frozenset[str]) -> bool:
    """Return whether a function asserts, expects an error, waits for a condition, or calls one that does."""
    calls = (node.func for node in ast.walk(function) if isinstance(node, ast.Call))
    called = {
        f.attr if isinstance(f, ast.Attribute) else f.id for f in calls if isinstance(f, (ast.Attribute, ast.Name))
    }
    return any(isinstance(node, ast.Assert) for node in ast.walk(function)) or bool(
        called & ({"raises", "warns", "fail", "waitUntil", "waitSignal", "waitSignals"} | others)
    )


def test_colours_stand_in_their_one_place() -> None:
    paths = [path for path in modules("jobbook") if not named(path).startswith(COLOURS_LIVE_IN)]
    found = lines_with(r"""["'\s:(]#(?:[0-9A-Fa-f]{6}|[0-9A-Fa-f]{3})\b|QColor\(["'0-9]|\brgba?\(\d""", paths)
    assert not found, f"take the colour from the palette in ui/look.py or paperwork/sheet.py: {found}"


def test_clock_and_chance_are_arguments() -> None:
    paths = [path for path in modules("jobbook") if named(path) not in CLOCK_AND_CHANCE_LIVE_IN]
    found = [f"{named(path)}:{line}" for path in paths for line in reads_clock_or_chance(path)]
    assert not found, f"let the caller hand in the time or the random bytes; services/clock.py has them: {found}"


def reads_clock_or_chance(path: Path) -> list[str]:
    found = []
    for node in ast.walk(tree(path)):
        names = [alias.name for alias in node.names] if isinstance(node, (ast.Import, ast.ImportFrom)) else []
        origin = node.module or "" if isinstance(node, ast.ImportFrom) else ""
        if dotted(node) in CLOCK or CHANCE & {*names, origin}:
            found.append(f"{node.lineno} {dotted(node) or ', '.join(names)}")
    return found


def test_months_and_thousands_are_written_in_one_place() -> None:
    paths = [path for path in modules("jobbook") if named(path) != "jobbook/core/written.py"]
    found = lines_with(r"""[:{ "]%-?[aAbBcpxX]\b|%-[a-z]|"\(erased\)"|:,\}.*u202f""", paths)
    assert not found, f"write it by core/written.py: the names of a machine's locale are not ours: {found}"


def test_names_say_what_a_thing_is() -> None:
    empty = re.compile(r"Manager|Helper|Handler|Abstract|Impl\b|(?:^|_)(?:utils?|misc|helpers?|manager|handler)(?:_|$)")
    found = [
        f"{named(path)} {name}"
        for path in modules("jobbook", "tests")
        for name in [
            path.stem,
            path.parent.name,
            *(n.name for n in ast.walk(tree(path)) if isinstance(n, (ast.ClassDef, ast.FunctionDef))),
        ]
        if empty.search(name)
    ]
    assert not found, f"give these the workshop's word for what they are or do: {found}"


def test_no_text_names_a_path_of_one_machine() -> None:
    found = lines_with(r"(?<![\w.])/(?:work|root|home|tmp|Users)/\w", texts())
    assert not found, f"name the place by a variable or relative to the project: {found}"


def test_every_module_says_what_it_is_for() -> None:
    silent = [named(p) for p in modules("jobbook") if p.name != "__init__.py" and not ast.get_docstring(tree(p))]
    assert not silent, f"begin these with a sentence that says what they are for: {silent}"


def test_every_library_that_is_imported_is_declared() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"]
    run_time = plain(project["dependencies"] + extras["shared"])
    found = [f"{lib} in jobbook" for lib in sorted(libraries("jobbook")) if not provided(lib) & run_time]
    found += [
        f"{lib} in tests" for lib in sorted(libraries("tests")) if not provided(lib) & (run_time | plain(extras["dev"]))
    ]
    assert not found, f"add the library to pyproject.toml with a lower bound, and say why in docs/decisions: {found}"


def libraries(folder: str) -> set[str]:
    """Return the first names of all imports that are neither ours nor the standard library's."""
    nodes = [node for path in modules(folder) for node in ast.walk(tree(path))]
    names = {alias.name for node in nodes if isinstance(node, ast.Import) for alias in node.names}
    names |= {node.module for node in nodes if isinstance(node, ast.ImportFrom) and node.module and not node.level}
    return {name.split(".")[0] for name in names} - set(sys.stdlib_module_names) - {"jobbook", "tests"}


def plain(requirements: list[str]) -> set[str]:
    return {re.split(r"[\[<>=!~ ;]", requirement)[0].lower().replace("_", "-") for requirement in requirements}


def provided(library: str) -> set[str]:
    """Return the names under which the library is installed; shiboken6 comes with PySide6."""
    installed = {name.lower().replace("_", "-") for name in packages_distributions().get(library, ())}
    return {"pyside6-essentials"} if library == "shiboken6" else installed
