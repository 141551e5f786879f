"""One telephone number, written as E.123 of the ITU and as people write it."""

import pytest

from jobbook.core.desk.phones import ways_to_write


@pytest.mark.parametrize(
    "typed", ["+49 30 5550147", "+49 (0)30 555 0147", "0049 30 5550147", "030 5550147", "030/555-01-47", "0305550147"]
)
def test_each_way_to_write_a_number_finds_it_however_it_was_kept(typed):
    """Nationally (030) 555 0147, internationally +49 30 555 0147, after the examples of E.123, section 2."""
    ways = ways_to_write(typed)
    assert {"0305550147", "49305550147", "490305550147"} <= set(ways)
    assert ways[0] == "".join(sign for sign in typed if sign.isdigit())


@pytest.mark.parametrize("typed", ["", "0147", "1042", "Quillhaven 0147", "310552", "010552", "+", "0-0", "KX 07"])
def test_what_begins_with_neither_plus_nor_nought_or_is_short_is_no_number_to_call(typed):
    assert ways_to_write(typed) == ()
