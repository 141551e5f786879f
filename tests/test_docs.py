"""What the documents say is there: links and paths lead somewhere, commands exist, decisions are numbered."""

import re
from importlib.util import find_spec
from pathlib import Path

import click
import pytest

from jobbook.cli import main

ROOT = Path(__file__).resolve().parent.parent
SCREENS = ROOT / "docs" / "screens"
TEXTS = sorted([*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md")])
LINK = re.compile(r"\[[^\]]*\]\(([^)\s]+)\)")
SPAN = re.compile(r"`([^`\n]+)`")
OURS = ("jobbook/", "tests/", "docs/", "packaging/", "resources/", "sample_db/")


def named(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def links(text: Path) -> list[str]:
    """Where a document's links lead, without those to other places on the net and within the page."""
    found = LINK.findall(text.read_text(encoding="utf-8"))
    return [link.partition("#")[0] for link in found if not link.startswith(("http", "#", "mailto:"))]


def commands(text: Path) -> list[list[str]]:
    """The words of each command that a document names, in a block or a line of its text, without its comment."""
    source = text.read_text(encoding="utf-8")
    lines = [line.strip() for line in source.splitlines() if line.startswith("    ") or "`" not in line]
    lines += SPAN.findall(source)
    parts = [part.partition("  ")[0].partition("#")[0].strip() for line in lines for part in line.split(" && ")]
    return [part.removeprefix(".venv/bin/").split() for part in parts if part]


def of_program(program: str) -> list[tuple[str, list[str]]]:
    return [(named(text), words[1:]) for text in TEXTS for words in commands(text) if words[0] == program]


def test_every_link_leads_to_a_file_of_the_project():
    astray = [
        f"{named(text)}: {link}"
        for text in TEXTS
        for link in links(text)
        if "screens/" not in link and not (text.parent / link).exists()
    ]
    assert astray == []
    assert sum(len(links(text)) for text in TEXTS) > 20


@pytest.mark.skipif(not SCREENS.is_dir(), reason="docs/screens is not there: python packaging/screens.py")
def test_every_picture_is_one_that_the_script_made():
    shown = [(text, link) for text in TEXTS for link in links(text) if "screens/" in link]
    assert [f"{named(text)}: {link}" for text, link in shown if not (text.parent / link).is_file()] == []
    assert shown


def test_every_path_that_is_named_is_there():
    told = [
        (text, span)
        for text in TEXTS
        for span in SPAN.findall(text.read_text(encoding="utf-8"))
        if span.startswith(OURS)
    ]
    paths = [(text, span) for text, span in told if " " not in span and not span.startswith("docs/screens")]
    missing = [f"{named(text)}: {span}" for text, span in paths if not list(ROOT.glob(span.rstrip("/")))]
    assert missing == []
    assert len(paths) > 20


def test_every_command_of_the_program_exists_with_its_options():
    told = [(text, words) for text, words in of_program("jobbook") if words]
    assert [f"{text}: jobbook {' '.join(words)}" for text, words in told if not is_command(main, words)] == []
    assert {words[0] for _, words in told} >= {"sample", "paper", "verify", "audit", "method"}


def is_command(group: click.Group, words: list[str]) -> bool:
    """Whether the words name a command and only options that it has. A first word that is none is a book."""
    known = group.commands.get(words[0])
    if known is None:
        return group is main and ("/" in words[0] or not words[0].islower())
    if isinstance(known, click.Group):
        return is_command(known, words[1:])
    options = {option for one in known.params for option in one.opts}
    return all(word.strip("[]") in options for word in words[1:] if word.strip("[]").startswith("--"))


def test_every_script_and_module_that_is_named_can_be_run():
    scripts = [(text, words[0]) for text, words in of_program("bash")]
    scripts += [(text, words[0]) for text, words in of_program("python") if words[0].endswith(".py")]
    assert [f"{text}: {script}" for text, script in scripts if not (ROOT / script).is_file()] == []
    modules = [(text, words[1]) for text, words in of_program("python") if words[0] == "-m"]
    assert [f"{text}: {module}" for text, module in modules if find_spec(module) is None] == []
    assert {"packaging/try.sh", "packaging/test.sh", "packaging/screens.py"} <= {script for _, script in scripts}
    assert {"tests.bench", "pytest"} <= {module for _, module in modules}


def test_decisions_are_numbered_from_one_and_say_their_number():
    files = sorted((ROOT / "docs" / "decisions").glob("*.md"))
    titles = [file.read_text(encoding="utf-8").splitlines()[0] for file in files]
    assert [file.name[:4] for file in files] == [f"{number:03}-" for number in range(1, len(files) + 1)]
    assert [title.split(" ")[:2] for title in titles] == [["#", f"{number}."] for number in range(1, len(files) + 1)]
    assert len(files) >= 8


def test_every_test_that_the_hard_cases_name_is_there():
    named_tests = re.findall(r"`(test_\w+)`", (ROOT / "docs" / "hard-cases.md").read_text(encoding="utf-8"))
    there = {
        name
        for file in (ROOT / "tests").rglob("test_*.py")
        for name in re.findall(r"^def (test_\w+)", file.read_text(encoding="utf-8"), re.MULTILINE)
    }
    assert len(named_tests) > 40
    assert [name for name in named_tests if name not in there] == []
