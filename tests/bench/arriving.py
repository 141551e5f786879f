"""Pictures of 12 megapixels arrive on a job: how long the window ever keeps somebody waiting meanwhile."""

import os
import random
import subprocess
import sys
from pathlib import Path
from shutil import copytree

from PIL import Image

from tests.bench.starting import ROOT
from tests.bench.timing import Measured, Sizes, medians

SIZE = (4000, 3000)
QUICK_SIZE = (400, 300)


def arriving(book: Path, folder: Path, sizes: Sizes) -> tuple[Measured, ...]:
    pictures = folder / "pictures"
    size = SIZE if sizes.pictures > 5 else QUICK_SIZE
    _draw(pictures, sizes.pictures, size)
    turns = [_watched(copytree(book, folder / f"arriving-{turn}"), pictures, folder) for turn in range(sizes.starts)]
    megapixels = round(size[0] * size[1] / 1_000_000)
    what = f"longest gap while {sizes.pictures} pictures of {megapixels} megapixels arrive"
    return (Measured(what, *medians(turns), "the same window, while a plain thread reads them"),)


def _draw(folder: Path, count: int, size: tuple[int, int]) -> None:
    """Pictures with as much in them as a camera's: some two to five megabytes each at full size."""
    folder.mkdir()
    chance = random.Random(7)
    for number in range(count):
        small = Image.frombytes(
            "RGB", (size[0] // 8, size[1] // 8), chance.randbytes(size[0] // 8 * (size[1] // 8) * 3)
        )
        small.resize(size, Image.Resampling.BICUBIC).save(folder / f"IMG_{number:04}.jpg", quality=92)


def _watched(book: Path, pictures: Path, folder: Path) -> tuple[float, float]:
    environment = os.environ | {
        "QT_QPA_PLATFORM": "offscreen",
        "XDG_CONFIG_HOME": str(folder / "config"),
        "PYTHONPATH": str(ROOT),
    }
    command = [sys.executable, "-m", "tests.bench.pictures_arrive", str(book), str(pictures)]
    done = subprocess.run(command, capture_output=True, text=True, env=environment, cwd=ROOT, check=False)
    if done.returncode != 0:
        raise RuntimeError(f"{command} ended with {done.returncode}: {done.stderr}")
    ours, bare = done.stdout.split()
    return float(ours), float(bare)
