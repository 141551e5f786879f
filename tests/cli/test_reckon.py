"""`jobbook reckon` as a person and a program call it."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from jobbook.cli import main
from jobbook.core.figures.registry import FIGURES

CASES = Path(__file__).parent.parent / "standards" / "cases.json"
ADAPTER = ["torque=110 N*m", "lever=400 mm", "extension=50 mm", "angle=30 deg"]


def run(*words: str):
    return CliRunner().invoke(main, ["reckon", *words])


def test_plain_and_as_json() -> None:
    plain, as_json = run("adapter", *ADAPTER), run("adapter", "--json", *ADAPTER)
    assert (plain.exit_code, plain.output) == (0, "setting_nm: 99.2553\n")
    assert json.loads(as_json.output) == {"setting_nm": pytest.approx(99.2553, abs=1e-5)}


def test_without_a_name_it_lists_every_figure() -> None:
    listed = run()
    assert listed.exit_code == 0
    assert all(f"\n{name}: " in f"\n{listed.output}" for name in FIGURES)
    assert "source: VDI 2230, 2001 and later" in listed.output
    assert [line["name"] for line in json.loads(run("--json").output)] == list(FIGURES)


def test_a_batch_of_the_published_cases_has_a_result_for_each() -> None:
    done = run("--batch", str(CASES))
    answers = json.loads(done.output)
    assert done.exit_code == 0
    assert [answer["id"] for answer in answers] == [
        case["id"] for case in json.loads(CASES.read_text(encoding="utf-8"))
    ]
    assert all("result" in answer for answer in answers)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["adapter", *ADAPTER[:3]], "angle is missing"),
        (["adapter", *ADAPTER, "x=1"], "“x” was not taken"),
        (["adapter", "torque=110", *ADAPTER[1:]], "torque: “110” was not taken: it has no unit"),
        (["adapter", ADAPTER[0], "lever=-1 mm", *ADAPTER[2:]], "lever: -1 mm is not above 0"),
        (["vin", "vin=1M8GDM9AXKPO42788"], "vin: Character 12 is the letter O"),
        (["nothing"], "There is no figure “nothing”"),
        (["adapter", "torque"], "“torque” was not taken"),
        (["--batch", "not-there.json"], "not-there.json was not read"),
    ],
)
def test_bad_input_is_one_sentence_on_standard_error_and_exit_status_2(words: list[str], said: str) -> None:
    done = run(*words)
    assert done.exit_code == 2
    assert done.stdout == ""
    assert done.stderr.startswith(said)
    assert done.stderr.count("\n") == 1
    assert done.stderr.endswith(".\n")


def test_a_batch_that_is_no_text_or_no_json_is_refused(tmp_path: Path) -> None:
    for content, said in (
        (b"\xff\xfe\x00", "no text in UTF-8"),
        (b"{", "not JSON, line 1"),
        (b"{}", "no list of cases"),
    ):
        file = tmp_path / "cases.json"
        file.write_bytes(content)
        done = run("--batch", str(file))
        assert done.exit_code == 2
        assert said in done.stderr


def test_the_command_line_starts_without_the_figures() -> None:
    code = "import sys, jobbook.cli; print([m for m in sys.modules if m in ('pint', 'jobbook.core.figures')])"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"
