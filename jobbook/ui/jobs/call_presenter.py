"""A call: taken, changed with a reason, and followed by the vehicle itself."""

from collections.abc import Callable, Mapping
from typing import Protocol

from jobbook.core.calls import OUTCOMES, Call, advice
from jobbook.core.errors import BookError
from jobbook.services.calls import answers_of, call_of, get_call, known_by_plate, take_call
from jobbook.ui.moments import day_and_hour
from jobbook.ui.places import Place, it_is_here
from jobbook.ui.setting import Setting


class CallView(Protocol):
    """What the page can show."""

    def show_new(self) -> None: ...

    def show_call(self, title: str, answers: Mapping[str, str], ended: str) -> None: ...

    def show_advice(self, sentences: tuple[str, ...]) -> None: ...

    def show_known(self, sentence: str) -> None: ...

    def refuse(self, sentence: str) -> None: ...

    def show_busy(self, busy: bool) -> None: ...


class CallPresenter:
    """Turns the answers into a call and keeps it."""

    def __init__(self, setting: Setting, view: CallView, go: Callable[[Place], None], kept: Callable[[], None]) -> None:
        self._setting, self._view, self._go, self._kept = setting, view, go, kept
        self._number = 0
        self._busy = False

    def open(self, number: int) -> None:
        self._number = number
        if not number:
            self._view.show_new()
            return
        call = get_call(self._setting.book, number)
        self._view.show_call(_title(call), answers_of(call), OUTCOMES.get(call.outcome, call.outcome))
        self.plate_typed(call.plate)

    def typed(self, answers: Mapping[str, str]) -> None:
        self._view.show_advice(advice(answers["driven"], answers["overnight"] == "yes"))

    def plate_typed(self, plate: str) -> None:
        self._view.show_known(known_by_plate(self._setting.book, plate))

    def keep(self, answers: Mapping[str, str], reason: str) -> None:
        if self._busy:
            return
        try:
            who = self._setting.who()
        except BookError as error:
            self._view.refuse(str(error))
            return
        self._set_busy(True)
        call, book = call_of(answers, self._number), self._setting.book
        self._setting.lanes.keep(lambda: take_call(book, who, call, reason=reason), self._done, self._refused)

    def _done(self, _number: int) -> None:
        self._set_busy(False)
        self._kept()

    def _refused(self, error: BookError) -> None:
        self._set_busy(False)
        self._view.refuse(str(error))

    def _set_busy(self, busy: bool) -> None:
        self._busy = busy
        self._view.show_busy(busy)

    def it_is_here(self) -> None:
        self._go(it_is_here(self._number))


def _title(call: Call) -> str:
    about = call.plate or call.vehicle or call.caller or "erased"
    return f"Call of {day_and_hour(call.taken_at)}: {about}"
