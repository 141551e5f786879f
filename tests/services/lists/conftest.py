"""The books of these tests."""

import pytest


@pytest.fixture
def there(at):
    """A workshop with its people and tools, and no vehicle yet."""
    return at("shop")
