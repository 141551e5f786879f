"""Pictures and files of a job: kept by content, found again, assigned, moved, marked, copied out."""

import hashlib
from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from jobbook.core.errors import NotFound, Refused, StoreUnavailable
from jobbook.core.record.files import Mark
from jobbook.core.vehicle.vehicles import Customer, Vehicle
from jobbook.db.audit import audit
from jobbook.services import files
from jobbook.services.house.people import add_person
from jobbook.services.job.moving import moves
from jobbook.services.office.intake import take_in
from jobbook.services.papers import preview
from tests.paperwork.reading import close, pages
from tests.services.pictures_at_hand import bomb, opened, picture
from tests.services.workshop import ARRIVAL

VAN = Vehicle(0, "", "MR-52-TEN", "Ondry", "van", air="rear")
OTHER = replace(ARRIVAL, vehicle=VAN, odometer="74 215", customer=Customer(0, "Wilma Teasel"), heights={})
REPORT = b"%PDF-1.4 a scan report, as the tool saved it"
COVER = Mark("cover", 0, 0, 5000, 5000)


@pytest.fixture
def there(at):
    return at("taken in")


def add(there, *sources, job=0, **more):
    named = [files.of_bytes(f"IMG_{number}.jpg", one) for number, one in enumerate(sources, 1)]
    return files.add_files(there.book, there.bram, job or there.job, named, **more)


def on_disk(there):
    return sorted(path.name for path in (there.book.folder / "photos").rglob("*") if path.is_file())


def test_a_file_is_kept_byte_for_byte_under_its_digest_and_named_by_the_journal(there, tmp_path):
    data = picture("red", taken="2026:11:25 09:12:03", turn=6)
    (tmp_path / "strut in place.jpg").write_bytes(data)
    (kept,) = files.add_files(there.book, there.bram, there.job, [tmp_path / "strut in place.jpg"]).kept
    digest = hashlib.sha256(data).hexdigest()
    assert (kept.digest, kept.size, kept.name, kept.media) == (digest, len(data), "strut in place.jpg", "image/jpeg")
    assert (kept.what, kept.taken_at, kept.turn, kept.by) == ("picture", "2026-11-25T09:12:03", 6, there.bram.id)
    assert (kept.width, kept.height) == (240, 320), "a picture held upright has its sides as they are seen"
    assert (there.book.folder / "photos" / digest).read_bytes() == data == files.content(there.book, digest)
    assert files.files_of(there.book, there.job) == (kept,)
    (entry,) = there.journal("file/1")
    assert "strut" not in entry.body, "the name may say whose it is, and is sealed"


def test_the_small_picture_is_upright_carries_no_place_and_is_made_again(there):
    (kept,) = add(there, picture("red", (1600, 1200), taken="2026:11:25 09:12:03", turn=6)).kept
    small = opened(files.small_picture(there.book, kept))
    assert small.size == (240, 320)
    assert small.getpixel((235, 5)) > (240, 240, 240), "the white corner stands where the turn puts it"
    assert not small.getexif()
    (there.book.folder / "photos" / "small" / f"{kept.digest}.jpg").unlink()
    assert opened(files.small_picture(there.book, kept)).size == (240, 320)
    assert f"{kept.digest}.jpg" in on_disk(there)


def test_scan_reports_and_documents_are_files_too(there):
    (report,) = files.add_files(
        there.book, there.bram, there.job, [files.of_bytes("before.pdf", REPORT)], "scan report", "codes/before"
    ).kept
    assert (report.what, report.media, report.to) == ("scan report", "application/pdf", "codes/before")
    (other,) = files.add_files(there.book, there.bram, there.job, [files.of_bytes("x.unheard", b"sheet")]).kept
    assert (other.what, other.media, other.is_picture) == ("document", "application/octet-stream", False)
    assert files.small_picture(there.book, other) == b""


