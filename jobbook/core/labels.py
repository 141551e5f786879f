"""The label of a part in the open form of the GS1 General Specifications: item, batch and serial in one code.

A scanner sends it as one text whose fields each begin with a number that says what they are (01 item, 10 batch, 21
serial). A field without a fixed length ends with a sign of its own (1D hex), which not every scanner passes on."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

PARTING = "\x1d"
ITEM, BATCH, SERIAL = "01", "10", "21"
OTHER_NUMBERS = ("241", "240")  # the customer's own number of the item, and a further one of its maker
BRACKETS = re.compile(r"(\(\d{2,4}\)[^()]+)+")
SAYS_SO = re.compile(r"\](C1|d2|Q3|e0|J1)")  # how a scanner says that it read such a label (ISO/IEC 15424)
ITEM_FIRST = re.compile(r"01\d{14}")


@dataclass(frozen=True)
class Label:
    """What stands on a label. `numbers`: all by which the item may be known; `written`: as it is printed for people;
    `doubt`: a sentence, or ""."""

    item: str
    batch: str
    serial: str
    numbers: tuple[str, ...]
    written: str
    doubt: str

    @property
    def words(self) -> str:
        """“item 9501101530003, batch ABC-12, serial SN0042”."""
        told = (("item", self.item), ("batch", self.batch), ("serial", self.serial))
        return ", ".join(f"{name} {value}" for name, value in told if value)


def read_label(code: str) -> Label | None:
    """The label that a code is, or None where it is none, or the check digit of its item does not fit."""
    text = code.strip()
    brackets = BRACKETS.fullmatch(text) is not None
    if not (brackets or SAYS_SO.match(text) or ITEM_FIRST.match(text) or PARTING in text):
        return None
    fields = _fields(text, brackets)
    if not fields.keys() & {ITEM, BATCH, SERIAL}:
        return None
    others = [fields[key] for key in OTHER_NUMBERS if key in fields]
    item = _short(fields.get(ITEM, ""))
    numbers = tuple(dict.fromkeys(filter(None, (*others, item, fields.get(ITEM, "")))))
    doubt = "" if brackets or PARTING in text.strip(PARTING) else _doubt(fields)
    written = "".join(f"({key}){value}" for key, value in fields.items())
    return Label(item or (others or [""])[0], fields.get(BATCH, ""), fields.get(SERIAL, ""), numbers, written, doubt)


def _fields(text: str, brackets: bool) -> Mapping[str, str]:
    """The fields by their number; none where the text is no such label or its item's check digit is wrong."""
    import biip
    from biip.gs1_messages import GS1Message

    try:
        told = GS1Message.parse_hri(text) if brackets else biip.parse(text).gs1_message
    except biip.BiipException:
        return {}
    parts = told.element_strings if told is not None else []
    if any(one.ai.ai == ITEM and one.gtin is None for one in parts):
        return {}
    return {one.ai.ai: one.value for one in parts}


def _short(item: str) -> str:
    """The number of an item without the noughts that fill it up to 14 digits: numbers of items have 8, 12, 13 or 14."""
    digits = len(item.lstrip("0"))
    return item[-next(length for length in (8, 12, 13, 14) if digits <= length) :] if item else ""


def _doubt(fields: Mapping[str, str]) -> str:
    """A batch or serial that came without a sign where it ends may have taken in what follows it."""
    both = ((BATCH, SERIAL), (SERIAL, BATCH))
    taken_in = [
        fields[one] for one, other in both if one in fields and other not in fields and other in fields[one][1:-1]
    ]
    if not taken_in:
        return ""
    return f"The scanner sent no sign between the fields: look whether “{taken_in[0]}” is one or two of them."
