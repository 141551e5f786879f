"""What a vehicle's history cries on a new job, and that it cries no more on one that is released."""

from datetime import timedelta

import pytest

from jobbook.core.people import Shop
from jobbook.core.record.journal import Draft
from jobbook.services.vehicle.cries import cries, cry
from jobbook.services.vehicle.vehicle_history import history
from tests.db.building import PERSON
from tests.services.part_book import START, PartBook, part_book

SHOP = Shop("Saltmarsh Lane Suspension")
TERM = {"warranty_months": "24", "warranty_distance": "60 000 km"}


@pytest.fixture
def there(tmp_path):
    made = part_book(tmp_path / "book")
    yield made
    made.book.close()


def said(there: PartBook, day: int, job: int = 0, shop: Shop = SHOP) -> tuple[str, ...]:
    today = (START + timedelta(days=day)).date()
    with there.book.store.read() as reading:
        vehicle = reading.vehicles.get(there.vehicles["a"])
        if not job:
            return cries(reading, vehicle, shop, today)
        return tuple(filter(None, cry(reading, reading.jobs.get(job), vehicle, shop, today).split("\n")))


def released(there: PartBook, day: int, km: int = 100_000, confidence: str = "", **fitted) -> int:
    """A visit that fitted a strut, unless nothing is to be fitted, and was released."""
    job = there.visit("a", day, km)
    if fitted:
        there.fit(job, day, **fitted)
    there.keep("concern/1", job, day, number=1, cause="", confidence=confidence, correction="")
    there.keep("released/1", job, day, restriction="", let_go=[])
    return job


def test_a_part_inside_its_suppliers_term_is_to_be_kept_and_the_visit_may_be_a_comeback(there: PartBook):
    first = released(there, 0, corner="FL", **TERM)
    job = there.visit("a", 100, 104_200)
    assert said(there, 100, job) == (
        f"Air strut FL, fitted 3 months ago, job {first}: inside the supplier's 24 months and 60\u202f000\u202fkm, "
        "keep the part that comes off.",
        f"A comeback? Released 3 months ago, 4\u202f200 km since, job {first}.",
    )


def test_it_still_cries_when_the_new_part_is_on_and_no_more_once_the_job_is_released(there: PartBook):
    released(there, 0, corner="FL", **TERM)
    job = there.visit("a", 100, 104_200)
    there.fit(job, 100, "FL")
    assert said(there, 100, job)[0].startswith("Air strut FL, fitted 3 months ago")
    there.keep("released/1", job, 100, restriction="", let_go=[])
    assert said(there, 100, job) == ()


def test_a_term_that_is_over_by_date_or_by_distance_cries_no_more(there: PartBook):
    first = released(there, 0, corner="FL", **TERM)
    assert said(there, 731)[0].startswith("Air strut FL, fitted 24 months ago")
    assert said(there, 732) == (f"Was here before, job {first}.",)
    job = there.visit("a", 400, 160_001)
    assert said(there, 400, job) == (f"Was here before, job {first}.",)


def test_a_distance_that_nobody_knows_leaves_the_term_open_and_one_never_recorded_is_said(there: PartBook):
    job = there.visit("a", 0)
    there.fit(job, 0, "FL", **TERM)
    there.fit(job, 0, "FR")
    there.keep("released/1", job, 0, restriction="", let_go=[])
    told = said(there, 100)
    assert "its term is not recorded, keep the part that comes off" in told[0]
    assert "perhaps inside the supplier's 24 months and 60\u202f000\u202fkm" in told[1]


def test_a_comeback_is_asked_within_the_shops_months_and_distance_alone(there: PartBook):
    released(there, 0)
    assert said(there, 366)[0].startswith("A comeback?")
    assert not said(there, 367)[0].startswith("A comeback?")
    job = there.visit("a", 30, 121_000)
    assert not said(there, 30, job)[0].startswith("A comeback?")
    patient = Shop("Saltmarsh Lane Suspension", comeback_km=30_000)
    assert said(there, 30, job, patient)[0].startswith("A comeback?")


def test_no_fault_found_last_time_is_no_comeback_unless_the_fault_is_proved_now(there: PartBook):
    """Nasty case 9: the visit was closed without a fault, and its heights are the baseline of the next."""
    first = released(there, 0, confidence="not found")
    assert said(there, 20) == (
        f"No fault was found, released 20 days ago, job {first}: no comeback unless one is proved now.",
    )


def test_two_jobs_of_one_vehicle_on_one_day_cry_on_each_other(there: PartBook):
    """Nasty case 6: a warranty strut in the morning, a paid compressor in the afternoon."""
    morning, afternoon = there.visit("a", 5), there.visit("a", 5)
    assert said(there, 5, afternoon) == (
        f"Job {morning} of this vehicle is open too since today: keep concerns, parts, times and payer of each apart.",
    )
    assert f"Job {afternoon} of this vehicle is open too" in said(there, 6, morning)[0]


def test_only_one_side_renewed_against_advice_is_told_and_its_failure_is_no_comeback(there: PartBook):
    """Nasty case 24: the second side was declined; later it fails."""
    first = released(there, 0, corner="FL")
    facts = {"subject": "second side", "what": "Strut FR", "consequence": "", "who": "", "how": "signed", "at": ""}
    there.keep("declined/1", first, 0, **facts, reached_at="", finding=0, bars=False)
    assert said(there, 90)[-1] == "Declined then, so no comeback: Strut FR."


def test_work_declined_among_acts_and_tests_is_told_once_the_vehicle_comes_again(there: PartBook):
    """Nasty cases 44 and 45: declined is an answer of its own; it is neither done nor missing."""
    first = released(there, 0)
    there.keep("act/1", first, 0, act={"do": "align", "answer": "declined", "reason": "wants it done elsewhere"})
    there.keep("test/1", first, 0, name="Aim of the lamps", answer="declined", result="", reason="no time")
    assert said(there, 90)[-1] == "Declined then, so no comeback: wheel alignment and 1 more."
    assert {one.what for one in history(there.book, 1).declined} == {"wheel alignment", "Aim of the lamps"}


def test_where_a_part_failed_before_the_cause_is_to_be_looked_for(there: PartBook):
    """Nasty case 66: the replacement fails as well; a part alone does not help twice."""
    piece = there.fit(released(there, 0), 0, "FL")
    second = there.visit("a", 300)
    there.fit(second, 300, "FL", **TERM)
    there.off(second, 300, piece, "failed")
    there.keep("released/1", second, 300, restriction="", let_go=[])
    third = there.visit("a", 600)
    assert f"Air strut FL failed here before, job {second}: look for the cause." in said(there, 600, third)
    assert not any("look for the cause" in one for one in said(there, 300, second))


def test_a_job_that_was_opened_again_says_so_first(there: PartBook):
    first = released(there, 0)
    with there.book.store.write(PERSON) as tx:
        tx.keep(Draft("reopened/1", f"job/{first}", {"job": first}, job=first, reason="one digit too few"))
    assert said(there, 3, first) == ("Open again after its release: one digit too few",)


def test_a_vehicle_that_was_never_here_cries_nothing(there: PartBook):
    job = there.visit("a", 0)
    assert said(there, 0, job) == ()
