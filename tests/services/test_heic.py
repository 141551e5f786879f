"""The pictures of telephones (HEIC, ISO/IEC 23008-12), encoded by another library than the one that reads them here."""

from pathlib import Path

import pytest

from jobbook.core.record.files import Mark
from jobbook.services import files
from tests.services.pictures_at_hand import opened

DATA = (Path(__file__).parents[1] / "data" / "pictures" / "held-upright.heic").read_bytes()


@pytest.fixture
def there(at):
    return at("taken in")


def add(there, data=DATA):
    return files.add_files(there.book, there.bram, there.job, [files.of_bytes("IMG_0412.HEIC", data)])


def test_a_picture_of_a_telephone_is_read_like_any_other_and_kept_byte_for_byte(there):
    (kept,) = add(there).kept
    assert (kept.what, kept.media) == ("picture", "image/heic")
    assert (kept.taken_at, kept.turn) == ("2026-11-25T09:12:03+01:00", 6)
    assert (kept.width, kept.height) == (240, 320), "the turn is the picture's own, and is not made twice"
    assert files.content(there.book, kept.digest) == DATA


def test_its_small_picture_and_what_leaves_are_upright_and_say_nothing_of_the_place(there, tmp_path):
    (kept,) = add(there).kept
    files.set_marks(there.book, there.bram, there.job, kept.entry, (Mark("cover", 0, 9000, 2000, 10000),))
    (copied,) = files.copies_out(there.book, there.job, [kept.entry], tmp_path)
    for picture in (opened(files.small_picture(there.book, kept)), opened(copied.read_bytes())):
        assert (picture.format, picture.size, dict(picture.getexif())) == ("JPEG", (240, 320), {})
        assert min(picture.getpixel((235, 5))) > 240, "the white corner stands where the turn puts it"
    assert max(picture.getpixel((5, 315))) < 20, "what is covered is covered"


def test_one_that_breaks_off_is_refused_and_not_kept_as_a_document(there):
    added = add(there, DATA[:-60])
    assert (added.kept, len(added.refused)) == ((), 1)
    assert "damaged or breaks off" in added.refused[0]
