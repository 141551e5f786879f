"""The history of a vehicle over many visits: parts by place, warranties, heights and parked loss, joiners."""

from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction

import pytest

from jobbook.core.errors import Refused
from jobbook.core.people import Person
from jobbook.core.record.journal import Draft
from jobbook.core.vehicle.warranty import Term, read_term, running
from jobbook.services.opened import OpenBook
from jobbook.services.vehicle.joiners import add_joiner, joiner_gone, joiners
from jobbook.services.vehicle.vehicle_charts import heights_drawn, losses_drawn
from jobbook.services.vehicle.vehicle_history import charts, history
from tests.db.building import PERSON
from tests.services.part_book import START, PartBook, at, part_book

BRAM = Person("bf", "Bram Ferro", frozenset({"work"}))


@pytest.fixture
def there(tmp_path):
    made = part_book(tmp_path / "book")
    yield made
    made.book.close()


def seen(there: PartBook, day: int):
    """The history as it is read on that day."""
    book = OpenBook(there.book.store, lambda: START + timedelta(days=day), there.book.chance)
    return history(book, there.vehicles["a"])


def measured(there: PartBook, job: int, day: int, heights: str, answer: str = "done") -> int:
    readings = [list(pair) for pair in zip(("FL", "FR", "RL", "RR"), heights.split(), strict=True)]
    act = {"do": "measure", "what": "heights", "readings": readings, "how": "SR-01"}
    return there.keep("act/1", job, day, act=act | ({"answer": answer} if answer != "done" else {}))


def test_the_parts_of_a_vehicle_stand_by_corner_with_those_before_them(there: PartBook):
    first = there.visit("a", 0)
    there.fit(first, 0, "FR", serial="S1")
    old = there.fit(first, 0, "FL", serial="S2")
    again = there.visit("a", 300)
    there.fit(again, 300, "FL", serial="S3")
    there.off(again, 300, old, "failed")
    told = [
        (one.parts.place, one.parts.now.serial, [p.serial for p in one.parts.before]) for one in seen(there, 300).places
    ]
    assert told == [("FL", "S3", ["S2"]), ("FR", "S1", [])]


def test_a_part_that_came_off_and_was_not_replaced_leaves_its_place_empty(there: PartBook):
    piece = there.fit(there.visit("a", 0), 0, "RL", serial="S1")
    there.off(there.visit("a", 100), 100, piece, "in good order")
    (place,) = seen(there, 100).places
    assert (place.parts.now, [p.serial for p in place.parts.before]) == (None, ["S1"])


def test_a_running_term_says_its_last_day_and_what_is_left_of_the_distance(there: PartBook):
    there.fit(there.visit("a", 0, 100_000), 0, warranty_months="24", warranty_distance="60000 km")
    there.visit("a", 100, 121_000)
    (place,) = seen(there, 100).places
    assert place.warranty == ("the supplier's warranty runs to 6 Jan 2022, 39\u202f000 km left",)
    assert place.runs


def test_a_part_that_came_in_place_of_another_under_warranty_has_the_rest_of_the_first_term(there: PartBook):
    """Nasty case 66: the period does not begin again; the day from which it counts is kept with the issue."""
    there.fit(there.visit("a", 400, 100_000), 400, warranty_months="24", warranty_from="2020-01-06")
    (place,) = seen(there, 400).places
    assert place.warranty == ("the supplier's warranty runs to 6 Jan 2022",)
    (place,) = seen(there, 800).places
    assert place.warranty == ("the supplier's warranty ended on 6 Jan 2022",)
    assert not place.runs


def test_a_vehicle_that_was_sold_warns_that_the_suppliers_term_may_not_go_over(there: PartBook):
    """Nasty case 3: the technical history stays; the term may belong to the first buyer alone."""
    there.fit(there.visit("a", 0, 100_000), 0, warranty_months="24")
    with there.book.store.write(PERSON) as tx:
        owner = tx.next_customer_id()
        sealed = {"name": tx.seal("Berit Quillon"), "address": "", "phone": "", "email": ""}
        tx.keep(Draft("customer/1", f"customer/{owner}", {"customer": owner} | sealed))
        facts = {"vehicle": there.vehicles["a"], "vin": "Va", "make": "Varnholt", "model": "estate", "customer": owner}
        tx.keep(Draft("vehicle/1", f"vehicle/{there.vehicles['a']}", facts))
    (place,) = seen(there, 100).places
    assert place.warranty[-1] == (
        "The vehicle has another owner since: a supplier's warranty may not go over, ask them."
    )


