"""Papers: what they say is decided here from the book, printed by paperwork, and kept byte for byte when they leave."""

from jobbook.services.papers.leaving import KINDS, issue, paper_path, papers, preview, print_to

__all__ = ["KINDS", "issue", "paper_path", "papers", "preview", "print_to"]
