"""Who is on duty at this window."""

from PySide6.QtCore import QObject, Signal

from jobbook.core.people import Person


class Duty(QObject):
    """Holds the person on duty. `changed` follows every coming and every locking."""

    changed = Signal()

    def __init__(self, person: Person | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._person = person

    @property
    def person(self) -> Person | None:
        return self._person

    def come(self, person: Person) -> None:
        """This person works here from now on."""
        self._person = person
        self.changed.emit()

    def lock(self) -> None:
        """Nobody works here until somebody says who they are. What is open stays open."""
        if self._person is not None:
            self._person = None
            self.changed.emit()
