"""A call: taken, changed with a reason, and followed by the vehicle itself."""

from collections.abc import Callable, Mapping
from typing import Protocol

from jobbook.core.desk.calls import OUTCOMES, Call, advice
from jobbook.services.office.calls import answers_of, call_of, get_call, known_by_plate, take_call
from jobbook.ui.keeping import Keeping
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
        self._keeping = Keeping(setting, view)

    def open(self, number: int) -> None:
        self._number = number
        if not number:
            self._view.show_new()
            return
        call = get_call(self._setting.book, number)
        answers = answers_of(call) | {"expected": day_and_hour(call.expected)}
        self._view.show_call(_title(call), answers, OUTCOMES.get(call.outcome, call.outcome))
        self.plate_typed(call.plate)

    def typed(self, answers: Mapping[str, str]) -> None:
        self._view.show_advice(advice(answers["driven"], answers["overnight"] == "yes"))

    def plate_typed(self, plate: str) -> None:
        self._view.show_known(known_by_plate(self._setting.book, plate))

    def keep(self, answers: Mapping[str, str], reason: str) -> None:
        call, book = call_of(answers, self._number), self._setting.book
        self._keeping.keep(lambda who: take_call(book, who, call, reason=reason), lambda _number: self._kept())

    def it_is_here(self) -> None:
        self._go(it_is_here(self._number))


def _title(call: Call) -> str:
    about = call.plate or call.vehicle or call.caller or "erased"
    return f"Call of {day_and_hour(call.taken_at)}: {about}"
