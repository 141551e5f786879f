"""What the shop reckons with: its country profile, its usual tax and hour, and what it lets no vehicle go without."""

from collections.abc import Collection
from dataclasses import replace
from decimal import Decimal

from jobbook.core.desk.declined import BARRABLE
from jobbook.core.desk.estimate import read_figure
from jobbook.core.desk.money import read_money
from jobbook.core.desk.profiles import CAUTION, CHOICES, PARTS_BACK, TITLES, WAIVERS, Profile, Told
from jobbook.core.errors import Refused
from jobbook.core.people import Person, Shop
from jobbook.services.house.profiles import NEUTRAL, profiles
from jobbook.services.house.shop import change_shop, shop
from jobbook.services.opened import OpenBook

__all__ = ["CAUTION", "change_prices", "told_words"]

HIGHEST_TAX = Decimal(100)


def change_prices(
    book: OpenBook, who: Person, profile: str, tax: str, labour: str, no_release_without: Collection[str]
) -> Shop:
    """Keep what prices and permissions go by from now on. What was allowed before keeps the tolerance of its day."""
    if profile not in profiles():
        raise Refused("Nothing was changed: choose one of the country profiles, or none.")
    if strange := set(no_release_without) - set(BARRABLE):
        raise Refused(f"Nothing was changed: “{min(strange)}” is nothing that a vehicle could wait for.")
    before = shop(book)
    return change_shop(
        book,
        who,
        replace(
            before,
            profile=profile,
            tax_rate=read_figure(tax, "the usual tax", Decimal(0), HIGHEST_TAX) if tax.strip() else "",
            labour_rate=read_money(labour, before.currency).text if labour.strip() else "",
            no_release_without=tuple(key for key in BARRABLE if key in no_release_without),
        ),
    )


def told_words(profile: Profile) -> tuple[tuple[str, str, str], ...]:
    """What a profile says: title, value in words, source with the time at which it was read."""
    empty = "none" if profile.key == NEUTRAL else "not found"
    values = tuple(
        (TITLES[key], _value(key, one) or empty, f"{one.source}; read {one.read}") for key, one in profile.told.items()
    )
    notices = tuple(("Notice", one.text, f"{one.source}; read {one.read}") for one in profile.notices)
    return (*values, *notices)


def _value(key: str, told: Told) -> str:
    words = {"parts_back": PARTS_BACK, "waiver": WAIVERS}.get(key, {})
    return words.get(told.value, told.value) if key in CHOICES else told.value
