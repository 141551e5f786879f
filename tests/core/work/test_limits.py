"""Files that are no methods, and files made to hurt: each is refused quickly, in one sentence, before it costs much.

The sizes that hurt a TOML reader (a dotted key, nested brackets, long digits) were measured on tomllib of Python 3.11.
"""

import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobbook.core.errors import Unreadable
from jobbook.core.work.checker import check
from jobbook.core.work.method import read_method

METHODS = Path(__file__).parents[2] / "data" / "methods"
SOUND = (METHODS / "wheel-retorque.toml").read_bytes()
WRITTEN = [path.read_text("utf-8") for path in sorted(METHODS.glob("*.toml"))]
HEAD = b'format = "jobbook-method"\nversion = 1\n[method]\ntitle = "T"\ncorners = []\n'
OPTIONS = b"".join(b'option_%d = "Asked?"\n' % n for n in range(11))
STEPS = b"".join(b'[[step]]\ndo = "note"\ntext = "x"\nwhen = "option_%d"\n' % n for n in range(11))

BOMBS = {
    "one byte more than 256 KB": SOUND + b"#" * (256 * 1024 + 1 - len(SOUND)),
    "ten megabytes": b"#" * 10_000_000,
    "a dotted key of 200 KB": HEAD + b"a" + b".a" * 100_000 + b" = 1\n",
    "a dotted table head of 200 KB": HEAD + b"[a" + b".a" * 100_000 + b"]\n",
    "nine dots in a key": HEAD + b"a.b.c.d.e.f.g.h.i.j = 1\n",
    "dots with blanks between": HEAD + b"a" + b" . a" * 20 + b" = 1\n",
    "quoted keys with dots between": HEAD + b'"a"' + b'."a"' * 40 + b" = 1\n",
    "nine hundred brackets": HEAD + b"a = " + b"[" * 900 + b"]" * 900 + b"\n",
    "seventeen levels": HEAD + b"a = " + b"[" * 17 + b"]" * 17 + b"\n",
    "brackets on lines of their own": HEAD + b"a = " + b"[\n" * 500 + b"]\n" * 500,
    "nine hundred inline tables": HEAD + b"a = " + b"{a=" * 900 + b"1" + b"}" * 900 + b"\n",
    "five thousand digits": HEAD + b"a = " + b"9" * 5_000 + b"\n",
    "five thousand digits with underscores": HEAD + b"a = " + b"9_" * 5_000 + b"9\n",
    "eleven options": HEAD + b"[options]\n" + OPTIONS + STEPS,
    "not UTF-8": HEAD + b'summary = "caf\xe9"\n',
    "UTF-16": SOUND.decode().encode("utf-16"),
    "a NUL": HEAD + b"a = 1\x00\n",
    "quotation marks without end": HEAD + b'a = """' + b'"' * 200_001 + b"\n",
    "backslashes without end": HEAD + b'a = "' + b"\\" * 200_001,
    "apostrophes without end": HEAD + b"a = ''" + b"'" * 200_002,
    "a format from the future": SOUND.replace(b"version = 1", b"version = 2"),
    "a key twice": HEAD + b'title = "U"\n',
    "a bracket left open": HEAD + b"[[step]\n",
    "an infinite number": HEAD + b"a = " + b"[" * 100_000 + b"\n",
}
LIMIT_SECONDS = 2.0


@pytest.mark.parametrize("name", BOMBS)
@pytest.mark.parametrize("reader", [read_method, check], ids=["read_method", "check"])
def test_what_is_no_method_is_refused_quickly_in_one_sentence(name: str, reader: object) -> None:
    began = time.perf_counter()
    with pytest.raises(Unreadable) as caught:
        reader(BOMBS[name])  # type: ignore[operator]
    assert time.perf_counter() - began < LIMIT_SECONDS
    sentence = str(caught.value)
    assert sentence.endswith(".")
    assert len(sentence) < 400
    assert "\n" not in sentence
    assert "Traceback" not in sentence


@pytest.mark.parametrize(
    ("raw", "line", "column"),
    [
        (HEAD + b"[[step]\n", 6, 7),
        (HEAD + b'summary = "open\n', 6, 15),
        (HEAD + b"\n\nkey value\n", 8, 5),
    ],
)
def test_a_file_that_is_not_toml_is_refused_with_line_and_column(raw: bytes, line: int, column: int) -> None:
    with pytest.raises(Unreadable) as caught:
        read_method(raw)
    sentence = str(caught.value)
    assert f"line {line}" in sentence
    near = [f"column {column + shift}" for shift in (-1, 0, 1, 2)]
    assert any(word in sentence for word in near), sentence


