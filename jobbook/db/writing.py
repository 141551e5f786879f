"""The book as it is written: `keep` is the one way in which anything changes."""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from jobbook.core.errors import Conflict, NotFound, Refused
from jobbook.core.record.clocks import SET_BACK, gone_back
from jobbook.core.record.journal import Draft, Entry, Head, body_of, clean, clean_text, commitment, leaf_hash
from jobbook.db.book import Book, Givens
from jobbook.db.disk.papers_on_disk import digest_of, write_paper
from jobbook.db.disk.troubles import disk_said_plainly
from jobbook.db.epochs import next_number
from jobbook.db.files import ERASED, files_erased
from jobbook.db.journal import Journal, append, corrected, read_to_grow, write_tree
from jobbook.db.rows import Rows
from jobbook.db.standings.standing import KINDS
from jobbook.db.standings.standing_names import unsay

SALT_BYTES = 16
SAME = ("kind", "subject", "job", "payload", "meaning", "replaces", "reason")


class _Growing(Journal):
    """The journal inside a write: its head takes in what this write has kept so far."""

    def __init__(self, rows: Rows) -> None:
        super().__init__(rows)
        self.tree, self.last = read_to_grow(rows)  # `last`: when the last entry was made

    def head(self) -> Head:
        return Head(self.tree.size, self.tree.root)


