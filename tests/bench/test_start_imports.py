"""What the window needs for its first page is imported before it, and nothing slow beside that."""

import os
import subprocess
import sys

from jobbook.core.people import Shop
from jobbook.services.opened import start_book

FIGURES = ("registry", "figure", "given", "rows_air", "rows_fastening", "rows_judging", "rows_vehicle")
# What the list of what is due needs nothing of: acts of the work, readings that are judged, drawn charts.
LATER = (
    *("core.drawing.survival", "core.work.checker", "services.measured.alignment", "services.sheet.jobsheet"),
    *("services.work", "services.vehicle.part_life", "ui.today.outcomes"),
)
SLOW = ("PIL", "alembic", "argon2", "biip", "cryptography", "pi_heif", "pint", "psycopg", "pypdf", "reportlab")

FIRST_PAGE = """
import sys
from PySide6.QtCore import QTimer
from jobbook import app, cli

class Watched(app.Program):
    def begin(self):
        QTimer.singleShot(0, lambda: (print("imported", *sys.modules), self._application.quit()))
        return super().begin()

app.Program = Watched
cli.main(sys.argv[1:])
"""


def test_the_first_page_is_shown_before_anything_slow_is_imported(tmp_path):
    book, _ = start_book(
        tmp_path / "book", Shop("Saltmarsh Lane Suspension", "4 Saltmarsh Lane"), "Imke Tolland", "1234"
    )
    book.close()
    environment = os.environ | {"QT_QPA_PLATFORM": "offscreen", "XDG_CONFIG_HOME": str(tmp_path)}
    command = [sys.executable, "-c", FIRST_PAGE, str(tmp_path / "book")]
    ran = subprocess.run(command, capture_output=True, text=True, env=environment, check=True)
    word, *imported = ran.stdout.split()
    assert word == "imported"
    assert {"PySide6.QtWidgets", "sqlalchemy", "jobbook.ui.window"} <= set(imported)
    assert sorted({name.split(".")[0] for name in imported} & set(SLOW)) == []
    assert sorted({f"jobbook.core.figures.{name}" for name in FIGURES} & set(imported)) == []
    assert sorted({f"jobbook.{name}" for name in LATER} & set(imported)) == []


def test_a_book_is_audited_without_a_window_or_a_printer(tmp_path):
    book, _ = start_book(
        tmp_path / "book", Shop("Saltmarsh Lane Suspension", "4 Saltmarsh Lane"), "Imke Tolland", "1234"
    )
    book.close()
    program = "import sys\nfrom jobbook import cli\ncli.main(sys.argv[1:], standalone_mode=False)"
    command = [sys.executable, "-X", "importtime", "-c", program, "audit", str(tmp_path / "book")]
    ran = subprocess.run(command, capture_output=True, text=True, check=True)
    imported = {line.rsplit("|", 1)[-1].strip() for line in ran.stderr.splitlines() if line.startswith("import time:")}
    assert "sound" in ran.stdout
    assert "sqlalchemy" in imported
    assert {"PySide6", "reportlab"} & imported == set()
