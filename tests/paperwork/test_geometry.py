"""Wheel geometry on both papers: every figure, its limit and what is said of it are on the page."""

import pytest

from jobbook.core.drawing import GeometryRow, Wheel
from jobbook.paperwork import evidence, handover
from jobbook.paperwork.geometry import Geometry

from . import records
from .reading import pages

ROW = GeometryRow(
    "Toe, front",
    (
        Wheel("FL", 0.23, 0.17, "+0°14′", "+0°10′", "conform"),
        Wheel("FR", 0.03, 0.30, "+0°02′", "+0°18′", "not conform"),
    ),
    "+0°05′ to +0°15′",
    5 / 60,
    15 / 60,
)
GEOMETRY = Geometry((ROW,), (("As set", "24 Nov 2026 10:48 <by> Bram Ferro, at FL 401"), ("Limits", "drawn [1]")))
PAPERS = ((evidence, records.evidence), (handover, records.handover))


def text(paper, record, **changes):
    return " ".join(" ".join(pages(paper.to_pdf(record(**changes), head=records.HEAD))).split())


@pytest.mark.parametrize(("paper", "record"), PAPERS)
def test_figures_limits_and_words_are_on_the_page(paper, record):
    printed = text(paper, record, geometry=GEOMETRY)
    for said in ("Wheel geometry", "FL +0°10′", "was +0°14′", "FR +0°18′", "not conform", "+0°05′ to +0°15′"):
        assert said in printed
    assert "10:48 <by> Bram Ferro, at FL 401" in printed


@pytest.mark.parametrize(("paper", "record"), PAPERS)
def test_where_no_geometry_was_read_nothing_is_said_of_it(paper, record):
    assert "Wheel geometry" not in text(paper, record, geometry=None)