def test_our_own_term_stands_beside_the_suppliers_and_never_on_the_customers_own_part(there: PartBook):
    with there.book.store.write(PERSON) as tx:
        facts = {"name": "Saltmarsh Lane Suspension", "warranty_months": "12", "warranty_distance": "20000 km"}
        tx.keep(Draft("shop/1", "shop", facts))
    job = there.visit("a", 0, 100_000)
    there.fit(job, 0, "FL")
    there.fit(job, 0, "FR", condition="customer-supplied")
    left, right = seen(there, 100).places
    assert left.warranty == (
        "the supplier's term is not recorded",
        "our warranty runs to 6 Jan 2021, 20\u202f000 km left",
    )
    assert right.warranty[-1] == "the customer's own part: no warranty of ours"


def test_a_term_holds_on_its_last_day_and_at_its_last_kilometre_and_not_beyond():
    """Worked by hand from the calendar: 12 months from 29 February end on the 28th."""
    term, fitted = read_term("12", "20000", "", "km"), date(2024, 2, 29)
    assert term == Term("12", "20 000 km")
    inside = running(term, fitted, date(2025, 2, 28), Fraction(20_000))
    assert (inside.inside, inside.days_left, inside.km_left) == (True, 0, 0)
    assert running(term, fitted, date(2025, 3, 1), Fraction(20_000)).inside is False
    assert running(term, fitted, date(2025, 2, 28), Fraction(200_001, 10)).inside is False
    assert running(term, fitted, date(2025, 2, 28), None).inside is None
    assert running(term, fitted, date(2025, 3, 1), None).inside is False
    assert running(Term(), fitted, date(2025, 3, 1), None) is None
    miles = running(Term("", "12000 mi"), fitted, date(2030, 1, 1), Fraction(19_312))
    assert (miles.inside, miles.ends) == (True, None)


@pytest.mark.parametrize(
    ("months", "distance", "starts"), [("0", "", ""), ("two", "", ""), ("", "0 km", ""), ("", "", "1.2.24")]
)
def test_a_term_that_is_none_is_refused(months, distance, starts):
    with pytest.raises(Refused):
        read_term(months, distance, starts, "km")


def test_heights_are_drawn_from_visit_to_visit_as_it_came_and_as_it_left(there: PartBook):
    first = there.visit("a", 0)
    measured(there, first, 0, "371 400 396 397")
    measured(there, first, 0, "402 401 397 397")
    second = there.visit("a", 400)
    measured(there, second, 400, "398 401 397 396")
    drawn = charts(there.book, there.vehicles["a"]).heights
    assert drawn.drawing.words.startswith("Heights over the visits, mm. FL: Jan 2020 402, Feb 2021 398; FR: ")
    assert "No limits are entered for this variant." in drawn.note


def test_what_was_not_possible_or_corrected_is_never_drawn_as_a_height(there: PartBook):
    job = there.visit("a", 0)
    wrong = measured(there, job, 0, "301 400 396 397")
    with there.book.store.write(PERSON) as tx:
        right = {"do": "measure", "what": "heights", "readings": [["FL", "401"]], "how": "SR-01"}
        facts = {"job": job, "act": right}
        tx.keep(Draft("act/1", f"job/{job}", facts, job=job, done_at=at(0), replaces=wrong, reason="misread"))
    measured(there, there.visit("a", 50), 50, "0 0 0 0", answer="not possible")
    words = charts(there.book, there.vehicles["a"]).heights.drawing.words
    assert words == "Heights over the visits, mm. FL: Jan 2020 401; FR: no readings; RL: no readings; RR: no readings"


