"""Words that records bring from below the window, where services and presenters know no Qt: whatever shows one of them
asks here for the language of the window.

What is no word of ours, a name or a figure, is among no translations and stands as it is.
"""

from dataclasses import replace

from PySide6.QtCore import QCoreApplication

from jobbook.services.sheet.questions import Ask

CONTEXT = "Record"


def said(words: str) -> str:
    """The words in the language of the window."""
    return QCoreApplication.translate(CONTEXT, words) if words else ""


def asked(ask: Ask) -> Ask:
    """The same question, its label and answers in the language of the window."""
    options = tuple(replace(option, label=said(option.label)) for option in ask.options)
    return replace(ask, label=said(ask.label), options=options)
