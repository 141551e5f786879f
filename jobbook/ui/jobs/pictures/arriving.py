"""Files on their way in: dropped, pasted or chosen. Nothing is read here; that is for another thread."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMimeData
from PySide6.QtGui import QImage, QImageWriter

from jobbook.services.files import Source, of_path

PASTED = "pasted.png"
EFFORT = 60  # of packing: the file is as small as by Qt's own choice, in a third of its time


def carries_files(mime: QMimeData) -> bool:
    """Whether there is anything to take in: files or folders of this machine, or a picture."""
    return mime.hasImage() or any(url.isLocalFile() for url in mime.urls())


def sources_of(mime: QMimeData) -> tuple[Source, ...]:
    """What was dropped or pasted: files, what lies in folders, or else the picture itself."""
    paths = [Path(url.toLocalFile()) for url in mime.urls() if url.isLocalFile()]
    if paths:
        return of_paths(paths)
    image = mime.imageData()
    return (Source(PASTED, lambda: png_of(image)),) if isinstance(image, QImage) and not image.isNull() else ()


def of_paths(paths: Sequence[Path]) -> tuple[Source, ...]:
    return tuple(of_path(path) for path in _files(paths))


def _files(paths: Sequence[Path]) -> Iterator[Path]:
    for path in paths:
        if path.is_dir():
            yield from sorted(inside for inside in path.iterdir() if inside.is_file())
        else:
            yield path


def png_of(image: QImage) -> bytes:
    """A picture from the clipboard as a file. It takes a second for a large one, so it is called in a lane."""
    data = QByteArray()
    buffer = QBuffer(data)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QImageWriter(buffer, b"png")
    writer.setQuality(EFFORT)
    writer.write(image)
    return bytes(data.data())
