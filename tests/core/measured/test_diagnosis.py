"""What was found, said with its place."""

import pytest

from jobbook.core.measured.diagnosis import with_corner


@pytest.mark.parametrize(
    ("words", "corner", "said"),
    [
        ("Bush cracked.", "RL", "Bush cracked, RL"),
        ("Brake hose RL chafed", "RL", "Brake hose RL chafed"),
        ("Link (front), FR, has play", "FR", "Link (front), FR, has play"),
        ("FRESH oil on the damper", "FR", "FRESH oil on the damper, FR"),
        ("Relay holder brown", "", "Relay holder brown"),
    ],
)
def test_a_finding_names_its_corner_once(words, corner, said):
    assert with_corner(words, corner) == said