def test_bad_files_are_each_said_in_a_sentence_and_the_others_are_kept(there, tmp_path):
    sources = [
        files.of_bytes("empty.jpg", b""),
        files.of_bytes("half.jpg", picture("red")[:900]),
        files.of_bytes("no.jpg", b"\xff\xd8\xff and then nothing of a picture"),
        files.of_bytes("bomb.png", bomb()),
        tmp_path / "not there.jpg",
        files.of_bytes("good.jpg", picture("blue")),
    ]
    added = files.add_files(there.book, there.bram, there.job, sources)
    assert [one.name for one in added.kept] == ["good.jpg"]
    words = ("0 bytes", "breaks off", "damaged", "125 megapixels", "could not be read")
    assert len(added.refused) == 5
    assert all(word in sentence for word, sentence in zip(words, added.refused, strict=True))
    assert on_disk(there) == [added.kept[0].digest, f"{added.kept[0].digest}.jpg"]


def test_what_must_be_a_picture_is_not_taken_as_one_where_it_is_none(there):
    added = files.add_files(there.book, there.bram, there.job, [files.of_bytes("a.txt", b"words")], "picture")
    assert "is no picture" in added.refused[0]
    with pytest.raises(Refused, match="no files called “film”"):
        files.add_files(there.book, there.bram, there.job, [], "film")
    with pytest.raises(NotFound):
        files.add_files(there.book, there.bram, 9999, [files.of_bytes("a.jpg", picture("red"))])
    assert on_disk(there) == []


def test_case_73_forty_pictures_at_once_lie_in_the_tray_and_are_assigned_in_bulk(there):
    added = add(there, *(picture("grey", (64 + number, 48)) for number in range(40)))
    assert (len(added.kept), added.words, {one.to for one in added.kept}) == (40, "40 files kept", {""})
    step = next(place for place in files.places(there.book, there.job) if place.key.startswith("concern/"))
    some = [one.entry for one in added.kept[:25]]
    files.assign(there.book, there.bram, there.job, some, step.key)
    shown = files.shown_files(there.book, there.job)
    assert [one.file.entry for one in shown if one.place == step.words] == some
    assert len([one for one in shown if not one.place]) == 15
    assert len(there.journal("file-assigned/1")) == 1, "one act of one person is one entry"
    files.assign(there.book, there.bram, there.job, some[:1], "")
    assert files.shown_files(there.book, there.job)[0].place == ""


def test_case_73_a_picture_without_a_date_or_with_a_wrong_clock_is_kept_and_says_so(there):
    day = there.book.today().strftime("%Y:%m:%d")
    add(there, picture("red"), picture("red", taken="2015:01:01 00:03:00"), picture("red", taken=f"{day} 08:00:00"))
    add(there, picture("red", taken="2015:99:01 00:03:00"))
    said = [one.camera for one in files.shown_files(there.book, there.job)]
    assert said == ["no camera time", "camera time differs: before the job", "", "no camera time"]
    kept = files.files_of(there.book, there.job)[1]
    assert files.content(there.book, kept.digest) == picture("red", taken="2015:01:01 00:03:00"), "nothing is put right"


def test_case_74_the_same_picture_twice_is_said_and_not_kept_twice(there):
    (kept,) = add(there, picture("red"), picture("red")).kept
    again = add(there, picture("red"), picture("blue"))
    assert [(one.job, one.entry) for one in again.again] == [(there.job, kept.entry)]
    assert len(files.files_of(there.book, there.job)) == 2 == len(there.journal("file/1"))


def test_case_74_a_picture_of_another_car_is_moved_with_a_trace_on_both_jobs(there):
    other = take_in(there.book, there.jonas, OTHER)
    (kept,) = add(there, picture("red"), to="arrival").kept
    (found,) = add(there, picture("red"), job=other).again
    assert (found.job, found.entry) == (there.job, kept.entry), "it says where the picture is"
    files.move_files(there.book, there.bram, there.job, [kept.entry], other, "the blue van, not the estate")
    assert files.files_of(there.book, there.job) == ()
    (arrived,) = files.files_of(there.book, other)
    assert (arrived.digest, arrived.name, arrived.to) == (kept.digest, kept.name, "")
    for job, here in ((there.job, False), (other, True)):
        (trace,) = moves(there.book, job)[1]
        assert (trace.here, trace.reason) == (here, "the blue van, not the estate")
    assert audit(there.book.store).sound


