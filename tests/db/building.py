"""Books for tests: a workshop, a vehicle and a job, and chance that repeats."""

import random
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from jobbook.core.record.journal import Draft, Entry
from jobbook.db.disk.papers_on_disk import digest_of
from jobbook.db.merges import what_it_brought
from jobbook.db.store import Store, WritingBook, create_book, open_book

MORNING = datetime(2026, 11, 25, 8, 0, tzinfo=UTC)
PERSON = "bf"
PICTURE = b"a picture, byte for byte"


class Ticking:
    """A clock that goes on by one second each time it is read."""

    def __init__(self, start: datetime = MORNING) -> None:
        self.moment = start

    def __call__(self) -> datetime:
        self.moment += timedelta(seconds=1)
        return self.moment


def chance(seed: int) -> Callable[[int], bytes]:
    return random.Random(seed).randbytes


def new_book(place: str | Path, seed: int = 1, **more: Any) -> Store:
    return create_book(place, clock=Ticking(), random=chance(seed), **more)


def opened(place: str | Path, seed: int = 2, **more: Any) -> Store:
    return open_book(place, clock=Ticking(), random=chance(seed), **more)


def shop(tx: WritingBook) -> None:
    tx.keep(Draft("book-opened/1", "book", {"name": "Saltmarsh Lane Suspension", "phone": "00 000"}))
    facts = {"person": PERSON, "name": "Bram Ferro", "permissions": ["work", "desk"], "active": True}
    tx.keep(Draft("person/1", f"person/{PERSON}", facts))


def customer(tx: WritingBook, name: str = "Ottilie Brandvold", phone: str = "0700 12 34") -> int:
    number = tx.next_customer_id()
    sealed = {"name": tx.seal(name), "address": tx.seal("Quay 4"), "phone": tx.seal(phone), "email": ""}
    tx.keep(Draft("customer/1", f"customer/{number}", {"customer": number} | sealed))
    return number


def vehicle(tx: WritingBook, owner: int, vin: str = "XX0VRNHLT00123456", plate: str = "AB-12 CD") -> int:
    number = tx.next_vehicle_id()
    facts = {
        "vehicle": number, "vin": vin, "plate": plate, "make": "Varnholt", "model": "estate", "year": "2015",
        "variant": "Varnholt estate 2014-2018", "air": "front", "distance_unit": "km", "customer": owner,
    }  # fmt: skip
    tx.keep(Draft("vehicle/1", f"vehicle/{number}", facts))
    return number


def job(tx: WritingBook, of_vehicle: int, owner: int, words: str = "Hangs at the front left after a night") -> int:
    number = tx.next_job_number()
    facts = {"job": number, "vehicle": of_vehicle, "customer": owner, "arrival": "driven", "payer": "customer"}
    facts |= {"promised": "2026-11-27", "condition": tx.seal("Scratch at the rear"), "brought_by": ""}
    tx.keep(Draft("job-opened/1", f"job/{number}", facts, job=number))
    concern(tx, number, words=tx.seal(words))
    return number


def concern(tx: WritingBook, of_job: int, number: int = 1, **facts: Any) -> Entry:
    payload = {"job": of_job, "number": number, "cause": "", "confidence": "", "correction": ""} | facts
    return tx.keep(Draft("concern/1", f"job/{of_job}", payload, job=of_job))


def fact(tx: WritingBook, kind: str, of_job: int, payload: dict[str, Any], **more: Any) -> Entry:
    return tx.keep(Draft(kind, f"job/{of_job}", {"job": of_job} | payload, job=of_job, **more))


def sign_off(tx: WritingBook, of_job: int = 1, joint: str = "lower_bolt@FL", **more: Any) -> Entry:
    return fact(tx, "sign-off/1", of_job, {"acts": ["a1"], "joint": joint, "meaning": "did"}, meaning="did", **more)


def paper(tx: WritingBook, store: Store, of_job: int, data: bytes, kind: str = "handover") -> Entry:
    """Let a paper leave: kept by content, its head signed."""
    from jobbook.core.record.journal import head_message

    digest, head = tx.keep_paper(data), tx.journal.head()
    signature = store.key.sign(head_message(store.book_id, head)).hex()
    facts = {
        "kind": kind, "version": 1, "digest": digest, "size": head.size, "root": head.hex, "key": store.key.hex,
        "signature": signature, "replaces_version": 0,
    }  # fmt: skip
    return fact(tx, "paper/1", of_job, facts)


def one_job(store: Store) -> int:
    """A workshop with one customer, one vehicle and one job that is as far as it goes."""
    with store.write(PERSON) as tx:
        shop(tx)
        owner = customer(tx)
        return job(tx, vehicle(tx, owner), owner)


