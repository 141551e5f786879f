"""Holds the coverage of the tests against its floors: python packaging/coverage_floor.py COVERAGE.json"""

import json
import sys
from pathlib import Path

FLOORS = {"jobbook/core/": 95, "jobbook/services/": 95, "jobbook/": 85}


def share(files: dict[str, dict], folder: str) -> tuple[int, int]:
    """Return covered and all statements and branches of the files below a folder."""
    sums = [file["summary"] for name, file in files.items() if name.startswith(folder)]
    covered = sum(s["covered_lines"] + s.get("covered_branches", 0) for s in sums)
    return covered, sum(s["num_statements"] + s.get("num_branches", 0) for s in sums)


def thinnest(files: dict[str, dict], folder: str) -> list[str]:
    """Return the five files below a folder that miss most."""
    missed = {
        name: file["summary"]["missing_lines"] + file["summary"].get("missing_branches", 0)
        for name, file in files.items()
        if name.startswith(folder)
    }
    return [f"{name} misses {missed[name]}" for name in sorted(missed, key=missed.__getitem__, reverse=True)[:5]]


def main(report: str) -> int:
    """Print a line for each floor; return 1 when one of them is not reached."""
    files = json.loads(Path(report).read_text(encoding="utf-8"))["files"]
    status = 0
    for folder, floor in FLOORS.items():
        covered, everything = share(files, folder)
        holds = bool(everything) and covered * 100 >= floor * everything
        percent = covered * 1000 // everything / 10 if everything else 0
        print(f"coverage of {folder}: {percent} %, floor {floor} %, {'holds' if holds else 'is not reached'}")
        if not holds:
            print("  " + "\n  ".join(thinnest(files, folder)))
            status = 1
    return status


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
