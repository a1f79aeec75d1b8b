"""Takes a table that was pasted as text or uploaded as a file."""

from typing import Final

from loftwright.errors import IntakeError
from loftwright.intake.feed import check_text
from loftwright.intake.file_rows import FileRows, check_size, rows_of
from loftwright.intake.options import ReadOptions

PASTED: Final = "pasted text"


def rows_of_text(text: str, options: ReadOptions, *, name: str = PASTED) -> FileRows:
    """Return the balls of a pasted table.

    Parameters
    ----------
    text : str
        Headings and rows, as copied from a sheet or a file.
    options : ReadOptions
        What is settled about it.
    name : str
        What to call it in messages.

    Raises
    ------
    DoubtsError
        When it can be read in more than one way.
    IntakeError
        When it is no table of shots or is too large.
    """
    if not text.strip():
        raise IntakeError(
            "nothing was pasted",
            place=name,
            mend="Copy the headings and the rows below them, then paste.",
        )
    check_size(len(text), name)
    check_text(text, name)
    return rows_of(text.encode("utf-8"), name, options)


def rows_of_upload(content: bytes, name: str, options: ReadOptions) -> FileRows:
    """Return the balls of an uploaded file.

    Parameters
    ----------
    content : bytes
        The file.
    name : str
        The name it had; it serves messages only.
    options : ReadOptions
        What is settled about it.

    Raises
    ------
    DoubtsError
        When it can be read in more than one way.
    IntakeError
        When it is no table of shots or is too large.
    """
    return rows_of(content, name.strip() or "uploaded file", options)
