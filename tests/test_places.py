"""What ships is found from a source checkout, from an editable install and from an installed wheel."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent

LOOK = "from jobbook.places import resources, sample; print(resources()); print(sample())"


def places(folder: Path, prelude: str = "", search: Path | None = None) -> tuple[Path, Path]:
    """Return both folders as a fresh Python finds them that knows nothing of this checkout but what it is told."""
    told = {"PYTHONPATH": str(search)} if search else {}
    run = subprocess.run(
        [sys.executable, "-S", "-c", prelude + LOOK],
        cwd=folder,
        env={"PATH": os.environ["PATH"], **told},
        capture_output=True,
        text=True,
        check=True,
    )
    resources, sample = map(Path, run.stdout.splitlines())
    return resources, sample


def build(folder: Path, how: str) -> Path:
    """Return the wheel, ordinary or editable, that the build backend makes of this checkout."""
    call = f"from hatchling.build import {how}; print({how}({str(folder)!r}))"
    run = subprocess.run([sys.executable, "-c", call], cwd=ROOT, capture_output=True, text=True, check=True)
    return folder / run.stdout.split()[-1]


def test_a_checkout_finds_the_folders_beside_the_package(tmp_path: Path) -> None:
    assert places(tmp_path, search=ROOT) == (ROOT / "resources", ROOT / "sample_db")


def test_an_editable_install_finds_those_of_the_checkout(tmp_path: Path) -> None:
    site = tmp_path / "site"
    zipfile.ZipFile(build(tmp_path, "build_editable")).extractall(site)
    assert places(tmp_path, f"import site; site.addsitedir({str(site)!r}); ") == (
        ROOT / "resources",
        ROOT / "sample_db",
    )


def test_an_installed_wheel_carries_its_own(tmp_path: Path) -> None:
    site = tmp_path / "a folder with spaces"
    wheel = build(tmp_path, "build_wheel")
    subprocess.run(
        [
            sys.executable,
            "-m",
            "pip",
            "install",
            "--no-deps",
            "--no-index",
            "--quiet",
            "--target",
            str(site),
            str(wheel),
        ],
        check=True,
    )
    found = places(tmp_path, search=site)
    assert found == (site / "jobbook" / "resources", site / "jobbook" / "sample_db")
    assert [names(folder) for folder in found] == [names(ROOT / "resources"), names(ROOT / "sample_db")]


def names(folder: Path) -> set[str]:
    return {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}


def test_a_program_without_its_folders_says_so_in_a_sentence(tmp_path: Path) -> None:
    package = tmp_path / "jobbook"
    (package / "core").mkdir(parents=True)
    for name in ("places.py", "__init__.py", "core/__init__.py", "core/errors.py"):
        (package / name).write_bytes((ROOT / "jobbook" / name).read_bytes())
    with pytest.raises(subprocess.CalledProcessError) as caught:
        places(tmp_path, search=tmp_path)
    assert "The folder resources is missing from the program; your book is untouched" in caught.value.stderr
