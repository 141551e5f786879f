"""A job page with pictures, and how files come to it."""

from pathlib import Path

from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest

from jobbook.services import files
from tests.services.pictures_at_hand import picture

PLAIN = Qt.KeyboardModifier.NoModifier


def named(*paths):
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    return mime


def drop(page, mime, at=(4, 4)):
    entering = QDragEnterEvent(QPoint(*at), Qt.DropAction.CopyAction, mime, Qt.MouseButton.LeftButton, PLAIN)
    page.dragEnterEvent(entering)
    assert entering.isAccepted()
    page.dropEvent(QDropEvent(QPointF(*at), Qt.DropAction.CopyAction, mime, Qt.MouseButton.LeftButton, PLAIN))


def put(folder: Path, count: int) -> list[Path]:
    folder.mkdir(exist_ok=True)
    paths = [folder / f"IMG_{number:04}.jpg" for number in range(count)]
    for number, path in enumerate(paths):
        path.write_bytes(picture("grey", (64 + number, 48)))
    return paths


def with_three(made, tmp_path, qtbot):
    """The page of the job with three pictures in its tray, opened with P."""
    drop(made, named(*put(tmp_path / "in", 3)))
    made.beside.show_job()
    QTest.keyClick(made, Qt.Key.Key_P)
    qtbot.waitUntil(made.pictures.shelf.is_complete)
    return made


def kept(there):
    return files.files_of(there.book, there.job)
