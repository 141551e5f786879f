"""Which figure is in force on a day, figures side by side, and jobs that were done with an older one."""

from jobbook.core.vehicle.specifications import (
    Day,
    OlderUse,
    SecondLook,
    Specification,
    in_force,
    looked_at,
    older_uses,
    side_by_side,
    to_come,
)


def figure(entry: int, key: str = "bolt", text: str = "50 N·m", valid_from: str = "", **more: str) -> Specification:
    return Specification(entry, "v", key, "torque", key.title(), text, valid_from=valid_from, entry=entry, **more)


OLD, NEW = figure(4, text="50 N·m"), figure(9, text="55 N·m", valid_from="2026-11-01")
NEXT = figure(12, text="60 N·m", valid_from="2027-01-01")
TOLD = (OLD, NEW, NEXT)


def test_a_figure_is_in_force_from_its_day_on_and_the_day_is_included() -> None:
    on = {day: in_force(TOLD, Day(day))[0].text for day in ("2026-10-31", "2026-11-01", "2026-12-31", "2027-01-01")}
    assert list(on.values()) == ["50 N·m", "55 N·m", "55 N·m", "60 N·m"]


def test_what_was_entered_after_an_entry_does_not_count_before_it() -> None:
    assert in_force(TOLD, Day("2027-06-01", before=9)) == (OLD,)
    assert in_force(TOLD, Day("2027-06-01", before=4)) == ()


def test_of_two_figures_from_one_day_the_one_entered_later_counts_and_an_older_day_never_overtakes() -> None:
    again, earlier = (
        figure(13, text="56 N·m", valid_from="2026-11-01"),
        figure(14, text="45 N·m", valid_from="2020-01-01"),
    )
    assert in_force((OLD, NEW, again, earlier), Day("2026-12-01")) == (again,)
    assert in_force((OLD, NEW, again, earlier), Day("2020-01-02")) == (earlier,)


def test_figures_that_begin_later_are_told_in_the_order_in_which_they_begin() -> None:
    sooner = figure(13, key="nut", valid_from="2026-12-20")
    assert to_come((*TOLD, sooner), Day("2026-12-01")) == (sooner, NEXT)


def test_a_second_look_names_who_read_the_same_and_a_doubt_takes_the_name_away() -> None:
    (seen,) = looked_at((NEW,), (SecondLook(9, "io"), SecondLook(4, "bf")))
    assert (seen.second_look_by, seen.doubt) == ("io", "")
    (doubted,) = looked_at((figure(9, second_look_by="io"),), (SecondLook(9, "bf", "the sheet has 65"),))
    assert (doubted.second_look_by, doubted.doubt) == ("", "the sheet has 65")


def test_figures_stand_side_by_side_those_that_differ_first() -> None:
    """A figure that one variant lacks stands between: unknown is neither the same nor another."""
    rows = side_by_side(
        {
            "standard": (figure(1, "bolt"), figure(2, "nut", "9 N·m"), figure(3, "height", "402 mm")),
            "sport": (figure(4, "bolt"), figure(5, "nut", "9 N·m", tolerance="± 10 %"), figure(6, "link", "65 N·m")),
        }
    )
    assert [(row.key, row.differs, row.lacking) for row in rows] == [
        ("nut", True, False),
        ("height", False, True),
        ("link", False, True),
        ("bolt", False, False),
    ]
    assert [one.text if one else None for one in rows[2].figures] == [None, "65 N·m"]


def test_another_edition_of_the_same_figure_is_no_difference_between_variants() -> None:
    rows = side_by_side({"a": (figure(1, edition="3"),), "b": (figure(2, edition="4"),)})
    assert [row.differs for row in rows] == [False]


def test_jobs_with_another_figure_or_another_edition_are_listed_by_what_they_used_last() -> None:
    now = figure(9, text="55 N·m", document="sheet 12", edition="4")
    used = (
        OlderUse(1, "2024", "50 N·m", "", "sheet 12", "3"),
        OlderUse(2, "2025", "50 N·m", "", "sheet 12", "3"),
        OlderUse(2, "2025", "55 N·m", "", "sheet 12", "4"),
        OlderUse(3, "2026", "55 N·m", "", "sheet 12", "3"),
    )
    assert [(one.job, one.edition) for one in older_uses(used, now)] == [(3, "3"), (1, "3")]
