"""Sentences about lists, the same in the window and on the command line."""

from jobbook.core.lists.columns import KINDS
from jobbook.core.lists.mapping import Mapped
from jobbook.services.lists.exporting import Exported
from jobbook.services.lists.planning import Plan
from jobbook.services.lists.reading import Listed


def columns_words(kind: str, listed: Listed, mapped: Mapped) -> str:
    """How a list was read: its form, what its columns hold, and which of them are left out."""
    titles = {one.name: one.title for one in KINDS[kind]}
    taken = [f"“{heading}” is {titles[name]}" for heading, name in zip(listed.headings, mapped, strict=True) if name]
    out = [f"“{heading}”" for heading, name in zip(listed.headings, mapped, strict=True) if not name and heading]
    rest = f"; left out: {', '.join(out)}" if out else ""
    return f"{listed.name}, {listed.how}, {len(listed.rows)} rows: {', '.join(taken)}{rest}."


def counts_words(planned: Plan) -> str:
    """New, changed and the same, in a row; and how many are left out."""
    told = [f"{planned.counts.get(what, 0)} {what}" for what in ("new", "changed")]
    told.append(f"{planned.counts.get('same', 0)} as they were")
    told += [f"{planned.left_out} left out"] if planned.left_out else []
    return ", ".join(told)


def exported_words(written: Exported) -> str:
    erased = f"; {written.erased} who were forgotten are left out" if written.erased else ""
    return f"{written.file}: {written.rows} rows{erased}."
