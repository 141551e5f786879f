"""Odometers as they are typed."""

import pytest

from jobbook.core.errors import Refused
from jobbook.services.vehicle.odometers import read_odometer


def test_a_number_of_very_many_digits_is_refused_in_a_sentence():
    with pytest.raises(Refused, match="not a whole number"):
        read_odometer("9" * 5000)
