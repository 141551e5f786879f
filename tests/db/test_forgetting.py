"""People can be forgotten, facts cannot: the book stays sound and says how much was erased."""

from jobbook.core.record.canonical import commitment
from jobbook.core.record.journal import Draft, verify_pack
from jobbook.db.audit import audit
from tests.db.building import PERSON, customer, fact, one_job, paper, whole_job

NAME = "Ottilie Brandvold"


def forget(store, which):
    with store.write(PERSON) as tx:
        payload = next(e.payload for e in tx.journal.entries(kind="customer/1"))
        gone = [payload[name] for name in which]
        tx.keep(Draft("erased/1", "customer/1", {"commitments": gone, "reason": "asked for in writing"}))
    return gone


def test_a_forgotten_customer_is_gone_and_the_book_is_sound(either):
    number = one_job(either)
    before = audit(either)
    forget(either, ("name", "address", "phone"))
    after = audit(either)
    assert (after.findings, after.complete, after.erased) == ((), True, before.erased + 3)
    with either.read() as reading:
        kept = reading.customers.get(1)
        assert (kept.name, kept.address, kept.phone, kept.email) == (None, None, None, "")
        assert reading.jobs.page()[0].customer is None
        assert reading.jobs.page(text="ottilie") == reading.customers.page(text="0700") == []
        assert reading.jobs.get(number).vehicle_id == 1
        assert verify_pack(reading.pack(number)) == ()


def test_what_was_forgotten_is_in_no_file_of_the_book(book):
    one_job(book)
    assert NAME.encode() in b"".join(file.read_bytes() for file in book.folder.glob("book.sqlite*"))
    forget(book, ("name",))
    left = b"".join(file.read_bytes() for file in book.folder.glob("book.sqlite*"))
    assert NAME.encode() not in left
    assert b"brandvold" not in left


def test_what_a_permission_or_concern_said_can_be_forgotten(either):
    number = one_job(either)
    with either.write(PERSON) as tx:
        who, reached = tx.seal(NAME), tx.seal("0700 12 34")
        fact(tx, "permission/1", number, {"scope": "repair", "who": who, "how": "by telephone", "reached_at": reached})
        said = next(e.payload["words"] for e in tx.journal.entries(kind="concern/1"))
        tx.keep(Draft("erased/1", "job/1", {"commitments": [who, reached, said], "reason": "asked for"}))
    with either.read() as reading:
        (allowed,) = reading.permissions(number)
        assert (allowed.who, allowed.reached_at, allowed.scope) == (None, None, "repair")
        assert reading.jobs.get(number).concerns[0].words is None
        assert reading.jobs.page(text="hangs") == []
    assert audit(either).findings == ()


def test_erasing_without_an_entry_that_says_why_is_found(book):
    one_job(book)
    with book.write(PERSON) as tx:
        sealed = next(e.payload["name"] for e in tx.journal.entries(kind="customer/1"))
        tx.erase(sealed)
    assert audit(book).findings == (f"A sealed value was erased, and no entry says why ({sealed[:12]}).",)


def test_the_same_text_sealed_twice_has_two_commitments_that_say_nothing(either):
    with either.write(PERSON) as tx:
        first, second = tx.seal(NAME), tx.seal(NAME)
        assert first != second
        assert commitment("", NAME) not in (first, second)
        assert tx.seal("") == ""
        assert tx.seal("\x00\x07") == ""
        assert (tx.sealed(first), tx.sealed(""), tx.sealed("ab" * 32)) == (NAME, "", None)


def test_a_customer_who_comes_back_after_being_forgotten_is_a_new_one(either):
    one_job(either)
    forget(either, ("name", "address", "phone"))
    with either.write(PERSON) as tx:
        assert customer(tx) == 2
    with either.read() as reading:
        assert [c.name for c in reading.customers.page()] == [NAME, None]
    assert audit(either).findings == ()


def test_papers_read_back_byte_for_byte_and_by_their_digest(either):
    number = whole_job(either)
    with either.write(PERSON) as tx:
        entry = paper(tx, either, number, b"%PDF a third")
    with either.read() as reading:
        papers = reading.papers.of_job(number)
        assert [(p.kind, p.version) for p in papers] == [("handover", 1), ("evidence", 1), ("handover", 1)]
        last = papers[-1]
        assert (last.entry, last.issued_by, last.issued_at) == (entry.number, PERSON, entry.done_at)
        assert last.file == f"papers/{last.digest}.pdf"
        assert reading.papers.get(last.digest) == last
        assert reading.papers.bytes(last.digest) == b"%PDF a third"


def test_the_same_paper_is_kept_once_and_one_that_was_spoilt_is_written_again(book):
    with book.write(PERSON) as tx:
        digest = tx.keep_paper(b"%PDF once")
        assert tx.keep_paper(b"%PDF once") == digest
    (file,) = (book.folder / "papers").iterdir()
    file.write_bytes(b"%PDF oops")
    with book.write(PERSON) as tx:
        tx.keep_paper(b"%PDF once")
    assert file.read_bytes() == b"%PDF once"
