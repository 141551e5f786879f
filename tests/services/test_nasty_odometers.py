"""The nasty cases about odometers: replaced, reset, dark, mistyped, in the other unit. Common practice, but where a
source stands beside the check."""

import pytest

from jobbook.core.errors import Refused
from jobbook.core.vehicle.odometers import NEVER_KNOWN, REPLACED, Distance, Reset
from jobbook.services.vehicle import odometers
from tests.services.two_vehicles import come, known


@pytest.fixture
def there(at):
    return at("shop")


# 4. Odometer replaced or reset


def test_over_a_replaced_cluster_the_true_distance_is_reckoned(there):
    """By hand: 128 700 on the old one; the new one began at 5 and shows 305: 128 700 + 300 = 129 000 km."""
    come(there)
    reset = Reset(REPLACED, "128 700", "km", "5")
    come(there, vehicle=known(there), odometer="305", reset=reset)
    told = odometers.distances(there.book, 1)
    assert [(one.value, one.reset) for one in told.readings] == [(305, REPLACED), (128_410, "")]
    assert told.true == Distance(129_000, "exact")
    assert odometers.true_words(told.true, "km") == "129\u202f000 km (80\u202f157 mi)"


def test_an_old_clusters_last_figure_that_nobody_knows_is_unknown_and_not_nought(there):
    come(there)
    come(there, vehicle=known(there), odometer="305", reset=Reset(REPLACED, "", "", ""))
    true = odometers.distances(there.book, 1).true
    assert true == Distance(128_410, "at least")
    assert odometers.true_words(true, "km").startswith("at least 128\u202f410 km")


def test_a_distance_that_was_never_known_stays_unknown(there):
    come(there, odometer="40 000", reset=Reset(NEVER_KNOWN))
    come(there, vehicle=known(there), odometer="41 500")
    words = odometers.true_words(odometers.distances(there.book, 1).true, "km")
    assert words == "unknown; 1\u202f500 km (932 mi) since its counter began anew"


def test_a_display_that_is_dark_is_an_answer_and_no_reading(there):
    with pytest.raises(Refused, match="not a whole number"):
        come(there, odometer="")
    with pytest.raises(Refused, match="say in the note why"):
        come(there, odometer="?")
    job = come(there, odometer="?", odometer_note="display dark")
    told = odometers.distances(there.book, 1)
    assert told.readings == ()
    assert [(one.what, one.why, one.job) for one in told.unread] == [("in", "display dark", job)]
    assert told.true is None
    assert odometers.true_words(None, "km") == ""


def test_a_slip_in_an_earlier_reading_is_corrected_by_an_entry_and_both_stay(there):
    first = come(there, odometer="182 410")
    reading = odometers.distances(there.book, 1).readings[0]
    with pytest.raises(Refused, match="less than 182410 km"):
        come(there, vehicle=known(there), odometer="128 900")
    with pytest.raises(Refused, match="say what was wrong"):
        odometers.correct_odometer(there.book, there.jonas, reading.entry, "128 410", "km", "")
    odometers.correct_odometer(there.book, there.jonas, reading.entry, "128 410", "km", "digits swapped")
    come(there, vehicle=known(there), odometer="128 900")
    assert [one.value for one in odometers.distances(there.book, 1).readings] == [128_900, 128_410]
    with there.book.store.read() as book:
        kept = book.journal.entries(job=first, kind="odometer/1")
        assert [(e.payload["value"], e.facts["reason"]) for e in kept] == [(182_410, ""), (128_410, "digits swapped")]
        assert kept[0].done_at == kept[1].done_at
    with pytest.raises(Refused, match="no odometer reading"):
        odometers.correct_odometer(there.book, there.jonas, 1, "1", "km", "x")


def test_a_reset_that_was_found_later_is_said_of_the_reading_it_began_with(there):
    come(there)
    come(there, vehicle=known(there), odometer="400", odometer_note="looks new")
    assert odometers.distances(there.book, 1).true == Distance(128_410, "at least")
    entry = odometers.distances(there.book, 1).readings[0].entry
    reset = Reset(REPLACED, "128 600", "km", "0")
    odometers.correct_odometer(there.book, there.jonas, entry, "400", "km", "invoice of the cluster seen", reset)
    assert odometers.distances(there.book, 1).true == Distance(129_000, "exact")


# 5. Miles or kilometres


def test_both_units_are_shown_and_a_jump_between_them_is_asked_about(there):
    """100 000 mi are 160 934 km, by the agreement of 1959."""
    come(there, odometer="100 000", odometer_unit="mi")
    assert odometers.both_units(100_000, "mi") == "100\u202f000 mi (160\u202f934 km)"
    with pytest.raises(Refused, match="miles and kilometres mixed up"):
        come(there, vehicle=known(there), odometer="161 000", odometer_unit="mi")
    come(there, vehicle=known(there), odometer="161 000", odometer_unit="km")
    with pytest.raises(Refused, match="no unit of an odometer"):
        come(there, vehicle=known(there), odometer="161 100", odometer_unit="leagues")
