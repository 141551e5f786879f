"""Finding by what was typed: one table of folded words, the same for both databases."""

import unicodedata
from dataclasses import dataclass
from typing import Any

from jobbook.core.desk.phones import ways_to_write
from jobbook.db.rows import Rows

LAST = "\U0010ffff"  # sorts after every other sign, so that a word and this bound all that begins with the word
SPELLED = str.maketrans({"ß": "ss", "ø": "o", "ł": "l", "đ": "d", "æ": "ae", "œ": "oe", "þ": "th", "ı": "i"})
SPELT = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ø": "oe", "å": "aa"})
MOST_WORDS = 8
MOST_WAYS = 8  # more spellings of one word are narrowed to those that are found at all
LONGEST = 64  # signs of a word that are looked at
COMMON = 1000  # a word found this often is common
NOTHING = "0 = 1"  # a word that nothing has: no row need be looked at
OF_JOBS = ("job", "vehicle", "customer")


def fold(text: str) -> str:
    """Small letters without accents; ß as ss."""
    apart = unicodedata.normalize("NFKD", text.casefold().translate(SPELLED))
    return "".join(sign for sign in apart if not unicodedata.combining(sign)).translate(SPELLED)


def words(text: str) -> list[str]:
    """The folded words of a text: runs of letters and digits, each once, in order."""
    parts = "".join(sign if sign.isalnum() else " " for sign in fold(text)).split()
    return list(dict.fromkeys(parts))


def spelt(text: str) -> str:
    """The text with ä, ö, ü, ø and å written with two letters, as people do who have no such keys."""
    return unicodedata.normalize("NFC", text).casefold().translate(SPELT)


def spellings(text: str) -> set[str]:
    """The words that a text is found by, in both spellings."""
    return {*words(text), *words(spelt(text))}


def number_words(*numbers: str) -> set[str]:
    """What numbers as printed (plate, serial, batch) are found by: whole without separators, and each run of signs."""
    whole = {joined(one) for number in numbers for one in (number, spelt(number))}
    return (whole | spellings(" ".join(numbers))) - {""}


def joined(text: str) -> str:
    """A plate or a number without its separators."""
    return "".join(sign for sign in fold(text) if sign.isalnum())


def vehicle_words(vin: str, plate: str, make: str, model: str) -> set[str]:
    """What a vehicle is found by: VIN whole, its last 8 and last 6, plate with and without separators, make, model."""
    whole = joined(vin)
    ends = {whole, whole[-8:], whole[-6:]} if whole else set()
    return ends | number_words(plate) | spellings(f"{make} {model}")


def put(rows: Rows, kind: str, subject: int, found: set[str], source: str = "") -> None:
    """Let a subject be found by these words; `source` is the sealed value that they come from, if they do."""
    tokens = {f"t{n}": token for n, token in enumerate(sorted({word[:LONGEST] for word in found}))}
    if not tokens:
        return
    marks = ", ".join(f"(:kind, :{name}, :subject, :source)" for name in tokens)
    rows.run(
        f"INSERT INTO found (kind, token, subject, source) VALUES {marks} ON CONFLICT DO NOTHING",
        kind=kind, subject=subject, source=source, **tokens,
    )  # fmt: skip


def forget(rows: Rows, kind: str, subject: int, source: str | None = None) -> None:
    """Let a subject be found no longer by its words, or by those of one source."""
    # The words are named first, since SQLite would else read all that is found of this kind for the sake of the source.
    told = "SELECT token FROM found WHERE kind = :kind AND subject = :subject"
    tail = "" if source is None else f" AND source = :source AND token IN ({told})"
    values = {} if source is None else {"source": source}
    rows.run(f"DELETE FROM found WHERE kind = :kind AND subject = :subject{tail}", kind=kind, subject=subject, **values)


@dataclass(frozen=True)
class Question:
    """How a list asks for a word. `rare` looks the word up first; `common` looks at each row, newest first.

    A make that every job has would be looked up a hundred thousand times over, and a rare word be sought in vain
    through as many rows; so how often a word is found decides. {found} is the condition on the table."""

    rare: str
    common: str


def typed_words(text: str) -> list[tuple[str, ...]]:
    """What was typed, word by word, each in the spellings that it may stand in; a telephone number is one word."""
    number = ways_to_write(text)
    if number:
        return [number]
    whole = unicodedata.normalize("NFC", text)
    runs = "".join(sign if sign.isalnum() or unicodedata.combining(sign) else " " for sign in whole).split()
    ways = (tuple(dict.fromkeys(w[:LONGEST] for w in (*words(run), *words(spelt(run))))) for run in dict.fromkeys(runs))
    return [way for way in ways if way][:MOST_WORDS]


def _in_use(rows: Rows, ways: tuple[str, ...], kinds: tuple[str, ...]) -> tuple[str, ...]:
    """Of many ways to write a word those that something is found by."""
    told = ", ".join(f"(CAST(:w{n} AS TEXT))" for n in range(len(ways)))
    among = ", ".join(f"'{kind}'" for kind in kinds)
    sql = f"""SELECT w.column1 AS way FROM (VALUES {told}) AS w WHERE EXISTS
        (SELECT 1 FROM found WHERE kind IN ({among}) AND token >= w.column1 AND token < w.column1 || :last)"""
    found = rows.all(sql, last=LAST, **{f"w{n}": way for n, way in enumerate(ways)})
    return tuple(str(row["way"]) for row in found)[:MOST_WAYS]


def matching(
    rows: Rows, text: str, question: Question, kinds: tuple[str, ...] = OF_JOBS
) -> tuple[list[str], dict[str, Any]]:
    """Conditions and their values, one for each typed word; costs one query, or none where nothing was typed.

    `kinds`: those of `found` that the question looks through; how often they have a word decides how it is asked."""
    typed = typed_words(text)
    if not typed:
        return [], {}
    typed = [_in_use(rows, ways, kinds) if len(ways) > MOST_WAYS else ways for ways in typed]
    if () in typed:
        return [NOTHING], {}
    ranges: list[str] = []
    values: dict[str, Any] = {}
    for index, ways in enumerate(typed):
        ranges.append(" OR ".join(f"token >= :w{index}{n} AND token < :x{index}{n}" for n in range(len(ways))))
        for n, word in enumerate(ways):
            values |= {f"w{index}{n}": word, f"x{index}{n}": word + LAST}
    among = ", ".join(f"'{kind}'" for kind in kinds)
    one = f"SELECT 1 AS one FROM found WHERE kind IN ({among}) AND ({{}}) LIMIT {COMMON}"
    counts = [f"(SELECT COUNT(*) FROM ({one.format(w)}) AS hits) AS n{i}" for i, w in enumerate(ranges)]
    often = rows.first(f"SELECT {', '.join(counts)}", **values)
    assert often is not None
    if 0 in often.values():
        return [NOTHING], {}
    return [
        (question.common if often[f"n{index}"] == COMMON else question.rare).format(found=f"({found})")
        for index, found in enumerate(ranges)
    ], values
