"""One start of the program, or of a bare window, in a process of its own: says so when the first page is painted, and
ends. `python -m tests.bench.first_page program BOOK`, or `... bare`."""

import sys

SHOWN = "shown"


def tell_when_painted(window, application) -> None:
    """Print a line once everything in the window was painted for the first time; then end."""
    from PySide6.QtCore import QEvent, QObject, QTimer

    class Watch(QObject):
        def eventFilter(self, watched, event):
            if event.type() == QEvent.Type.Paint:
                watched.removeEventFilter(self)
                # The window's children are painted with it; after that the loop comes round to this.
                QTimer.singleShot(0, self.tell)
            return False

        def tell(self) -> None:
            print(SHOWN, flush=True)
            application.quit()

    window.watch = Watch(window)
    window.installEventFilter(window.watch)


def program(place: str) -> None:
    """The command itself, from its first import on; only its last step before the first page is looked at."""
    from jobbook import app, cli

    class Watched(app.Program):
        def begin(self) -> bool:
            begun = super().begin()
            tell_when_painted(self.window, self._application)
            return begun

    app.Program = Watched
    cli.main([place])


def bare() -> None:
    """A window with one word, and the imports that the program cannot do without."""
    import sqlalchemy
    from PySide6.QtWidgets import QApplication, QLabel, QMainWindow

    application = QApplication(["bare"])
    window = QMainWindow()
    window.setCentralWidget(QLabel(sqlalchemy.__name__))
    window.show()
    tell_when_painted(window, application)
    application.exec()


if __name__ == "__main__":
    program(sys.argv[2]) if sys.argv[1] == "program" else bare()