def whole_job(store: Store) -> int:
    """One job with an entry of every kind, two papers, a correction, something undone and something forgotten."""
    number = one_job(store)
    store.lay(PICTURE)
    with store.write(PERSON) as tx:
        tx.set_credential(PERSON, pin_hash="hash of a PIN", badge_hash="hash of a badge")
        tx.set_credential(PERSON, pin_hash="hash of another PIN")
        _shop_kinds(tx)
        _desk_kinds(tx, number)
        _file_kinds(tx, number)
        _vehicle_kinds(tx, number)
        _work_kinds(tx, number)
        _epoch_kinds(tx)
        paper(tx, store, number, b"%PDF-1.4 the first paper\n" * 8)
    with store.write(PERSON) as tx:
        fact(tx, "released/1", number, {"restriction": "", "let_go": [], "parts_back": "offered"}, meaning="released")
        paper(tx, store, number, b"%PDF-1.4 the second paper\n" * 8, kind="evidence")
        forgotten = tx.seal("said in confidence")
        fact(tx, "note/1", number, {"text": forgotten})
        tx.keep(Draft("erased/1", "book", {"commitments": [forgotten], "reason": "asked for"}, reason="asked for"))
    return number


def _shop_kinds(tx: WritingBook) -> None:
    tx.keep(Draft("shop/1", "shop", {"name": "Saltmarsh Lane Suspension", "address": "Saltmarsh Lane"}))
    tool = {"number": "W1", "kind": "click wrench", "low": "20", "high": "200", "due_on": "2027-03-14"}
    tx.keep(Draft("tool/1", "tool/W1", tool))
    figure = {
        "specification": tx.next_entry, "variant": "Varnholt estate 2014-2018", "key": "lower_bolt",
        "kind": "torque", "title": "Lower bolt", "text": "50 N·m, then +90°", "stages": ["50 N·m", "+90°"],
        "tolerance": "", "conditions": "", "document": "sheet 12", "edition": "2024", "second_look_by": "",
    }  # fmt: skip
    told = tx.keep(Draft("specification/1", "variant/Varnholt estate 2014-2018", figure))
    _variant_kinds(tx, told.number)
    tx.keep(Draft("method/1", "method/abc", {"digest": "abc", "title": "Air strut", "text": "format = 1"}))


def _variant_kinds(tx: WritingBook, figure: int) -> None:
    name = "Varnholt estate 2014-2018"
    look = {"variant": name, "figure": figure, "doubt": "the sheet has 55 N·m"}
    tx.keep(Draft("second-look/1", f"variant/{name}", look, meaning="checked"))
    facts = {"variant": name, "make": "Varnholt", "model": "estate", "built_from": "2014", "built_to": "2018"}
    tx.keep(Draft("variant/1", f"variant/{name}", facts | {"codes": ["1BL"], "note": ""}))
    chosen = {"vehicle": 1, "variant": name, "codes": ["1BL"], "read_from": "plate", "others": [], "reason": ""}
    tx.keep(Draft("variant-chosen/1", "vehicle/1", chosen, meaning="did"))


def _agreed(tx, number, given):
    """What was agreed around the permission: changed, signed, tried, declined, and the lines of the estimate."""
    said = {"who": tx.seal("Ottilie Brandvold"), "how": "by telephone", "at": "2026-11-25"}
    said |= {"reached_at": tx.seal("0700 12 34")}
    change = {"of": given, "what": "changed", "total": "950.00", "valid_until": "", "why": tx.seal("one hour more")}
    fact(tx, "permission-changed/1", number, said | change, meaning="allowed")
    signed = {"of": given, "name": tx.seal("Ottilie Brandvold"), "signed": tx.seal('{"text":"strut"}')}
    fact(tx, "signature/1", number, signed, meaning="allowed")
    tried = {"at": "2026-11-25", "how": "by telephone", "outcome": "no answer", "about": 0, "said": ""}
    fact(tx, "contact/1", number, tried | {"reached_at": tx.seal("0700 12 34")})
    fact(tx, "overrun/1", number, {"known_at": "2026-11-25", "total": "990.00", "why": "worn", "currency": "EUR"})
    declined = {"subject": "alignment", "what": "alignment", "consequence": "tyres wear", "finding": 0, "bars": False}
    fact(tx, "declined/1", number, said | declined)
    answer = {"finding": 1, "answer": "told", "why": "it only weeps", "who": tx.seal("Ottilie Brandvold")}
    fact(tx, "finding-answered/1", number, answer | {"how": "by telephone", "at": "2026-11-25"})
    line = {"line": 1, "kind": "part", "words": "strut", "quantity": "1", "price": "700.00", "currency": "EUR"}
    fact(tx, "line/1", number, line | {"tax": "20", "state": "to do", "payer": "customer"})
    fact(tx, "estimate-terms/1", number, {"word": "estimate", "valid_until": "2026-12-24", "exclusions": ""})
    fact(tx, "handed-in/1", number, {"keys": "2", "belongings": tx.seal("a ladder"), "said": ""})


