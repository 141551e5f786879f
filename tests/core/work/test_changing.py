"""Changing a field of a record comes to the same as the library's own way, for every record of the work."""

import dataclasses
import inspect

import pytest

from jobbook.core.work import model, reading, rules, state
from jobbook.core.work.changing import replace
from jobbook.core.work.state import START, JointNow

RECORDS = [
    thing
    for module in (model, reading, rules, state)
    for _, thing in inspect.getmembers(module, inspect.isclass)
    if dataclasses.is_dataclass(thing)
]


def made(record):
    """One of that kind, with a text in every field."""
    return record(**{field.name: f"as {field.name} stands" for field in dataclasses.fields(record)})


def test_every_record_is_changed_as_the_library_changes_it():
    for record in RECORDS:
        one, first = made(record), dataclasses.fields(record)[0].name
        assert replace(one, **{first: "new"}) == dataclasses.replace(one, **{first: "new"})
        assert vars(replace(one, **{first: "new"})) == vars(dataclasses.replace(one, **{first: "new"}))
    assert len(RECORDS) > 15


def test_the_record_that_is_changed_stays_as_it_was():
    before = dict(vars(START))
    changed = replace(START, permitted=True)
    assert changed.permitted
    assert vars(START) == before
    assert hash(replace(JointNow(), word="out")) == hash(JointNow("out"))


def test_a_field_that_is_not_there_is_refused_aloud():
    with pytest.raises(TypeError, match=r"JointNow has no field .*wrod"):
        replace(JointNow(), wrod="out")


def test_no_record_computes_anything_when_it_is_made():
    assert [record for record in RECORDS if hasattr(record, "__post_init__") or hasattr(record, "__slots__")] == []
