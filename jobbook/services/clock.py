"""The one place that reads the machine's clock and its source of chance; everything else is given them."""

import secrets
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

Clock = Callable[[], datetime]
Chance = Callable[[int], bytes]


def system_clock() -> datetime:
    """The present moment, to the second, with the zone of this machine."""
    return datetime.now().astimezone().replace(microsecond=0)


def system_chance(count: int) -> bytes:
    """`count` bytes that nobody can foresee."""
    return secrets.token_bytes(count)


@dataclass(frozen=True)
class Pace:
    """How long work that goes on in small pieces takes, and a way to let others have their turn; both in seconds."""

    timer: Callable[[], float] = time.perf_counter
    pause: Callable[[float], None] = time.sleep
