"""What belongs to this workstation and not to a book."""

from pathlib import Path

import platformdirs


def keys() -> Path:
    """The folder of the key that signs here for books on a server. A book in a folder has its own beside it."""
    return platformdirs.user_data_path("jobbook") / "keys"
