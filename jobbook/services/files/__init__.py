"""Pictures and files of a job: taken in, assigned, marked, moved, taken away, and copied out of the shop."""

from jobbook.services.files.erasing import erase
from jobbook.services.files.keeping import (
    Added,
    Again,
    Ready,
    Source,
    add_files,
    keep_ready,
    of_bytes,
    of_path,
    prepare,
    said_of,
)
from jobbook.services.files.leaving import copies_out, safe_name
from jobbook.services.files.places import Place, places
from jobbook.services.files.standing import assign, bring_back, choose, move_files, set_marks, take_away
from jobbook.services.files.telling import ShelfOf, Shown, content, files_of, shelf_of, shown_files, small_picture, view
from jobbook.services.files.watched import waiting_in

__all__ = [
    "Added", "Again", "Place", "Ready", "ShelfOf", "Shown", "Source", "add_files", "assign", "bring_back", "choose",
    "content", "copies_out", "erase", "files_of", "keep_ready", "move_files", "of_bytes", "of_path", "places",
    "prepare", "safe_name", "said_of", "set_marks", "shelf_of", "shown_files", "small_picture", "take_away", "view",
    "waiting_in",
]  # fmt: skip
