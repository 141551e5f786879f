"""Files that travel inside a paper. Attach first, seal last."""

from io import BytesIO

from pypdf import PdfReader, PdfWriter

from jobbook.core.errors import Unreadable


def attach(pdf: bytes, name: str, data: bytes) -> bytes:
    """The paper with a file inside it: the same bytes for the same paper, name and data."""
    writer = PdfWriter(clone_from=BytesIO(pdf))
    writer.add_attachment(name, data)
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


def attachment(pdf: bytes, name: str) -> bytes | None:
    """The file of that name inside the paper, or None. Raises Unreadable when the paper is no PDF."""
    try:
        found = PdfReader(BytesIO(pdf)).attachments.get(name, [])
        return bytes(found[0]) if found else None
    except Exception as error:  # A damaged file brings the reader down in more ways than it has names for.
        raise Unreadable("This file cannot be read as a PDF; take the copy that the shop issued.") from error
