"""Bolts, preloads, torques and nuts against whole published tables."""

import pytest

from jobbook.core.errors import Refused
from jobbook.services.measured.reckoning import reckon

GRADES = ("8.8", "10.9", "12.9")

# ISO 898-1, coarse threads, N: published in four copies. Proof load of 8.8, 10.9, 12.9, then breaking load.
LOADS = """
M6   11600  16700  19500  16100  20900  24500
M8   21200  30400  35500  29200  38100  44600
M10  33700  48100  56300  46400  60300  70800
M12  48900  70000  81800  67400  87700 103000
M14  66700  95500 112000  92000 120000 140000
M16  91000 130000 152000 125000 163000 192000
M18 115000 159000 186000 159000 200000 234000
M20 147000 203000 238000 203000 255000 299000
"""

# VDI 2230:2001, coarse, preload in kN for friction 0.08, 0.10, 0.12, 0.14, 0.16: published copy, M16 from memory.
PRELOAD = """
M6   8.8  10.7  10.4  10.2   9.9   9.6
M6  10.9  15.7  15.3  14.9  14.5  14.1
M6  12.9  18.4  17.9  17.5  17.0  16.5
M8   8.8  19.5  19.1  18.6  18.1  17.6
M8  10.9  28.7  28.0  27.3  26.6  25.8
M8  12.9  33.6  32.8  32.0  31.1  30.2
M10  8.8  31.0  30.3  29.6  28.8  27.9
M10 10.9  45.6  44.5  43.4  42.2  41.0
M10 12.9  53.3  52.1  50.8  49.4  48.0
M12  8.8  45.2  44.1  43.0  41.9  40.7
M12 10.9  66.3  64.8  63.2  61.5  59.8
M12 12.9  77.6  75.9  74.0  72.0  70.0
M14  8.8  62.0  60.6  59.1  57.5  55.9
M14 10.9  91.0  88.9  86.7  84.4  82.1
M14 12.9 106.5 104.1 101.5  98.8  96.0
M16  8.8  84.7  82.9  80.9  78.8  76.6
M16 10.9 124.4 121.7 118.8 115.7 112.6
M16 12.9 145.5 142.4 139.0 135.4 131.7
M18  8.8   107   104   102    99    96
M18 10.9   152   149   145   141   137
M18 12.9   178   174   170   165   160
"""

# VDI 2230:2001, fine threads, kN and N·m: published copy, both columns. Friction 0.10, 0.12, 0.14 for each grade.
FINE = """
M8x1      8.8  20.7  22.8   20.2  26.1   19.7  29.2
M8x1     10.9  30.4  33.5   29.7  38.3   28.9  42.8
M8x1     12.9  35.6  39.2   34.7  44.9   33.9  50.1
M10x1.25  8.8  32.4  44     31.6  51     30.8  57
M10x1.25 10.9  47.5  65     46.4  75     45.2  83
M10x1.25 12.9  55.6  76     54.3  87     52.9  98
M12x1.25  8.8  49.1  79     48.0  90     46.8  101
M12x1.25 10.9  72.1  116    70.5  133    68.7  149
M12x1.25 12.9  84.4  135    82.5  155    80.4  174
M14x1.5   8.8  66.4  124    64.8  142    63.2  159
M14x1.5  10.9  97.5  182    95.2  209    92.9  234
M14x1.5  12.9 114.1  213   111.4  244   108.7  274
M16x1.5   8.8  89.6  189    87.6  218    85.5  244
M16x1.5  10.9 131.6  278   128.7  320   125.5  359
M16x1.5  12.9 154.0  325   150.6  374   146.9  420
M18x1.5   8.8   120  283     117  327     115  368
M18x1.5  10.9   171  403     167  465     163  523
M18x1.5  12.9   200  472     196  544     191  613
"""

# ISO 2320, class 04, N·m: published copy. First on at most, first off at least, fifth off at least.
NUTS = """
M5       1.6  0.29  0.2
M6       3    0.45  0.3
M8       6    0.85  0.6
M8x1     6    0.85  0.6
M10     10.5  1.5   1
M10x1.25 10.5 1.5   1
M10x1   10.5  1.5   1
M12     15.5  2.3   1.6
M12x1.5 15.5  2.3   1.6
M12x1.25 15.5 2.3   1.6
M14     24    3.3   2.3
M14x1.5 24    3.3   2.3
M16     32    4.5   3
M16x1.5 32    4.5   3
M18     42    6     4.2
M18x1.5 42    6     4.2
M20     54    7.5   5.3
M24     80   11.5   8
"""


