"""The errors a person can meet. Each carries one sentence that says what happened, what was kept and what to do."""


class BookError(Exception):
    """An error of the environment or of the input, worded for the person; anything else is a defect of ours."""


class Refused(BookError):
    """A rule says no. `rule` is its name in the list of rules, or empty where no named rule is behind it."""

    def __init__(self, sentence: str, rule: str = "") -> None:
        super().__init__(sentence)
        self.rule = rule


class NotFound(BookError):
    """What was asked for is not in the book."""


class Conflict(BookError):
    """Somebody else was quicker: the thing is no longer as it was when it was read."""


class StoreUnavailable(BookError):
    """The book cannot be opened, read or written: no database, a newer one, read-only, full disk, locked."""


class Unreadable(BookError):
    """A file or a typed text that cannot be read; the sentence names the place."""


class Altered(BookError):
    """A file that the program wrote is not as it was written; the sentence names it and what to trust instead."""
