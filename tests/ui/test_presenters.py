"""Presenters are plain Python: they are imported here where Qt cannot be."""

import subprocess
import sys
from pathlib import Path

import pytest

from jobbook import ui

FOLDER = Path(ui.__file__).parent
PLAIN = ("setting.py", "places.py", "found.py", "moments.py")
PRESENTERS = sorted(f for f in FOLDER.rglob("*.py") if f.stem.endswith("presenter") or f.name in PLAIN)


def test_the_presenters_are_found():
    names = {file.stem for file in PRESENTERS}
    assert {"take_in_presenter", "duty_presenter", "job_presenter", "people_presenter", "presenter"} <= names


@pytest.mark.parametrize("file", PRESENTERS, ids=lambda file: str(file.relative_to(FOLDER)))
def test_a_presenter_needs_no_qt(file):
    module = ".".join(("jobbook", "ui", *file.relative_to(FOLDER).with_suffix("").parts))
    program = f"import sys; sys.modules['PySide6'] = None; import {module}"
    ended = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False, timeout=60)
    assert ended.returncode == 0, ended.stderr
