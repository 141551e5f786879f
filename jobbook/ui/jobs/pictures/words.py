"""What the sheet says of files: under a small picture, in its tip, and of those that lie elsewhere already."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication

from jobbook.core.record.files import KeptFile
from jobbook.services.files import Again, Shown
from jobbook.ui.moments import day, day_and_hour


def already_there(elsewhere: Sequence[Again]) -> tuple[str, ...]:
    """A sentence on pictures that another job has; none where there are none."""
    if not elsewhere:
        return ()
    jobs = ", ".join(str(number) for number in sorted({one.job for one in elsewhere}))
    one = QCoreApplication.translate("PicturesSheet", "A picture lies on job {1} already; it was not kept twice.")
    more = QCoreApplication.translate("PicturesSheet", "{0} pictures lie on job {1} already; none was kept twice.")
    return ((one if len(elsewhere) == 1 else more).format(len(elsewhere), jobs),)


def in_tray(one: Shown) -> bool:
    """Whether a file waits to be assigned; what was erased does not."""
    return not one.place and not one.gone


def tip_of(one: Shown) -> str:
    """All that is known of a file, a line each."""
    return "\n".join(filter(None, (one.file.called, one.camera, one.place, _kept(one), _gone(one))))


def words_of(one: Shown) -> str:
    """What stands under a small picture: its camera's time or what is odd about it, where it belongs."""
    file = one.file
    first = one.camera.partition(":")[0] or (day_and_hour(file.taken_at) if file.is_picture else file.called)
    also = [f"erased {day(file.erased_at)}" if one.gone else one.place or "not assigned"] + (
        ["in the evidence"] if file.chosen else []
    )
    return "\n".join((first, " · ".join(also)))


def _kept(one: Shown) -> str:
    return f"{one.by}, {day_and_hour(one.file.at)}"


def _gone(one: Shown) -> str:
    return f"{one.gone}: {one.file.erased_why}" if one.gone else ""


def word_of(file: KeptFile) -> str:
    if file.is_erased:
        return "erased"
    ending = (file.name or "").rpartition(".")[2]
    return ending.upper() if not file.is_picture and 0 < len(ending) <= 4 else file.what
