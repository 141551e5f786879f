"""A drawn signature: kept as SVG path data with exactly the text that was signed."""

import hashlib
import xml.etree.ElementTree as ElementTree

import pytest

from jobbook.core.desk import signature
from jobbook.core.desk.signature import drawing, from_text, path_of, signed, strokes_of, to_text
from jobbook.core.errors import Refused

STROKES = [[(10.2, 200), (40, 20), (70, 199.7)], [(20, 120), (21, 121), (60, 120)]]
PATH = path_of(STROKES)


def test_strokes_become_path_data_that_reads_back():
    assert PATH == "M10 200L40 20L70 200M20 120L60 120"  # the trembling of one point is left out
    assert strokes_of(PATH) == (((10, 200), (40, 20), (70, 200)), ((20, 120), (60, 120)))


def test_a_stroke_that_leaves_the_box_is_kept_at_its_edge():
    assert path_of([[(-50, 10), (5000, 900)]]) == f"M0 10L{signature.WIDTH} {signature.HEIGHT}"


def test_the_path_is_one_that_svg_knows():
    """SVG 1.1, 8.3.2 and 8.3.4: moveto and lineto with absolute coordinates."""
    root = ElementTree.fromstring(f'<svg xmlns="http://www.w3.org/2000/svg"><path d="{PATH}"/></svg>')
    assert root[0].get("d", "")[0] == "M"
    assert set(PATH) <= set("ML0123456789 ")


def test_text_and_signature_belong_together_and_a_changed_text_shows():
    one = from_text(to_text(signed("Renew the strut, 1 480.00 EUR.\nOld parts back.", PATH)))
    assert one.is_whole
    assert one.digest == hashlib.sha256(b"Renew the strut, 1 480.00 EUR.\nOld parts back.").hexdigest()
    assert not signature.Signed(one.text.replace("1 480", "2 480"), one.digest, one.path).is_whole


@pytest.mark.parametrize("path", ["", "M1 1", "M1 1L2 2", "M1 1L9 9L3 3Z", "M1.5 1L2 2L9 9", "<svg/>"])
def test_nothing_drawn_or_no_path_at_all_is_no_signature(path):
    with pytest.raises(Refused, match="draw the signature"):
        signed("Text", path)


def test_a_scribble_without_end_is_refused():
    with pytest.raises(Refused, match="more strokes"):
        signed("Text", path_of([[(x % 1000, (x * 7) % 250) for x in range(0, 90000, 9)]]))


def test_a_signature_is_drawn_as_wide_as_the_paper_asks():
    drawn = drawing(PATH, 200, "Ansel Harrow")
    assert (drawn.width, drawn.height) == (200, 50)
    assert len(drawn.shapes) == 3
    assert drawn.words == "Signature of Ansel Harrow"