def _desk_kinds(tx: WritingBook, number: int) -> None:
    odometer = {"vehicle": 1, "value": 123_456, "unit": "km", "what": "in", "note": ""}
    wrong = fact(tx, "odometer/1", number, odometer)
    fact(tx, "odometer/1", number, odometer | {"value": 132_456}, replaces=wrong.number, reason="digits swapped")
    facts = {"scope": "repair", "who": tx.seal("Ottilie Brandvold"), "how": "by telephone", "at": "2026-11-25"}
    facts |= {"reached_at": tx.seal("0700 12 34"), "what": "strut", "total": "900.00", "currency": "EUR"}
    given = fact(tx, "permission/1", number, facts, meaning="allowed")
    _agreed(tx, number, given.number)
    fact(tx, "asked/1", number, {"what": "authority"})
    _call_kinds(tx, number)
    _word_kinds(tx, number)
    fact(tx, "test/1", number, {"name": "soap", "answer": "not possible", "result": "", "reason": "frost"})
    code = {"module": "air", "code": "C1", "text": "", "status": "stored", "when": "before", "cleared": ""}
    fact(tx, "fault-code/1", number, code)
    begun = fact(tx, "stand-begun/1", number, {"heights": {"FL": "402"}, "typed": {"FL": "402"}, "levelling": "off"})
    fact(tx, "stand-ended/1", number, {"stand": begun.number, "heights": {"FL": "366"}, "typed": {"FL": "366"}})
    reminder = fact(tx, "reminder/1", number, {"what": "re-torque", "due_on": "2026-12-09", "due_at": "100 km"})
    fact(tx, "reminder-closed/1", number, {"reminder": reminder.number, "outcome": "done"})
    told = {"reminder": reminder.number, "wheel": "FL", "answer": "done", "reached": "140 N·m", "tool": "TW-09"}
    fact(tx, "retorque/1", number, told)


def _file_kinds(tx: WritingBook, number: int) -> None:
    facts = {"digest": digest_of(PICTURE), "size": len(PICTURE), "media": "image/jpeg", "what": "picture", "to": ""}
    kept = fact(tx, "file/1", number, facts | {"name": tx.seal("IMG_1.jpg"), "width": 64, "height": 48, "turn": 1})
    fact(tx, "file-assigned/1", number, {"files": [kept.number], "to": "codes/before"})
    fact(tx, "file-chosen/1", number, {"files": [kept.number], "chosen": True})
    ring = {"shape": "ring", "x1": 100, "y1": 100, "x2": 900, "y2": 900}
    fact(tx, "file-marked/1", number, {"files": [kept.number], "marks": [ring]})


def _vehicle_kinds(tx: WritingBook, number: int) -> None:
    """A second vehicle and customer that turn out to be the first ones, and what was found on the vehicle."""
    owner = customer(tx, "O. Brandvold", "0700 12 34")
    twin = vehicle(tx, owner, vin="XX0VRNHLT0012345", plate="AB12CE")
    tx.keep(Draft("merged/1", f"vehicle/{twin}", {"what": "vehicle", "gone": twin, "kept": 1}, reason="mistyped VIN"))
    tx.keep(Draft("merged/1", f"customer/{owner}", {"what": "customer", "gone": owner, "kept": 1}, reason="one person"))
    other = vehicle(tx, 1, vin="XX0VRNHLT00765432", plate="ZY-98")
    merge = tx.keep(
        Draft("merged/1", f"vehicle/{other}", {"what": "vehicle", "gone": other, "kept": 1}, reason="plate")
    )
    tx.keep(Draft("merge-undone/1", f"vehicle/{other}", what_it_brought(tx, merge), reason="two VINs"))
    changed = {"vehicle": 1, "what": "lowering links", "where": "front", "effect": "25 mm lower", "gone_on": ""}
    fact(tx, "modification/1", number, changed | {"found_on": "2026-11-25", "changed_by": ""})
    fact(tx, "odometer-unknown/1", number, {"vehicle": 1, "what": "out", "why": "display dark"})
    tx.keep(Draft("data-copied/1", "customer/1", {"customer": 1, "digest": "0" * 64}))


