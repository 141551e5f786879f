"""The evidence over the years: the term of the part that came off, and what was measured since it was fitted."""

from datetime import timedelta

import pytest
from pypdf import PdfReader
from reportlab.platypus import SimpleDocTemplate

from jobbook.paperwork import sheet
from jobbook.paperwork.paint import Painted
from jobbook.paperwork.years import Years, years_block
from jobbook.services.papers.gathered import gather
from jobbook.services.papers.proving import Earlier, evidence
from jobbook.services.papers.years import years
from jobbook.services.vehicle.part_life import kinds, life
from tests.services.part_book import START, PartBook, part_book


@pytest.fixture
def there(tmp_path):
    made = part_book(tmp_path / "book")
    yield made
    made.book.close()


def measured(there: PartBook, job: int, day: int, height: str) -> None:
    act = {"do": "measure", "what": "heights", "readings": [["FL", height]], "how": "SR-01"}
    there.keep("act/1", job, day, act=act)


def told(there: PartBook, first: int, second: int):
    """The years and the failure's term, as the evidence of the second job says them."""
    with there.book.store.read() as reading:
        earlier = Earlier(gather(reading, first), reading.pieces.of_job(first)[0])
        facts = gather(reading, second)
        record = evidence(facts, earlier, START + timedelta(days=900), "Imke Tolland", 1, "")
        assert record.failure is not None
        return years(reading, facts, earlier), record.failure.term


def visits(there: PartBook, km: int = 130_000, **issue: str) -> tuple[int, int]:
    measured(there, there.visit("a", 0, 90_000), 0, "380")
    first = there.visit("a", 100, 100_000)
    there.fit(first, 100, "FL", **issue)
    measured(there, first, 100, "402")
    second = there.visit("a", 500, km)
    measured(there, second, 500, "366")
    return first, second


def test_what_was_measured_since_the_fitting_is_drawn_and_earlier_visits_are_not_told(there: PartBook):
    drawn, _ = told(there, *visits(there))
    (heights,) = drawn
    assert heights.title == "Heights over the visits, mm"
    assert "FL: Apr 2020 402, May 2021 366;" in heights.drawing.words


def test_one_visit_alone_is_no_line_over_the_years(there: PartBook):
    first = there.visit("a", 0, 100_000)
    there.fit(first, 0, "FL")
    measured(there, first, 0, "402")
    drawn, term = told(there, first, there.visit("a", 300, 110_000))
    assert (drawn, term) == ((), "")


@pytest.mark.parametrize(
    ("km", "issue", "said"),
    [
        (130_000, {"warranty_months": "24", "warranty_distance": "60 000 km"}, "24 months and 60 000 km"),
        (130_000, {"warranty_months": "24", "warranty_from": "2019-01-01"}, "24 months"),
        (161_000, {"warranty_distance": "60 000 km"}, "60 000 km"),
        (90_000, {"warranty_distance": "60 000 km"}, "60 000 km"),
    ],
)
def test_the_term_says_from_when_and_whether_the_part_came_back_inside_it(there: PartBook, km, issue, said):
    holds = {130_000: "inside", 161_000: "over", 90_000: "it cannot be told, the distance is not known"}[km]
    begins = "1 Jan 2019" if "warranty_from" in issue else "15 Apr 2020"
    holds = "over" if "warranty_from" in issue else holds
    _, term = told(there, *visits(there, km, **issue))
    assert term == f"{said} from {begins}: {holds}"


def test_both_drawings_set_on_paper_with_their_words(there: PartBook, tmp_path):
    first, second = visits(there)
    (heights,), _ = told(there, first, second)
    plot = life(there.book, kinds(there.book, "kind")[0], None, "days").plot
    sheet.fonts()
    file = tmp_path / "years.pdf"
    SimpleDocTemplate(str(file)).build([*years_block((heights, Years("Part life", plot)), 470.0), Painted(plot)])
    words = "".join(page.extract_text() for page in PdfReader(file).pages)
    for text in ("Heights over the visits, mm", "Apr 2020", "still working, %", "Ring: as it came."):
        assert text in words
