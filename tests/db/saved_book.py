"""Write the saved book of this version of the form: `python -m tests.db.saved_book` (only when the form changes).

It is kept with the sources, so that every later version of the program is tried on it; its key signs nothing else.
"""

from pathlib import Path

from jobbook.db.schema import VERSION
from tests.db.building import new_book, whole_job

BOOKS = Path(__file__).parents[1] / "data" / "books"


def main() -> None:
    folder = BOOKS / ".".join(map(str, VERSION))
    with new_book(folder, seed=1010) as store:
        whole_job(store)
    print(folder)


if __name__ == "__main__":
    main()
