"""What tests start as programs of their own: `python -m tests.db.writers jobs|entries PLACE KEYS NAME COUNT`."""

import sys
from pathlib import Path

from jobbook.db.store import open_book
from tests.db.building import Ticking, chance, job, sign_off


def main(what: str, place: str, keys: str, name: str, count: str) -> None:
    seed = sum(name.encode())
    with open_book(place, clock=Ticking(), random=chance(seed), keys=Path(keys)) as store:
        print("ready", flush=True)
        sys.stdin.readline()
        for number in range(int(count)):
            with store.write(name) as tx:
                kept = job(tx, 1, 1) if what == "jobs" else sign_off(tx, act=f"{name} {number}").number
            print(kept, flush=True)  # said only after the write was committed


if __name__ == "__main__":
    main(*sys.argv[1:])
