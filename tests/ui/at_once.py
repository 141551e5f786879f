"""Lanes that do everything where they stand: for presenters, which must not care."""

from collections.abc import Callable

from jobbook.core.errors import BookError


class AtOnce:
    """As the lanes of a window promise: `done` or `refused` is called, and a defect is raised after it."""

    def keep(self, work: Callable, done: Callable, refused: Callable) -> None:
        try:
            result = work()
        except BookError as error:
            refused(error)
            return
        except Exception as defect:
            refused(defect)
            raise
        done(result)

    find = keep

    def slow(self, title: str, work: Callable, done: Callable, refused: Callable) -> None:
        self.keep(lambda: work(None), done, refused)