def test_case_74_a_plate_is_covered_and_the_place_left_out_on_export_and_the_original_stays(there, tmp_path):
    data = picture("red", (800, 600), taken="2026:11:25 09:12:03")
    assert opened(data).getexif().get_ifd(0x8825), "the picture says where it was taken"
    (kept,) = add(there, data).kept
    files.set_marks(there.book, there.bram, there.job, kept.entry, (COVER, Mark("arrow", 9000, 9000, 6000, 6000)))
    (copied,) = files.copies_out(there.book, there.job, [kept.entry], tmp_path / "out")
    left = opened(copied.read_bytes())
    assert (left.size, dict(left.getexif()), left.info.get("exif")) == ((800, 600), {}, None)
    assert max(left.getpixel((100, 100))) < 20, "the white corner lies under the cover"
    assert files.content(there.book, kept.digest) == data
    assert files.files_of(there.book, there.job)[0].marks[0] == COVER


def test_marks_lie_beside_the_original_and_those_before_stay_readable(there):
    (kept,) = add(there, picture("red")).kept
    files.set_marks(there.book, there.bram, there.job, kept.entry, (Mark("ring", 10, 10, 90, 90),))
    files.set_marks(there.book, there.bram, there.job, kept.entry, ())
    assert files.files_of(there.book, there.job)[0].marks == ()
    assert there.journal("file-marked/1")[0].payload["marks"][0]["shape"] == "ring"
    with pytest.raises(Refused, match="all within it"):
        files.set_marks(there.book, there.bram, there.job, kept.entry, (Mark("ring", -1, 0, 5, 5),))
    (report,) = files.add_files(there.book, there.bram, there.job, [files.of_bytes("r.pdf", REPORT)]).kept
    with pytest.raises(Refused, match="only pictures can be marked"):
        files.set_marks(there.book, there.bram, there.job, report.entry, (COVER,))
    with pytest.raises(Refused, match="only pictures can be shown"):
        files.choose(there.book, there.bram, there.job, [report.entry], True)


def test_copies_are_never_written_over_another_file_and_documents_go_as_they_are(there, tmp_path):
    add(there, picture("red"))
    files.add_files(there.book, there.bram, there.job, [files.of_bytes("a b/c.pdf", REPORT)])
    entries = [one.entry for one in files.files_of(there.book, there.job)]
    first = files.copies_out(there.book, there.job, entries, tmp_path / "out")
    second = files.copies_out(there.book, there.job, entries, tmp_path / "out")
    assert len({*first, *second}) == 4
    assert first[1].name == f"job-{there.job}-02-a-b-c.pdf"
    assert first[1].read_bytes() == REPORT == second[1].read_bytes()
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(StoreUnavailable, match="none of them was left"):
        files.copies_out(there.book, there.job, entries, tmp_path / "file")
    with pytest.raises(Refused, match="choose the files"):
        files.copies_out(there.book, there.job, [], tmp_path / "out")


def test_a_file_that_is_taken_away_counts_no_longer_and_can_come_again(there):
    (kept,) = add(there, picture("red")).kept
    with pytest.raises(Refused, match="say why"):
        files.take_away(there.book, there.bram, there.job, [kept.entry], " ")
    files.take_away(there.book, there.bram, there.job, [kept.entry], "blurred")
    assert files.files_of(there.book, there.job) == ()
    with pytest.raises(NotFound, match="choose files"):
        files.assign(there.book, there.bram, there.job, [kept.entry], "arrival")
    with pytest.raises(NotFound):
        files.set_marks(there.book, there.bram, there.job, kept.entry, ())
    assert audit(there.book.store).sound, "its bytes stay, since the journal names them"
    assert len(add(there, picture("red")).kept) == 1


