"""Files and pictures on the evidence: the digest whole, the pictures small, a lost one said."""

from io import BytesIO

from pypdf import PdfReader

from jobbook.paperwork.evidence import to_pdf
from jobbook.paperwork.files import FileRow, Picture
from tests.paperwork.reading import close, on_paper
from tests.paperwork.records import evidence
from tests.services.pictures_at_hand import picture

DIGEST = "0123456789abcdef" * 4
ROW = FileRow("IMG_0007.jpg", "picture", "Finding: sleeve chafed", "25 Nov 2026 09:12\nno camera time", DIGEST)


def test_every_file_is_listed_with_its_whole_digest():
    words = on_paper(to_pdf(evidence(files=(ROW,)), head=None))
    for word in ("IMG_0007.jpg", "Finding: sleeve chafed", "no camera time", DIGEST):
        assert close(word) in words


def test_chosen_pictures_stand_small_in_rows_with_their_captions():
    four = tuple(Picture(f"Picture {number}", picture("grey", (200 + number, 150))) for number in range(4))
    pdf = to_pdf(evidence(pictures=(*four, Picture("It is lost."))), head=None)
    images = [image for page in PdfReader(BytesIO(pdf)).pages for image in page.images]
    assert sorted(image.image.size for image in images) == [(200 + number, 150) for number in range(4)]
    words = on_paper(pdf)
    assert all(f"Picture{number}" in words for number in range(4))
    assert "Itislost." in words
    assert pdf == to_pdf(evidence(pictures=(*four, Picture("It is lost."))), head=None)


def test_a_job_without_files_says_nothing_of_them():
    words = on_paper(to_pdf(evidence(), head=None))
    assert "Fileskeptwiththisjob" not in words
    assert "Pictures" not in words
