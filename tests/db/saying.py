"""What every refusal of a book has in common, and what a folder held before and after."""

PARTS = ("nothing was", "nothing of this last action")


def one_sentence(refusal):
    """The sentence says what happened, what was kept, and what to do; it holds no traceback and no SQL."""
    said = str(refusal.value)
    assert any(part in said for part in PARTS), said
    assert "\n" not in said
    assert said.endswith(".")
    assert "SELECT" not in said
    return said


def contents(folder):
    """Every file and its bytes, but for the index that each reader of a book shares and may write to."""
    files = [file for file in folder.rglob("*") if file.is_file() and not file.name.endswith("-shm")]
    return {str(file.relative_to(folder)): file.read_bytes() for file in files}
