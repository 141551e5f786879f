"""The small form that opens in place when something is to be kept: what is asked, who signs, Keep and Cancel."""

from collections.abc import Callable, Mapping, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from jobbook.services.sheet.sheets import Ask
from jobbook.ui import controls, look
from jobbook.ui.fields import SecretField
from jobbook.ui.forms import Form
from jobbook.ui.jobs.arriving.alike import FUNCTION_KEYS, AlikeOffer
from jobbook.ui.jobs.rows import label
from jobbook.ui.jobs.signing import SECRET
from jobbook.ui.jobs.tabs.records import Offer, Offers
from jobbook.ui.language import said

SIDE_BY_SIDE = 3  # more questions than this stand in two columns


class DeedForm(QWidget):
    """Asks, and hands the answers in; a refusal is said above the buttons and what was typed stays."""

    handed_in = Signal(dict)
    confirmed = Signal(dict)  # handed in once more, after a doubt was read
    cancelled = Signal()

    def __init__(self, asks: Sequence[Ask], keep: str, explain: str = "", columns: int = 0, caution: str = "") -> None:
        super().__init__()
        signs = any(ask.name == SECRET for ask in asks)
        self.form = Form(asks, columns=columns or (2 if signs or len(asks) > SIDE_BY_SIDE else 1))
        self.keep = controls.button(said(keep), "main")
        controls.press_by("Ctrl+Return", self, self.keep)
        self.cancel = controls.button(self.tr("Cancel"), "quiet")
        self._explain = label(said(explain), "soft", wrap=True)
        if not explain:
            self._explain.hide()  # shown by itself it would flash up as a window of its own
        cautions = (label(said(caution), "caution", wrap=True),) if caution else ()
        self._again = label(self.tr("What you typed before stands here again."), "soft", wrap=True)
        self._again.hide()
        self._refusal = controls.Said("caution")
        self.confirm = controls.button(self.tr("It stands so in the document"))
        self.confirm.hide()
        buttons = controls.row(self.keep, self.confirm, self.cancel, 1)
        asked = (self._explain, self._again, self.form, self._refusal)
        self.setLayout(controls.column(*cautions, *asked, buttons, gap=look.UNIT))
        self.form.handed_in.connect(self.hand_over)
        self.form.changed.connect(lambda _: self.confirm.hide())
        self.confirm.clicked.connect(lambda: self.confirmed.emit(self.form.answers()))
        self.keep.clicked.connect(self.form.hand_in)
        self.cancel.clicked.connect(self.cancelled)

    def say_live(self, reckon: Callable[[Mapping[str, str]], str]) -> None:
        """Say under the questions what the answers come to, while they are typed."""
        live = label("", "strong", wrap=True)
        place = self.layout()
        assert isinstance(place, QVBoxLayout)
        place.insertWidget(place.indexOf(self._refusal), live)
        self.form.changed.connect(lambda _: live.setText(reckon(self.form.answers())))
        live.setText(reckon(self.form.answers()))

    def offer_known(self, offers: Offers) -> None:
        """Offer under the questions what is known already, while it is typed; taken, it fills in what it knows."""
        self._offers, self._known = offers, tuple[Offer, ...]()
        self.offer = AlikeOffer(self.tr("Known already? Take it:"), FUNCTION_KEYS)
        place = self.layout()
        assert isinstance(place, QVBoxLayout)
        place.insertWidget(place.indexOf(self._refusal), self.offer)
        self.form.changed.connect(lambda _: self._look_for_known())
        self.offer.taken.connect(self._take_over)

    def _look_for_known(self) -> None:
        self._known = self._offers(self.form.answers())
        self.offer.offer("known", [(place, one.words) for place, one in enumerate(self._known)])

    def _take_over(self, _: str, place: int) -> None:
        self.form.show_answers(self._known[place].fills)
        self.begin()

    def typed(self) -> dict[str, str]:
        """What was typed so far, without PIN and signature."""
        return self.form.typed()

    def take_up(self, typed: Mapping[str, str]) -> None:
        """Go on with what was typed in such a form before, and say so."""
        known = {name: text for name, text in typed.items() if name in self.form.fields}
        self.form.show_answers(known)
        if any(self.form.fields[name].ask.folded for name in known):
            self.form.unfold(go_there=False)
        self._again.setVisible(bool(known))

    def hand_over(self, given: dict[str, str]) -> None:
        """The form is complete: say what was answered."""
        self.handed_in.emit(given)

    def ask_to_confirm(self, sentence: str) -> None:
        """Say what looks wrong, and offer to keep it as it stands: by a button of its own, so that no second touch of
        the first one does it."""
        self.refuse(sentence)
        self.confirm.show()

    def refuse(self, sentence: str) -> None:
        """Say why it was not kept. A typed PIN is taken out, since it must be typed again."""
        self.confirm.hide()
        self._refusal.setText(sentence)
        if SECRET in self.form.fields:
            self.form.fields[SECRET].set_text("")
            self.form.fields[SECRET].setFocus(Qt.FocusReason.OtherFocusReason)

    def begin(self) -> None:
        """Put the focus on the first question that has no answer yet."""
        empty = (field for field in self.form.fields.values() if field.is_empty())
        first = next(empty, None)
        if first is not None:
            first.setFocus(Qt.FocusReason.TabFocusReason)
        else:
            self.keep.setFocus(Qt.FocusReason.TabFocusReason)

    def scanned(self, code: str) -> bool:
        """Take a badge that was scanned as the signature; false where none is asked for."""
        if SECRET not in self.form.fields:
            return False
        self.form.fields[SECRET].set_text(code)
        self.form.hand_in()
        return True

    def hideEvent(self, event: QHideEvent) -> None:
        """A PIN that is half typed does not wait in a locked window for the next person."""
        if SECRET in self.form.fields:
            self.form.fields[SECRET].set_text("")
        super().hideEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape gives up. What is typed where nothing takes it is the PIN, or the badge that a scanner types. Every
        other key stays inside, so that no letter fires an act of the card."""
        if event.key() == Qt.Key.Key_Escape:
            self.cancelled.emit()
        elif event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier:
            event.ignore()
        elif event.text().isprintable():
            self._begin_secret(event.text())

    def _begin_secret(self, typed: str) -> None:
        field = self.form.fields.get(SECRET)
        if isinstance(field, SecretField) and typed:
            field.setFocus(Qt.FocusReason.OtherFocusReason)
            field.edit.insert(typed)
