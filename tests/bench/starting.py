"""From the start of the process to the first page, seen from outside by the line that the process prints."""

import os
import subprocess
import sys
from pathlib import Path
from time import perf_counter

from tests.bench.first_page import SHOWN
from tests.bench.timing import Measured, Sizes, medians

ROOT = Path(__file__).resolve().parent.parent.parent


def starting(book: Path, folder: Path, sizes: Sizes) -> tuple[Measured, ...]:
    """The first turn, which is left out, writes the bytecode that an installed program has: beside what is measured."""
    environment = os.environ | {
        "QT_QPA_PLATFORM": "offscreen",
        "XDG_CONFIG_HOME": str(folder / "config"),
        "PYTHONPATH": str(ROOT),
        "PYTHONDONTWRITEBYTECODE": "",
        "PYTHONPYCACHEPREFIX": str(folder / "bytecode"),
    }

    def start(*words: str) -> float:
        begun = perf_counter()
        command = [sys.executable, "-m", "tests.bench.first_page", *words]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=environment, cwd=ROOT) as process:
            assert process.stdout is not None
            said = process.stdout.readline().strip()
            took = (perf_counter() - begun) * 1000
        if said != SHOWN or process.returncode != 0:
            raise RuntimeError(f"the window was not shown: {command} ended with {process.returncode}")
        return took

    turns = [(start("program", str(book)), start("bare")) for _ in range(sizes.starts + 1)][1:]
    beside = "a bare Qt window, with SQLAlchemy imported"
    return (Measured("start of the program to its first page painted", *medians(turns), beside),)
