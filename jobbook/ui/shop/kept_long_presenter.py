"""What has been kept longer than the profile says, and what is decided about each."""

from collections.abc import Mapping
from typing import Protocol

from jobbook.core.desk.retention import KeptLong
from jobbook.services.house.kept_long import forget_kept_long, keep_on, kept_long, rule_words
from jobbook.services.vehicle.forgetting import Forgetting
from jobbook.ui.keeping import Keeping
from jobbook.ui.moments import day
from jobbook.ui.setting import Setting

ERASE, KEEP_ON = "erase", "keep on"


class KeptLongView(Protocol):
    """What the page can show."""

    def show_rule(self, sentence: str) -> None: ...

    def show_rows(self, rows: tuple[KeptLong, ...]) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_busy(self, busy: bool) -> None: ...

    def show_done(self, sentence: str) -> None: ...


class KeptLongPresenter:
    """Nothing is erased but by somebody who says so, one customer at a time."""

    def __init__(self, setting: Setting, view: KeptLongView) -> None:
        self._setting, self._view = setting, view
        self._keeping = Keeping(setting, view)

    def open(self) -> None:
        self._view.show_rule(rule_words(self._setting.book))
        self._view.show_rows(kept_long(self._setting.book))

    def decide(self, one: KeptLong, answers: Mapping[str, str]) -> None:
        book, reason = self._setting.book, answers["reason"]
        if answers["outcome"] == ERASE:
            self._keeping.keep(lambda who: forget_kept_long(book, who, one, reason), self._forgotten)
        else:
            told = (one, answers["until"], reason)
            self._keeping.keep(lambda who: keep_on(book, who, *told), lambda _: self._done("Kept on."))

    def _forgotten(self, came: Forgetting) -> None:
        if came.waits_for:
            self._done(f"Nothing was erased yet: {came.waits_for}. Looked at again on {day(came.look_again)}.")
        else:
            self._done(f"Forgotten: {came.erased} values were erased. Make a new backup and throw the older ones away.")

    def _done(self, sentence: str) -> None:
        self.open()
        self._view.show_done(sentence)
