"""A program of its own that signs off: `python -m tests.db.signing_meanwhile PLACE NAME [PAUSE]`, seconds between two.

It prints the number of each entry after its write was committed, with the milliseconds that it took, until its input
is closed."""

import select
import sys
import time

from tests.db.building import opened, sign_off


def main(place: str, name: str, pause: str = "0") -> None:
    with opened(place, seed=sum(name.encode())) as store:
        print("ready", flush=True)
        count = 0
        while not select.select([sys.stdin], [], [], float(pause))[0]:
            began = time.perf_counter()
            with store.write(name) as tx:
                number = sign_off(tx, act=f"{name} {count}").number
            print(number, round((time.perf_counter() - began) * 1000, 1), flush=True)
            count += 1


if __name__ == "__main__":
    main(*sys.argv[1:])
