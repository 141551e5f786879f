"""A scanned code is told for what it is before anything is done with it (nasty case 77 of the trade notes)."""

import pytest

from jobbook.services.house.people import change_person, get_person
from jobbook.services.office.scanning import read_scan, scan_words
from tests.services.workshop import VIN


@pytest.fixture
def there(at):
    return at("kitted")


def words(there, code):
    return scan_words(read_scan(there.book, code))


def test_a_badge_is_known_for_its_person(there):
    scan = read_scan(there.book, "BADGE-Bram Ferro")
    assert (scan.person.name, len(scan.finds)) == ("Bram Ferro", 0)
    assert scan_words(scan) == "Read: the badge of Bram Ferro."


def test_the_badge_of_somebody_who_has_left_is_no_badge(there):
    gone = get_person(there.book, there.bram.id)
    change_person(there.book, there.imke, type(gone)(gone.id, gone.name, gone.permissions, active=False))
    assert read_scan(there.book, "BADGE-Bram Ferro").person is None


@pytest.mark.parametrize(
    ("code", "said"),
    [
        ("TW-07", "Read: tool TW-07, click wrench."),
        ("7H-20611", "Read: 7H-20611, Air strut"),
        (VIN, "Read: Varnholt estate, KX-07-ALD."),
        ("NOTHING-1", "Read: NOTHING-1. Nothing in the book bears this code."),
    ],
)
def test_what_was_read_is_said_in_words(there, code, said):
    assert words(there, code).startswith(said)


def test_a_jobs_number_is_known_for_the_job(there):
    assert words(there, str(there.job)) == f"Read: job {there.job}, Varnholt estate."


def test_a_code_that_another_keyboard_changed_is_found_and_the_scanner_blamed(there):
    scan = read_scan(there.book, "TWß07")
    assert (scan.code, scan.read, scan.other_keyboard) == ("TW-07", "TWß07", True)
    assert scan_words(scan) == (
        "Read: tool TW-07, click wrench. It arrived as “TWß07”: set the scanner to this machine's keyboard."
    )
