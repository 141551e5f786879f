"""Trouble codes by SAE J2012 and ISO 15031-6: two bytes to text and back, the failure type, who defines the code."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from jobbook.core.errors import Refused
from jobbook.core.figures.refusals import unfit

SYSTEMS = "PCBU"

_CODE = re.compile(r"([PCBU])([0-3])([0-9A-F]{3})(?:[- :]?([0-9A-F]{2}))?")
_BYTES = re.compile(r"(?:0X)?([0-9A-F]{4})([0-9A-F]{2})?")

# Failure types of the third byte on which public lists agree. They are shown as read, and nothing is judged by them.
FAILURES: Mapping[str, str] = MappingProxyType(
    {
        "00": "no further sign",
        "01": "general electrical failure",
        "02": "general signal failure",
        "04": "failure inside the control unit",
        "07": "mechanical failure",
        "11": "short to ground",
        "12": "short to battery",
        "13": "open circuit",
        "14": "short to ground or open",
        "15": "short to battery or open",
        "16": "voltage below threshold",
        "17": "voltage above threshold",
        "18": "current below threshold",
        "19": "current above threshold",
        "1A": "resistance below threshold",
        "1B": "resistance above threshold",
        "1C": "voltage out of range",
        "1F": "intermittent",
        "23": "stuck low",
        "24": "stuck high",
        "29": "signal invalid",
        "2F": "signal erratic",
    }
)


@dataclass(frozen=True)
class FaultCode:
    """A trouble code in both forms, who defines it (generic, maker, reserved, padding), and what is worth knowing."""

    code: str
    bytes: str
    kind: str
    findings: tuple[str, ...]


def fault_code(bytes: str = "", code: str = "") -> FaultCode:
    """Return a trouble code in both forms, from its bytes or from its text.

    bytes two, or three with the failure type [hexadecimal text]; code such as C1A2B or C1A2B-14 [text]. Bits 15 and
    14 give the letter, 13 and 12 the first digit, the rest three digits of base sixteen. Range: the two-byte form.
    Errors: another letter, a first digit above 3, the letter O, another length. Source: SAE J2012, ISO 15031-6.
    """
    if bool(bytes) == bool(code):
        raise unfit("bytes", "one of bytes and code is needed", "give one of them")
    base, failure = _from_bytes(bytes) if bytes else _from_text(code)
    number = f"{SYSTEMS.index(base[0]) << 14 | int(base[1:], 16):04X}"
    text = base + (f"-{failure}" if failure else "")
    return FaultCode(text, number + failure, kind_of(base), tuple(_findings(base, failure)))


def kind_of(base: str) -> str:
    """Return who defines a code: generic (the standard), maker, reserved, or nobody since it is padding."""
    if base == "P0000":
        return "padding"
    if base[:2] in ("P0", "P2", "C0", "B0", "U0"):
        return "generic"
    if base[:2] == "P3":
        return "maker" if base[2] in "0123" else "generic" if base[2] in "456789" else "reserved"
    return "reserved" if base[1] == "3" else "maker"


def _from_bytes(text: str) -> tuple[str, str]:
    match = _BYTES.fullmatch(re.sub(r"[ :,]", "", text.strip().upper()))
    if not match:
        raise Refused(f"“{text[:20]}” was not taken: it is not two or three bytes; write them like 5A2B or 5A2B14.")
    number = int(match[1], 16)
    return f"{SYSTEMS[number >> 14]}{number >> 12 & 3}{number & 0xFFF:03X}", match[2] or ""


def _from_text(text: str) -> tuple[str, str]:
    tidied = text.strip().upper()
    match = _CODE.fullmatch(tidied)
    if not match:
        raise Refused(f"“{text[:20]}” was not taken: {_why_no_code(tidied)}; read it from the screen again.")
    return match[1] + match[2] + match[3], match[4] or ""


def _why_no_code(text: str) -> str:
    if "O" in text:
        return "it holds the letter O, which is the digit 0 in a code"
    if text[:1] not in (*SYSTEMS,):
        return "a code begins with P, C, B or U"
    if text[1:2] in (*"456789",):
        return "the first digit of a code is 0 to 3"
    return "a code is a letter and four characters, like C1A2B or C1A2B-14"


def _findings(base: str, failure: str) -> list[str]:
    found = ["It fills empty places in a message and is no code."] if kind_of(base) == "padding" else []
    if kind_of(base) == "maker":
        found.append("The maker defines it: keep the text that the tool showed.")
    if kind_of(base) == "reserved":
        found.append("The standard keeps it back: read it from the tool again.")
    if failure:
        found.append(f"Failure type {failure}, as read: {FAILURES.get(failure, 'not in the public lists')}.")
    return found
