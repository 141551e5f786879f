"""Where a scanned code goes: shown for what it is, then to the signature, the field or the find line that it suits.

A badge signs only where a signature is asked for; no other code ever stands in for one. A code is put into a field of
text and handed in by nobody but the person; the label of a part fills all the fields that it answers. A code that is
read again within two seconds is dropped."""

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget

from jobbook.core.errors import BookError
from jobbook.core.scans import Repeats
from jobbook.services.office.scanning import Scan, read_scan, scan_words
from jobbook.ui.fields import Field, QuantityField, SecretField
from jobbook.ui.finding import FindLine
from jobbook.ui.forms import Form
from jobbook.ui.scanner import Scanner
from jobbook.ui.setting import Setting

NO_TEXT = (QuantityField, SecretField)
OF_A_PART = ("serial", "batch")  # fields of every form that asks what stands on a part
NOT_OF_CODES = ("time", "quantity", "heights", "secret")  # kinds of questions that no code answers


class Scanning(QObject):
    """The scanner of one window. `said` carries what was read, in words, and whether it was of use.

    `takes` gives a badge to the page in sight and tells whether a signature was asked for there."""

    said = Signal(str, bool)

    def __init__(
        self, setting: Setting, takes: Callable[[str], bool], find_line: FindLine, timer: Callable[[], float]
    ) -> None:
        super().__init__(find_line)
        self._setting, self._takes, self._find_line, self._timer = setting, takes, find_line, timer
        self._repeats = Repeats()
        self.scanner = Scanner(self)
        self.scanner.scanned.connect(self.take)

    def take(self, code: str) -> None:
        """A code was read."""
        if self._repeats.is_again(code, self._timer()):
            return
        try:
            scan = read_scan(self._setting.book, code)
        except BookError as error:
            self.said.emit(str(error), False)
            return
        if scan.person is not None:
            self._badge(scan)
        else:
            self._code(scan)

    def _badge(self, scan: Scan) -> None:
        if self._takes(scan.code):
            self.said.emit(scan_words(scan), True)
        else:
            self.said.emit(scan_words(scan) + " " + self.tr("No signature is asked for here."), False)

    def _code(self, scan: Scan) -> None:
        at, words = QApplication.focusWidget(), scan_words(scan)
        field = field_for_code(at)
        if scan.is_something_else and name_of_field(at) in OF_A_PART:
            self.said.emit(words + " " + self.tr("This field is for a part; it was left as it is."), False)
            return
        if not fill_from_label(at, scan):
            if field is not None:
                put_in(field, scan.best)
            else:
                self._find_line.search_code(scan.code)
        self.said.emit(words, scan.is_of_use)


def fill_from_label(at: QWidget | None, scan: Scan) -> bool:
    """Fill number, serial and batch of the form in which the focus is; false where it asks for no part.

    Nothing is kept by it: what was read stands in the fields to be looked at."""
    form, label = form_of(at), scan.label
    if form is None or label is None or not form.fields.keys() & set(OF_A_PART):
        return False
    told = {"number": scan.item, "serial": label.serial, "batch": label.batch}
    if "batch" not in form.fields:  # a part that has no serial is told by its batch
        told["serial"] = label.serial or label.batch
    for name, text in told.items():
        if text and name in form.fields:
            form.fields[name].take(text)
    return True


def form_of(at: QWidget | None) -> Form | None:
    """The form that a control stands in."""
    while at is not None and not isinstance(at, Form):
        at = at.parentWidget()
    return at


def name_of_field(at: QWidget | None) -> str:
    """The name of the field that a control stands in, or ""."""
    while at is not None and not isinstance(at, Field):
        at = at.parentWidget()
    return at.name if at is not None else ""


def put_in(field: QLineEdit, text: str) -> None:
    """Put a code in place of what stands in a field, as if it were typed."""
    field.selectAll()
    field.insert(text)
    field.textEdited.emit(field.text())


def field_for_code(at: QWidget | None) -> QLineEdit | None:
    """The line that has the focus, where a code may stand in it."""
    if not isinstance(at, QLineEdit) or at.isReadOnly() or at.echoMode() is not QLineEdit.EchoMode.Normal:
        return None
    if isinstance(at, FindLine):
        return None
    above = at.parentWidget()
    while above is not None and not isinstance(above, Field):
        above = above.parentWidget()
    if isinstance(above, Field) and (isinstance(above, NO_TEXT) or above.ask.kind in NOT_OF_CODES):
        return None
    return at
