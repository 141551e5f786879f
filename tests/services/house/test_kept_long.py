"""What has been kept longer than the profile says is listed; each is forgotten or kept on, and nothing goes by itself.

The years are those of the German profile that ships: eight for invoices, as its source says (the change of 2025).
"""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from jobbook.core.desk.retention import cutoff, years_of
from jobbook.core.errors import Refused
from jobbook.core.record.journal import Draft
from jobbook.services.house.kept_long import forget_kept_long, keep_on, kept_long, rule_words
from jobbook.services.house.profiles import profiles
from jobbook.services.house.shop import change_shop, shop
from jobbook.services.house.verifying import audit_book
from jobbook.services.office.calls import close_call, get_call, keep_tried, take_call
from jobbook.services.office.today import today
from jobbook.services.vehicle.customers import customer
from jobbook.services.vehicle.forgetting import forget_call
from tests.services.office.test_calls import CALL
from tests.services.workshop import MORNING

YEARS = timedelta(days=366 * 8)


@pytest.fixture
def there(at):
    """A job that ended, in a shop of the German profile."""
    there = at("taken in")
    change_shop(there.book, there.imke, replace(shop(there.book), profile="germany"))
    return there


def release(there):
    facts = {"job": there.job, "restriction": "", "let_go": []}
    with there.book.store.write(there.imke.id) as tx:
        tx.keep(Draft("released/1", f"job/{there.job}", facts, job=there.job, meaning="released"))


def on_today(there):
    return [one.kind for one in today(there.book).lines if one.kind == "kept long"]


def test_a_customer_is_listed_once_the_years_are_over_and_not_before(there):
    release(there)
    there.clock.now = MORNING + YEARS - timedelta(days=10)
    assert kept_long(there.book) == ()
    assert on_today(there) == []
    there.clock.now = MORNING + YEARS
    (one,) = kept_long(there.book)
    assert (one.name, one.last, one.jobs, one.holds) == ("Ansel Harrow", "2026-11-25", 1, "")
    assert on_today(there) == ["kept long"]
    assert "8 years" in rule_words(there.book)


def test_a_profile_that_names_no_years_lists_nothing(there):
    release(there)
    change_shop(there.book, there.imke, replace(shop(there.book), profile="neutral"))
    there.clock.now = MORNING + 3 * YEARS
    assert kept_long(there.book) == ()
    assert rule_words(there.book) == ""


def test_an_open_job_is_never_over_however_long_it_stands(there):
    there.clock.now = MORNING + YEARS
    assert kept_long(there.book) == ()


def test_nasty_case_80_data_is_kept_on_with_a_reason_and_the_day_of_the_next_look(there):
    release(there)
    there.clock.now = MORNING + YEARS
    (one,) = kept_long(there.book)
    for day, reason in (("", "a claim runs"), ("2035-02-01", " "), ("2026-01-01", "a claim runs"), ("2099-01-01", "x")):
        with pytest.raises(Refused):
            keep_on(there.book, there.jonas, one, day, reason)
    keep_on(there.book, there.jonas, one, "2035-02-01", "The insurer's claim still runs.")
    assert kept_long(there.book) == ()
    assert on_today(there) == []
    there.clock.now = MORNING.replace(year=2035, month=2, day=1)
    (again,) = kept_long(there.book)
    assert again.looked_at == "The insurer's claim still runs."


def test_forgetting_is_somebodys_act_and_takes_them_off_the_list(there):
    release(there)
    there.clock.now = MORNING + YEARS
    (one,) = kept_long(there.book)
    with pytest.raises(Refused, match="no permission"):
        forget_kept_long(there.book, there.bram, one, "")
    came = forget_kept_long(there.book, there.imke, one, "")
    assert came.erased > 3
    assert customer(there.book, one.customer).customer.name is None
    assert kept_long(there.book) == ()
    with there.book.store.read() as reading:
        (entry,) = reading.journal.entries(kind="erased/1")
    assert "8 years" in entry.facts["reason"]
    assert audit_book(there.book.folder).findings == ()


def test_years_are_counted_by_the_calendar_and_an_empty_value_is_not_nought():
    assert cutoff(date(2034, 11, 26), 8) == date(2026, 11, 26)
    assert cutoff(date(2028, 2, 29), 3) == date(2025, 2, 28)
    assert years_of(profiles()["germany"]) == 8
    assert years_of(profiles()["california"]) == 3
    assert years_of(profiles()["neutral"]) == 0


def test_somebody_who_called_and_never_came_is_listed_kept_on_and_forgotten_too(there):
    number = take_call(there.book, there.jonas, replace(CALL, caller="Orla Finchley"))
    keep_tried(there.book, there.jonas, f"call/{number}", "by telephone", "no answer", "rang twice")
    there.clock.now = MORNING + YEARS
    assert kept_long(there.book) == ()  # it is open yet
    close_call(there.book, there.jonas, number, "went elsewhere", "Found somebody nearer.")
    (one,) = kept_long(there.book)
    assert (one.name, one.call, one.last) == ("Orla Finchley", number, "2026-11-25")
    keep_on(there.book, there.jonas, one, "2035-02-01", "A dispute about the towing.")
    assert kept_long(there.book) == ()
    there.clock.now = MORNING.replace(year=2035, month=2, day=1)
    (one,) = kept_long(there.book)
    assert one.looked_at == "A dispute about the towing."
    assert forget_kept_long(there.book, there.jonas, one, "").erased > 4
    assert kept_long(there.book) == ()
    assert get_call(there.book, number).caller is None
    with pytest.raises(Refused, match="nothing of this call is left"):
        forget_kept_long(there.book, there.jonas, one, "")
    assert audit_book(there.book.folder).findings == ()


def test_an_open_call_is_not_forgotten(there):
    number = take_call(there.book, there.jonas, CALL)
    with pytest.raises(Refused, match="the call is open"):
        forget_call(there.book, there.jonas, number, "asked for")
    with pytest.raises(Refused, match="say why"):
        forget_call(there.book, there.jonas, number, " ")