def test_a_place_that_no_job_has_is_refused_and_nothing_is_left(there):
    with pytest.raises(Refused, match="no place “roof”"):
        add(there, picture("red"), to="roof")
    assert on_disk(there) == []


class Stopping:
    cancelled = False

    def report(self, done, total):
        self.cancelled = done == 2


def test_taking_in_can_be_stopped_and_leaves_nothing(there):
    sources = [files.of_bytes(f"{colour}.jpg", picture(colour)) for colour in ("red", "blue", "green")]
    with pytest.raises(Refused, match="was stopped"):
        files.prepare(there.book, there.job, sources, pace=Stopping())
    assert on_disk(there) == []


def test_a_full_disk_keeps_none_of_the_files(there):
    """The folder for small pictures cannot be made: what the disk reports is said, and the first is taken back."""
    (there.book.folder / "photos" / "small").write_bytes(b"")
    with pytest.raises(StoreUnavailable, match="nothing of this last action was kept"):
        add(there, picture("red"), picture("blue"))
    assert on_disk(there) == ["small"]
    assert there.journal("file/1") == []


def test_whoever_may_not_work_here_keeps_no_files(there):
    ready = files.prepare(there.book, there.job, [files.of_bytes("a.jpg", picture("red"))])
    assert len(on_disk(there)) == 2
    looker = add_person(there.book, there.imke, "Ove Lindqvist", frozenset({"tools"}), "8642")
    with pytest.raises(Refused, match="no permission"):
        files.keep_ready(there.book, looker, there.job, ready)
    assert on_disk(there) == []
    assert audit(there.book.store).sound


def test_content_that_another_program_named_meanwhile_is_not_kept_twice(there):
    source = [files.of_bytes("a.jpg", picture("red"))]
    ready = files.prepare(there.book, there.job, source)
    (kept,) = add(there, picture("red")).kept
    added = files.keep_ready(there.book, there.bram, there.job, ready)
    assert (added.kept, [one.entry for one in added.again]) == ((), [kept.entry])


def test_content_that_went_missing_before_it_was_named_is_not_named(there):
    ready = files.prepare(there.book, there.job, [files.of_bytes("a.jpg", picture("red"))])
    (there.book.folder / "photos" / ready.files[0].digest).unlink()
    with pytest.raises(StoreUnavailable, match="not in the book's folder any more"):
        files.keep_ready(there.book, there.bram, there.job, ready)
    assert there.journal("file/1") == []


def test_the_audit_finds_a_file_that_was_altered_or_lost(there):
    (red, blue) = add(there, picture("red"), picture("blue")).kept
    folder = there.book.folder / "photos"
    (folder / red.digest).write_bytes(b"something else")
    (folder / blue.digest).unlink()
    found = audit(there.book.store).findings
    assert f"The file of entry {red.entry} is not byte for byte as it was kept." in found
    assert f"The file of entry {blue.entry} is not in the book's folder." in found
    with pytest.raises(NotFound, match="restore it from a backup"):
        files.content(there.book, blue.digest)


def test_the_evidence_lists_files_and_shows_chosen_pictures_covered_and_without_their_place(there):
    (shown, other) = add(there, picture("red", (800, 600), taken="2026:11:25 09:12:03"), picture("blue")).kept
    files.add_files(there.book, there.bram, there.job, [files.of_bytes("before.pdf", REPORT)], "scan report")
    files.choose(there.book, there.bram, there.job, [shown.entry], True)
    files.set_marks(there.book, there.bram, there.job, shown.entry, (COVER,))
    paper = preview(there.book, there.job, "evidence")
    words = close("".join(pages(paper)))
    assert all(close(one) in words for one in (shown.digest, other.digest, "before.pdf"))
    (image,) = [image for page in PdfReader(BytesIO(paper)).pages for image in page.images]
    assert max(image.image.getpixel((60, 60))) < 20
    assert b"a camera" not in image.data
    (there.book.folder / "photos" / shown.digest).unlink()
    assert "isnotinthebook" in close("".join(pages(preview(there.book, there.job, "evidence"))))
