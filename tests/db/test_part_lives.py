"""Fitted parts, odometers and the history of a vehicle where they stand, on both databases."""

from jobbook.core.vehicle.part_lives import Kind
from jobbook.db.audit import audit
from tests.db.building import PERSON, customer, fact, job, shop, vehicle


def fitted(tx, of_job, corner="FL", supplier="Quillhaven"):
    told = {"serves": f"strut@{corner}", "title": "Air strut", "number": "A-1", "supplier": supplier, "kind": "part"}
    piece = str(fact(tx, "issued/1", of_job, told | {"warranty_months": "24"}).number)
    fact(tx, "piece-state/1", of_job, {"piece": piece, "state": "fitted", "reason": ""})
    return piece


def two_visits(store):
    """A vehicle with a strut that failed, its odometer, heights, something declined and an undone act."""
    with store.write(PERSON) as tx:
        shop(tx)
        owner = customer(tx)
        car = vehicle(tx, owner)
        first = job(tx, car, owner)
        wrong = fact(tx, "odometer/1", first, {"vehicle": car, "value": 1, "unit": "km", "what": "in", "note": ""})
        right = {"vehicle": car, "value": 90_000, "unit": "km", "what": "in", "note": ""}
        fact(tx, "odometer/1", first, right, replaces=wrong.number, reason="slip")
        old = fitted(tx, first)
        second = job(tx, car, owner)
        fact(tx, "odometer/1", second, right | {"value": 120_000})
        new = fitted(tx, second)
        fact(tx, "part-off/1", second, {"part": old, "reason": "failed", "note": ""})
        reading = {"do": "measure", "what": "heights", "readings": [["FL", "401"]], "how": "rule"}
        fact(tx, "act/1", second, {"act": reading}, act="heights")
        fact(tx, "act/1", second, {"act": reading}, act="undone")
        fact(tx, "undone/1", second, {"act": "undone"})
        fact(tx, "act/1", second, {"act": {"do": "align", "answer": "declined", "reason": "no"}}, act="align")
        fact(tx, "test/1", second, {"name": "lamps", "answer": "declined", "result": "", "reason": "no time"})
    return car, first, second, old, new


def test_a_part_stands_with_what_took_its_place_and_why_it_came_off(either):
    car, first, second, old, new = two_visits(either)
    with either.read() as reading:
        gone, there = reading.part_lives.on_vehicle(car)
        assert (gone.piece, gone.job, gone.off_job, gone.off_by, gone.reason) == (old, first, second, new, "failed")
        assert (there.piece, there.off_at, there.term.months) == (new, "", "24")
        (counted,) = reading.part_lives.counted("supplier")
        assert (counted.kind, counted.fitted, counted.failed, counted.still_on) == (
            Kind("strut", "F", None, "Quillhaven"), 2, 1, 1,
        )  # fmt: skip
        assert [part.piece for part in reading.part_lives.of_kind(counted.kind)] == [old, new]
        assert {v: [one.value for _, one in told] for v, told in reading.part_lives.readings(counted.kind).items()} == {
            car: [120_000, 90_000]
        }
        assert set(reading.part_lives.last_seen(counted.kind)) == {car}
        assert [one.value for _, one in reading.part_lives.readings_of(car)] == [120_000, 90_000]
    assert audit(either).findings == ()


def test_the_history_of_a_vehicle_leaves_out_what_was_undone(either):
    car, _, second, _, _ = two_visits(either)
    with either.read() as reading:
        (heights,) = reading.history.heights(car)
        assert (heights["job"], heights["plain"]["readings"]) == (second, [["FL", "401"]])
        assert [row["plain"]["do"] for row in reading.history.declined_acts(car)] == ["align"]
        assert [row["name"] for row in reading.history.declined_tests(car)] == ["lamps"]
        of_job, of_car = reading.history.of_the_vehicle(second, "test/1"), reading.history.entries(car, "test/1")
        assert [entry.number for entry in of_job] == [entry.number for entry in of_car] != []


def test_heights_and_declined_work_are_read_along_their_own_indexes(book):
    from jobbook.db.history import DECLINED, HEIGHTS

    two_visits(book)
    with book.read() as reading:
        for sql, index in ((HEIGHTS, "journal_heights"), (DECLINED, "journal_declined")):
            plan = [row["detail"] for row in reading.rows.all(f"EXPLAIN QUERY PLAN {sql}", vehicle=1)]
            assert any(index in line for line in plan), plan


def test_a_corrected_issue_speaks_for_its_part_and_a_fitting_taken_back_leaves_the_one_before(either):
    car, _, second, old, new = two_visits(either)
    with either.write(PERSON) as tx:
        told = {"serves": "strut@FR", "title": "Air strut", "number": "A-9", "supplier": "Brackwater", "kind": "part"}
        fact(tx, "issued/1", second, told, replaces=int(new), reason="the other side")
        fact(tx, "part-off/1", second, {"part": old, "reason": "still on", "note": ""})
        fact(tx, "piece-state/1", second, {"piece": new, "state": "issued", "reason": "wrong side"})
    with either.read() as reading:
        (there,) = reading.part_lives.on_vehicle(car)
    assert (there.piece, there.off_at, there.off_by, there.reason) == (old, "", "", "")
    assert audit(either).findings == ()