class WritingBook(Book):
    """One person's write: all of it is kept when the block ends, or nothing when it raises."""

    def __init__(self, rows: Rows, givens: Givens, person: str) -> None:
        super().__init__(rows, givens)
        self.person = person
        self.kinds: set[str] = set()
        self.numbers: list[int] = []
        self.papers_written: list[Path] = []
        self.forgotten = False
        self.files_erased: list[str] = []  # contents that are to go from the folder once this write is kept
        self._growing = _Growing(rows)
        self._jobs_there: set[int] = set()
        self._half_kept = False

    @property
    def journal(self) -> Journal:
        return self._growing

    def keep(self, draft: Draft) -> Entry:
        """Keep an entry and bring where things stand up to it. Returns the entry.

        The same act with the same content is kept once: the entry kept before comes back. Raises Conflict when the act
        was kept with other content, or the entry to be corrected was corrected already; NotFound when the draft names
        a job, an entry or an act that is not there; Refused while the clock is far behind the last entry."""
        standing = KINDS[draft.kind]
        draft = replace(draft, act=clean_text(draft.act))
        before = self.journal.by_act(draft.act) if draft.act else None
        if before is not None:
            return _same(before, draft)
        self._look_up_what_it_names(draft)
        entry = self._entry(draft)
        tree, blocks = self._growing.tree.grown(entry.leaf)
        self._half_kept = True
        append(self._rows, entry, blocks)
        standing(self._rows, entry)
        self._half_kept = False
        self._growing.tree = tree
        if entry.kind == ERASED:
            self._erase_what_it_names(entry)
        self.kinds.add(entry.kind)
        self.numbers.append(entry.number)
        return entry

    def _erase_what_it_names(self, entry: Entry) -> None:
        """Contents on a server go with this write; those in a folder only after it, when an entry says that they do."""
        self.forgotten = True
        for digest in files_erased(entry.payload):
            if self._givens.folder is None:
                self._rows.run("DELETE FROM file_content WHERE digest = :digest", digest=digest)
            self.files_erased.append(digest)

    def _moment(self, kind: str) -> str:
        now = self._givens.clock()
        if kind != SET_BACK and (sentence := gone_back(self._growing.last, now)):
            raise Refused(sentence, "clock")
        self._growing.last = now.isoformat()
        return self._growing.last

    def _entry(self, draft: Draft) -> Entry:
        body = body_of(
            draft,
            book=self.book_id,
            act=draft.act or self._random_hex(),
            entered_at=self._moment(draft.kind),
            entered_by=self.person,
            salt=self._random_hex(),
        )
        number, leaf = self._growing.tree.size + 1, leaf_hash(body.encode())
        entry = Entry(number, draft.kind, draft.job, "", draft.replaces, body, leaf)
        return Entry(number, draft.kind, draft.job, entry.facts["done_at"], draft.replaces, body, leaf)

    def _random_hex(self) -> str:
        return self._givens.random(SALT_BYTES).hex()

    def _look_up_what_it_names(self, draft: Draft) -> None:
        opens = draft.kind.startswith("job-opened/") and draft.replaces is None
        if draft.job is not None and not opens and draft.job not in self._jobs_there:
            if self._rows.value("SELECT number FROM job WHERE number = :job", job=draft.job) is None:
                raise NotFound(f"There is no job {draft.job} in the book; nothing was kept.")
            self._jobs_there.add(draft.job)
        if opens and self._rows.value("SELECT number FROM job WHERE number = :job", job=draft.payload["job"]):
            raise Conflict(f"Job {draft.payload['job']} was opened by somebody else meanwhile; nothing was kept.")
        if draft.replaces is not None:
            corrected(self.journal, draft.replaces, draft.kind, draft.job, self._rows)
        if draft.kind.startswith("undone/"):
            self._look_up_what_is_undone(draft)

    def _look_up_what_is_undone(self, draft: Draft) -> None:
        act = draft.payload["act"]
        entry = self.journal.by_act(act)
        if entry is None or entry.job != draft.job:
            raise NotFound("What was to be undone is not in this job; nothing was changed.")
        sql = "SELECT number FROM journal WHERE kind = 'undone/1' AND body -> 'payload' ->> 'act' = :act"
        if self._rows.value(sql, act=act) is not None:
            raise Conflict("This was undone already; nothing was changed.")

    def seal(self, text: str) -> str:
        """Put a text where it can be forgotten. Returns the commitment that stands for it; "" stays ""."""
        said = clean_text(text)
        if not said:
            return ""
        salt = self._random_hex()
        sealed = commitment(salt, said)
        sql = "INSERT INTO sealed (commitment, salt, value) VALUES (:commitment, :salt, :value)"
        self._rows.run(sql, commitment=sealed, salt=salt, value=said)
        return sealed

    def erase(self, commitment: str) -> None:
        """Forget a sealed value. The reason is kept by an entry `erased/1`, which erases what it names by itself."""
        unsay(self._rows, commitment)
        self.forgotten = True

    def set_credential(self, person: str, pin_hash: str | None = None, badge_hash: str | None = None) -> None:
        """Set the hash of a PIN or badge: sealed, witnessed by an entry `credential/1`; the one before is erased."""
        for what, secret in (("pin", pin_hash), ("badge", badge_hash)):
            if secret is not None:
                facts = {"person": person, "what": what, "retired": self.credentials.commitment(person, what)}
                facts["commitment"] = self.seal(secret)
                self.keep(Draft("credential/1", f"person/{person}", facts))
                self.forgotten = self.forgotten or bool(facts["retired"])

    def keep_paper(self, data: bytes) -> str:
        """Keep a paper byte for byte; returns its digest, by which an entry `paper/1` then names it."""
        digest, folder = digest_of(data), self._givens.folder
        if folder is None:
            sql = "INSERT INTO paper_content (digest, content) VALUES (:digest, :content) ON CONFLICT DO NOTHING"
            self._rows.run(sql, digest=digest, content=data)
            return digest
        with disk_said_plainly(folder):
            written = write_paper(folder, data)
        self.papers_written += [written] if written is not None else []
        return digest

    def next_job_number(self) -> int:
        return next_number(self._rows, "job")

    def next_vehicle_id(self) -> int:
        return next_number(self._rows, "vehicle")

    def next_customer_id(self) -> int:
        return next_number(self._rows, "customer")

    @property
    def next_entry(self) -> int:
        """The number of the entry to come. What is known by the entry that first told of it bears this number."""
        return self._growing.tree.size + 1

    def finish(self) -> None:
        """Write the head; called by the store as the last thing before it commits."""
        if self._half_kept:
            raise RuntimeError("an entry was kept by half and its error was passed over; nothing may be committed")
        if self.numbers:
            write_tree(self._rows, self._growing.tree)

    def take_back_papers(self) -> None:
        """Remove the papers that this write put on disk, because nothing of it is kept."""
        for file in self.papers_written:
            file.unlink(missing_ok=True)


def _same(before: Entry, draft: Draft) -> Entry:
    facts: Mapping[str, Any] = before.facts
    asked = {name: clean(getattr(draft, name)) for name in SAME}
    asked |= {name: getattr(draft, name) for name in ("done_at", "done_by") if getattr(draft, name)}
    if any(facts[name] != value for name, value in asked.items()):
        raise Conflict(
            f"This act was kept before as entry {before.number}, with other content; nothing was changed. "
            "Look at that entry, and correct it if it is wrong."
        )
    return before
