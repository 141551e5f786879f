"""The method file: reading it, beginning it at a corner, and the act that each of its steps suggests."""

from jobbook.core.work.begin import begin, propose, steps_for, title_of
from jobbook.core.work.reading import Declared, FigureNeed, Method, Step, read_method

__all__ = ["Declared", "FigureNeed", "Method", "Step", "begin", "propose", "read_method", "steps_for", "title_of"]
