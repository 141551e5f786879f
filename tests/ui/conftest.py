"""What every test of the window begins with."""

import os

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from jobbook.ui import look


@pytest.fixture
def dressed(qapp):
    """The application in the house's look, light."""
    look.dress(qapp, "light")
    return qapp