def _word_kinds(tx: WritingBook, number: int) -> None:
    """A finding, a phrase of the shop's own, and a part that came with an import."""
    found = {"words": "Line chafed at the clip", "severity": "found wrong", "concern": 1, "corner": "FL"}
    fact(tx, "finding/1", number, found | {"needs": "permission"})
    phrase = {"field": "concern", "text": "down in the morning", "state": "there", "of": 0}
    tx.keep(Draft("phrase/1", "phrase", phrase))
    told = {"import": "i1", "list": "parts", "file": "parts.csv", "digest": "0" * 64, "headings": ["Number"]}
    told |= {"mapped": {"number": "Number"}, "rows": 1, "new": 1, "changed": 0, "same": 0, "left_out": []}
    tx.keep(Draft("import-begun/1", "import/i1", told))
    part = {"part": 1, "number": "KC-2210", "title": "Compressor", "supplier": "", "kind": "", "note": ""}
    tx.keep(Draft("part/1", "part/1", part | {"warranty_months": ""}))
    tx.keep(Draft("import-ended/1", "import/i1", {"import": "i1"}))


def _call_kinds(tx: WritingBook, number: int) -> None:
    said = {name: tx.seal(f"said of {name}") for name in ("caller", "phone", "words", "warning", "elsewhere")}
    facts = said | {"plate": "AB-12 CD", "corners": ["FL"], "expected": "2026-11-26T08:00", "overnight": True}
    taken = tx.keep(Draft("call/1", "call", facts))
    tx.keep(Draft("call/1", "call", facts | {"expected": "2026-11-27"}, replaces=taken.number, reason="frost"))
    whom = f"call/{taken.number}"
    tried = {"whom": whom, "how": "by telephone", "outcome": "no answer", "note": tx.seal("rang ten times")}
    tx.keep(Draft("tried/1", whom, tried))
    tx.keep(Draft("call-closed/1", "call", {"call": taken.number, "outcome": "arrived", "note": "", "job": number}))
    fact(tx, "promise/1", number, {"promised": "2026-11-28"}, reason="the part is late")


def _work_kinds(tx: WritingBook, number: int) -> None:
    issued = fact(tx, "issued/1", number, {"serves": "strut@FL", "title": "Air strut", "serial": "S1", "kind": "part"})
    fact(tx, "piece-state/1", number, {"piece": str(issued.number), "state": "fitted", "reason": ""})
    fact(tx, "part-off/1", number, {"part": str(issued.number), "reason": "failed", "note": ""})
    joiner = {"line": "line to the front left", "corner": "FL", "whose": "others", "state": "in"}
    fact(tx, "line-joiner/1", number, joiner | {"of": "", "note": ""})
    fact(tx, "begun/1", number, {"method": "abc", "corner": "FL", "options": {}, "key": "air-strut"}, act="begun 1")
    reading = {"do": "measure", "what": "heights", "readings": [["FL", "401"]], "how": "rule"}
    fact(tx, "act/1", number, {"act": reading}, act="act 1")
    fact(tx, "act/1", number, {"act": {"do": "loosen", "on": "lower_bolt@FL"}}, act="act 2")
    fact(tx, "undone/1", number, {"act": "act 2"})
    sign_off(tx, number)
    fact(tx, "allowance/1", number, {"act": {"do": "allow", "rule": "half-built"}}, reason="to push it out")
    fact(tx, "passed-on/1", number, {"to": "np"})
    fact(tx, "accepted/1", number, {"by": "np"})
    fact(tx, "waiting/1", number, {"until": "2026-11-25T12:00:00+00:00"})
    fact(tx, "reopened/1", number, {"reason": "a slip"})


def _epoch_kinds(tx: WritingBook) -> None:
    """A backup, a restoring of that same state, and the word of somebody who looked at the clock."""
    head = tx.journal.head()
    made = {"made_at": MORNING.isoformat(), "size": head.size, "root": head.hex, "digest": "0" * 64, "bytes": 1}
    tx.keep(Draft("backed-up/1", "book", made | {"file": "a.zip", "place": "", "with_key": False}))
    restored(tx)
    tx.keep(Draft("put-off/1", "book", {"what": "backup", "until": "2026-12-24"}, reason="the stick is at the bank"))
    tx.keep(Draft("kept-on/1", "customer/1", {"customer": 1, "until": "2035-01-01"}, reason="a claim runs"))
    tx.keep(Draft("clock-set-back/1", "book", {"last": "", "entry": 0, "now": ""}, reason="the hour was wrong"))


def restored(tx: WritingBook, last_entry: int = 0, **skipped: int) -> Entry:
    """A restoring from the state that the book is in; `skipped` names the last number left out of each kind."""
    head, epoch = tx.journal.head(), len(tx.restorations()) + 2
    left_out = [{"what": what, "first": 1, "last": last} for what, last in skipped.items()]
    facts = {"epoch": epoch, "size": head.size, "root": head.hex, "made_at": MORNING.isoformat()}
    return tx.keep(Draft("restored/1", "book", facts | {"last_entry": last_entry, "skipped": left_out}))
