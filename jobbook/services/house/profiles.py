"""Country profiles that ship, and the one that the shop has chosen."""

import tomllib
from functools import cache

from jobbook.core.desk.profiles import Profile, read_profile
from jobbook.core.people import Shop
from jobbook.places import resources

NEUTRAL = "neutral"


@cache
def profiles() -> dict[str, Profile]:
    """Every profile by its key, the neutral one first."""
    files = sorted((resources() / "profiles").glob("*.toml"), key=lambda file: (file.stem != NEUTRAL, file.stem))
    return {file.stem: read_profile(file.stem, tomllib.loads(file.read_text(encoding="utf-8"))) for file in files}


def profile_of(shop: Shop) -> Profile:
    """The shop's profile. One that does not ship any more gives way to the neutral one, which allows least."""
    return profiles().get(shop.profile) or profiles()[NEUTRAL]