def test_the_limits_themselves_are_still_allowed() -> None:
    full = SOUND + b"#" * (256 * 1024 - len(SOUND))
    assert len(full) == 256 * 1024
    assert check(full) == ()
    ten = HEAD + b"[options]\n" + b"".join(OPTIONS.splitlines(keepends=True)[:10])
    ten += b"".join(b'[[step]]\ndo = "note"\ntext = "x"\nwhen = "option_%d"\n' % n for n in range(10))
    assert check(ten) == ()


def test_what_only_looks_like_a_bomb_inside_a_text_is_read() -> None:
    text = "a.b.c.d.e.f.g.h.i.j.k " + "[" * 40 + " " + "1" * 80
    raw = HEAD + f'[[step]]\ndo = "note"\ntext = "{text}"\n'.encode()
    assert read_method(raw).steps[0].text == text


@pytest.mark.parametrize("raw", [b"", SOUND.replace(b'"jobbook-method"', b'"shopping-list"')], ids=["empty", "another"])
def test_a_file_in_another_format_is_at_least_a_finding(raw: bytes) -> None:
    assert {finding.rule for finding in check(raw)} == {"impossible-value"}


@settings(derandomize=True, deadline=None, max_examples=150)
@given(st.data())
def test_a_method_with_lines_lost_doubled_or_swapped_is_refused_or_told_about_and_never_a_surprise(
    data: st.DataObject,
) -> None:
    lines = data.draw(st.sampled_from(WRITTEN)).splitlines()
    for _ in range(data.draw(st.integers(1, 4))):
        first, second = (data.draw(st.integers(0, len(lines) - 1)) for _ in range(2))
        change = data.draw(st.sampled_from(("lose", "double", "swap", "move")))
        if change == "lose":
            lines[first] = ""
        elif change == "double":
            lines.insert(second, lines[first])
        elif change == "swap":
            lines[first], lines[second] = lines[second], lines[first]
        else:
            lines.insert(second, lines.pop(first))
    try:
        said = [finding.message for finding in check("\n".join(lines).encode())]
    except Unreadable as refused:
        said = [str(refused)]
    assert all(sentence.endswith(".") for sentence in said)


def test_an_unknown_key_is_a_finding_and_no_refusal() -> None:
    for place in (b'colour = "red"\n', b'[[step]]\ndo = "note"\ntext = "x"\ncolour = "red"\n'):
        raw = HEAD + place + (b"" if b"step" in place else b'[[step]]\ndo = "note"\ntext = "x"\n')
        assert {finding.rule for finding in check(raw)} == {"impossible-value"}


@pytest.mark.parametrize(
    "value", [b"1", b"1.5", b"true", b"[]", b"{}", b"1979-05-27", b"inf", b'["a", 1]', b'"x"'], ids=bytes.decode
)
@pytest.mark.parametrize("key", [b"do", b"joint", b"at", b"when", b"text", b"minutes", b"caution"], ids=bytes.decode)
def test_a_value_of_any_type_anywhere_is_at_worst_a_finding(key: bytes, value: bytes) -> None:
    lines = {b"do": b'"vent"', b"at": b'"FL"', b"caution": b'"Goggles."', key: value}
    raw = HEAD + b"[[step]]\n" + b"".join(k + b" = " + v + b"\n" for k, v in lines.items())
    assert all(finding.message for finding in check(raw))
    read_method(raw)


@pytest.mark.parametrize("table", ["method", "options", "joint", "line", "part", "step", "figure", "connector", "aid"])
@pytest.mark.parametrize("value", ["1", '"x"', "[]", "[1]", '["x"]', "{}", "[[]]", "[{}]"])
def test_a_table_of_any_shape_is_at_worst_a_finding(table: str, value: str) -> None:
    head = 'format = "jobbook-method"\nversion = 1\n'
    body = "" if table == "method" else '[method]\ntitle = "T"\ncorners = []\n'
    raw = f"{head}{table} = {value}\n{body}".encode()
    try:
        said = [finding.message for finding in check(raw)]
    except Unreadable as refused:
        said = [str(refused)]
    assert all(sentence.endswith(".") for sentence in said)
