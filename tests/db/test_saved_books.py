"""One saved book for each version of the form: it opens, is brought up to date, audits sound and says what it said."""

import shutil
from pathlib import Path

import pytest

from jobbook.core.record.journal import verify_pack
from jobbook.db.audit import audit
from jobbook.db.schema import MIGRATIONS, VERSION
from tests.db.building import PERSON, opened, sign_off
from tests.db.saved_book import BOOKS

SAVED = sorted(folder.name for folder in BOOKS.iterdir() if folder.is_dir())
HEADS = {
    "1.0": "cf9ecab3c463fa82b3dd1b32d1d36e6ce56c6f6d67c845815eab4f971cf016f9",
    "1.1": "178a6d3bac095ea8a2e876ff79a4d2b24fdeb8d3db2a58c90514369e11119322",
}  # printed once, when the book was saved


@pytest.fixture(params=SAVED)
def saved(request, tmp_path):
    shutil.copytree(BOOKS / request.param, tmp_path / "book")
    (tmp_path / "book" / "photos").mkdir(exist_ok=True)  # git keeps no empty folders
    with opened(Path(tmp_path / "book")) as store:
        yield request.param, store


def test_every_version_of_the_form_has_its_saved_book():
    assert ".".join(map(str, VERSION)) in SAVED
    assert set(HEADS) == set(SAVED)
    assert len(list((MIGRATIONS / "versions").glob("v*.py"))) == len(SAVED)


def test_a_saved_book_is_sound_and_has_its_head(saved):
    version, store = saved
    report = audit(store)
    assert report.findings == ()
    assert report.head.hex == HEADS[version]


def test_a_saved_book_says_what_it_said(saved):
    _version, store = saved
    with store.read() as reading:
        job = reading.jobs.get(1)
        assert (job.stage, job.concerns[0].words) == ("released", "Hangs at the front left after a night")
        assert [o.value for o in reading.vehicles.odometers(1)] == [132_456]
        assert [p.kind for p in reading.papers.of_job(1)] == ["handover", "evidence"]
        assert reading.papers.bytes(reading.papers.of_job(1)[0].digest).startswith(b"%PDF-1.4 the first paper")
        assert reading.people.get(PERSON).has_pin
        assert verify_pack(reading.pack(1)) == ()


def test_a_saved_book_goes_on(saved):
    _version, store = saved
    with store.write(PERSON) as tx:
        sign_off(tx)
    assert audit(store).sound