def rows(table: str) -> list[list[str]]:
    return [line.split() for line in table.strip().splitlines()]


@pytest.mark.parametrize("row", rows(LOADS), ids=lambda row: row[0])
def test_proof_and_breaking_loads_are_those_of_iso_898_1_within_its_rounding(row: list[str]) -> None:
    for grade, proof, tensile in zip(GRADES, row[1:4], row[4:], strict=True):
        result = reckon("bolt", {"thread": row[0], "grade": grade})
        assert result["proof_load_n"] == pytest.approx(float(proof), rel=0.006)
        assert result["tensile_load_n"] == pytest.approx(float(tensile), rel=0.006)


@pytest.mark.parametrize("row", rows(PRELOAD), ids=lambda row: " ".join(row[:2]))
def test_preloads_of_coarse_threads_are_those_of_vdi_2230_of_2001(row: list[str]) -> None:
    thread, grade, *preloads = row
    for friction, preload in zip(("0.08", "0.10", "0.12", "0.14", "0.16"), preloads, strict=True):
        result = reckon("assembly", {"thread": thread, "grade": grade, "friction": friction})
        assert result["preload_kn"] == pytest.approx(float(preload), rel=0.008)


@pytest.mark.parametrize("row", rows(FINE), ids=lambda row: " ".join(row[:2]))
def test_preloads_and_torques_of_fine_threads_are_those_of_vdi_2230_of_2001(row: list[str]) -> None:
    thread, grade, *figures = row
    for friction, preload, torque in zip(("0.10", "0.12", "0.14"), figures[::2], figures[1::2], strict=True):
        result = reckon("assembly", {"thread": thread, "grade": grade, "friction": friction})
        assert result["preload_kn"] == pytest.approx(float(preload), rel=0.006)
        assert result["torque_nm"] == pytest.approx(float(torque), rel=0.012)


@pytest.mark.parametrize(
    ("thread", "torque"),
    [("M6", 10.1), ("M8", 24.6), ("M10", 48), ("M12", 84), ("M14", 133), ("M16", 206), ("M18", 295), ("M20", 415)],
)
def test_torques_of_coarse_8_8_at_friction_0_12_are_the_published_ones(thread: str, torque: float) -> None:
    result = reckon("assembly", {"thread": thread, "grade": "8.8", "friction": "0.12"})
    assert result["torque_nm"] == pytest.approx(torque, rel=0.02)


@pytest.mark.parametrize("row", rows(NUTS), ids=lambda row: row[0])
def test_locking_torques_are_those_of_iso_2320_class_04(row: list[str]) -> None:
    result = reckon("prevailing", {"thread": row[0], "nut_class": "04"})
    assert list(result.values()) == list(map(float, row[1:]))


@pytest.mark.parametrize(
    ("thread", "least"), [("M10", 1.4), ("M12", 2.1), ("M16", 4.2), ("M20", 7), ("M24", 10.5), ("M27", 12), ("M30", 14)]
)
def test_the_fifth_removal_of_class_10_is_the_published_one(thread: str, least: float) -> None:
    assert reckon("prevailing", {"thread": thread, "nut_class": "10"})["fifth_off_min_nm"] == least


def test_what_the_table_of_class_10_lacks_is_left_out_and_no_row_is_invented() -> None:
    assert set(reckon("prevailing", {"thread": "M20", "nut_class": "10"})) == {"fifth_off_min_nm"}
    for thread, nut_class in (("M20x1.5", "04"), ("M12x1", "04"), ("M18", "10")):
        with pytest.raises(Refused, match=f"^thread was not taken: the table for class {nut_class} has no {thread}"):
            reckon("prevailing", {"thread": thread, "nut_class": nut_class})


def test_preload_by_the_angle_of_a_torque_split_adds_up() -> None:
    # Computed from the published formula: M12, 8.8, friction 0.12, 43.0 kN: pitch 11.98, thread 32.36, head 38.87 N·m.
    whole = reckon("assembly", {"thread": "M12", "grade": "8.8", "friction": "0.12"})
    assert whole["torque_nm"] * 43.0 / whole["preload_kn"] == pytest.approx(11.98 + 32.36 + 38.87, abs=0.02)
    smooth_head = reckon("assembly", {"thread": "M12", "grade": "8.8", "friction": "0.12", "head_friction": "0.0001"})
    assert smooth_head["preload_kn"] == whole["preload_kn"]
    lost = whole["torque_nm"] - smooth_head["torque_nm"]
    assert lost * 43.0 / whole["preload_kn"] == pytest.approx(38.87, abs=0.04)
