"""The order of the tests: common practice, as the trade notes give it."""

from jobbook.core.measured.guided import BY_KEY, ORDER, SIGNS, belongs, name_of
from jobbook.core.quantities import KINDS
from jobbook.core.quantities.units import UNIT
from jobbook.services.measured.reckoning import figure


def place(key: str) -> int:
    return [one.key for one in ORDER].index(key)


def test_nothing_that_wakes_the_vehicle_comes_before_its_first_heights():
    assert place("heights") == 0
    assert place("heights") < place("codes") < place("levelled") < place("stand")


def test_soap_comes_on_the_wheels_first_and_at_droop_last():
    assert place("stand") < place("soap normal") < place("soap raised") < place("soap droop") < place("isolation")


def test_every_quantity_is_of_a_kind_that_can_be_read_and_every_figure_gives_its_result():
    parts = [part for test in ORDER for part in test.parts if part.kind == "quantity"]
    assert all(part.quantity in KINDS and UNIT[part.unit].kind == part.quantity for part in parts)
    assert all(part.result in figure(part.figure).results for part in parts if part.figure)


def test_keys_and_titles_are_there_once():
    assert len(BY_KEY) == len({one.title for one in ORDER}) == len(ORDER)
    assert len({sign.finding for sign in SIGNS}) == len(SIGNS)


def test_a_sensor_at_each_corner_answers_one_test():
    sensors = BY_KEY["electrical"]
    assert name_of(sensors, {"corner": "FL"}) == f"{sensors.title}, FL"
    assert belongs(sensors, f"{sensors.title}, RR")
    assert not belongs(BY_KEY["supply"], f"{BY_KEY['supply'].title}, FL")