def stand(there: PartBook, job: int, day: int, ends: str, **more: str) -> None:
    starts = dict.fromkeys(("FL", "FR", "RL", "RR"), "400")
    begun = {"heights": starts, "typed": starts, "ignition": "off", "levelling": "asleep", "doors": "shut"}
    number = there.keep("stand-begun/1", job, day, **begun)
    found = dict(zip(starts, ends.split(), strict=True))
    told = {"stand": number, "heights": found, "typed": found, "woken": "no", "door": "no", "codes": "no"} | more
    there.keep("stand-ended/1", job, day + 1, **told)


def test_parked_loss_is_what_a_corner_lost_beyond_the_others_in_twelve_hours(there: PartBook):
    """By hand: in 24 h FL fell 24 mm, the others 0: 24 mm beyond them, which is 12 mm in 12 h."""
    stand(there, there.visit("a", 0), 0, "376 400 400 400")
    stand(there, there.visit("a", 500), 500, "340 400 400 400", woken="yes")
    drawn = charts(there.book, there.vehicles["a"]).losses
    assert "FL: Jan 2020 12; FR: Jan 2020 −4" in drawn.drawing.words
    assert "1 left out: void, too short, woken, given up or still running." in drawn.note


def test_a_vehicle_without_readings_says_what_will_be_drawn(there: PartBook):
    there.visit("a", 0)
    with there.book.store.read() as reading:
        vehicle = reading.vehicles.get(there.vehicles["a"])
        drawn = heights_drawn(reading, vehicle), losses_drawn(reading, vehicle)
    assert [one.drawing for one in drawn] == [None, None]
    assert drawn[0].note.startswith("No heights were read yet.")
    assert drawn[1].note.startswith("No leak-down stand was made yet.")


def test_joiners_found_from_others_and_ours_are_counted_over_the_life_of_the_vehicle(there: PartBook):
    """Nasty case 12: repairs by others are found before the work, and count towards what the maker allows."""
    first = there.visit("a", 0)
    add_joiner(there.book, BRAM, first, "line to the front left, behind the sill", "others", "FL")
    second = there.visit("a", 300)
    add_joiner(there.book, BRAM, second, "line to the reservoir", "ours")
    found, ours = joiners(there.book, second)
    assert [(one.whose, one.job) for one in (found, ours)] == [("others", first), ("ours", second)]
    joiner_gone(there.book, BRAM, second, found.entry, "line renewed")
    assert [one.gone_in for one in seen(there, 300).joiners] == [second, 0]
    with pytest.raises(Refused, match="not in the lines"):
        joiner_gone(there.book, BRAM, second, found.entry)
    with pytest.raises(Refused, match="say in which line"):
        add_joiner(there.book, BRAM, second, " ", "ours")


def test_a_vehicle_with_many_visits_costs_a_fixed_number_of_queries(there: PartBook):
    from tests.db.test_queries import counted

    def cost():
        with counted(there.book.store) as asked:
            seen(there, 900)
        return len(asked)

    job = there.visit("a", 0, 100_000)
    there.fit(job, 0, "FL")
    before = cost()
    for visit in range(1, 9):
        there.fit(there.visit("a", visit * 90, 100_000 + visit), visit * 90, "FL")
    assert cost() == before
    assert Decimal(before) <= 10


def test_a_term_that_ended_by_distance_or_that_nobody_can_tell_says_so(there: PartBook):
    there.fit(there.visit("a", 0, 100_000), 0, "FL", warranty_distance="20 000 km")
    there.visit("a", 100, 125_000)
    (place,) = seen(there, 100).places
    assert place.warranty == ("the supplier's warranty ended by distance, 5\u202f000 km ago",)
    there.visit("a", 200, 90_000)
    (place,) = seen(there, 200).places
    assert place.warranty == ("the supplier's warranty may run: how far the part ran is not known",)


def test_a_finding_whose_repair_was_declined_is_named_by_its_words(there: PartBook):
    job = there.visit("a", 0)
    with there.book.store.write(PERSON) as tx:
        found = {"do": "inspect", "finding": "found wrong", "text": "Bush of the arm cracked"}
        tx.keep(Draft("act/1", f"job/{job}", {"job": job, "act": found}, job=job, act="found 1"))
    there.keep("act/1", job, 0, act={"do": "declined", "on": "found 1", "reason": "next year"})
    (declined,) = seen(there, 10).declined
    assert (declined.what, declined.consequence) == ("Bush of the arm cracked", "next year")
