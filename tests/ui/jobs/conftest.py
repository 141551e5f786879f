"""The job page on a real book, as wide and high as a window of 1366 × 768 leaves for it."""

import pytest

from jobbook.ui.jobs.job_page import JobPage
from jobbook.ui.places import a_job
from tests.ui.jobs import strut_book
from tests.ui.jobs.strut_book import Strut

SIZE = (1218, 692)


@pytest.fixture
def there(tmp_path) -> Strut:
    made = strut_book.strut(tmp_path / "book")
    yield made
    made.book.close()


@pytest.fixture
def page(qtbot, dressed, there):
    def show(lanes=None) -> JobPage:
        made = JobPage(there.setting(lanes))
        qtbot.addWidget(made)
        made.resize(*SIZE)
        with qtbot.waitActive(made):
            made.show()
            made.activateWindow()
        made.arrive(a_job(there.job))
        return made

    return show
