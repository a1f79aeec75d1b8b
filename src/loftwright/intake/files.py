"""Opens a file of text safely: what it is, how it is encoded, line by line within bounds."""

import codecs
import csv
import os
import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from loftwright.domain.table_cell import as_typed
from loftwright.errors import IntakeError

# More than a fitting of the most balls needs, so that the whole of one tells its encoding.
SAMPLE_BYTES: Final = 1 << 20
MAX_LINE: Final = 1 << 16
MAX_CELLS: Final = 400
MAX_CELL: Final = 4096
MAX_LINES: Final = 500_000

_MAGIC: Final = (
    (b"PK\x03\x04", "is a spreadsheet workbook or an archive", "Save the sheet as CSV first."),
    (b"\xd0\xcf\x11\xe0", "is a spreadsheet workbook", "Save the sheet as CSV first."),
    (b"%PDF", "is a PDF", "Export the shots as CSV instead."),
    (b"\x89PNG", "is a picture", "Export the shots as CSV instead."),
    (b"\xff\xd8\xff", "is a picture", "Export the shots as CSV instead."),
    (b"\x1f\x8b", "is compressed", "Unpack it first."),
    (b"7z\xbc\xaf", "is compressed", "Unpack it first."),
    (b"SQLite format 3", "is a database", "Export the shots as CSV instead."),
    (b"{\\rtf", "is a text document", "Save the table as CSV first."),
)
_PAGE: Final = (b"<!doctype html", b"<html", b"<?xml")
_BOMS: Final = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
# What no encoding of one byte or of UTF-8 gives: the mark of a byte that is none of its own.
_FOREIGN_BYTE: Final = re.compile("[\udc80-\udcff]")
_TABLE_MEND: Final = "Give a table of shots as text: CSV with one row a ball."


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """One row of cells and the line of the file on which it begins."""

    line: int
    cells: tuple[str, ...]

    @property
    def blank(self) -> bool:
        """Whether no cell holds anything."""
        return not any(cell.strip() for cell in self.cells)


def cannot_open(path: Path, error: OSError) -> IntakeError:
    """Return the error for a file that cannot be opened or read."""
    if isinstance(error, FileNotFoundError):
        why, mend = "there is no such file", "Check the name and the folder."
    elif isinstance(error, IsADirectoryError) or path.is_dir():
        why, mend = "is a folder, not a file", "Name the file in it."
    elif isinstance(error, PermissionError):
        why, mend = "may not be read", "Ask its owner for the right to read it."
    else:
        why, mend = f"cannot be read ({error.strerror or error})", "Check the disk and the name."
    return IntakeError(why, place=str(path), mend=mend)


def read_sample(path: Path) -> bytes:
    """Return the first bytes of a file that may be a table of text.

    Raises
    ------
    IntakeError
        When the file is missing, a folder, unreadable, empty or of another kind.
    """
    try:
        if path.is_dir():
            raise IsADirectoryError
        with path.open("rb") as file:
            sample = file.read(SAMPLE_BYTES)
    except (OSError, ValueError) as error:
        problem = error if isinstance(error, OSError) else OSError(str(error))
        raise cannot_open(path, problem) from error
    for magic, what, mend in _MAGIC:
        if sample.startswith(magic):
            raise IntakeError(what, place=str(path), mend=mend)
    if sample.lstrip(b"\xef\xbb\xbf \t\r\n").lower().startswith(_PAGE):
        raise IntakeError(
            "is a web page or another marked-up document",
            place=str(path),
            mend="Export the shots again, as CSV; what was saved is a page about them, not they.",
        )
    if not sample.strip(b"\x00\t\r\n\x0b\x0c \xef\xbb\xbf\xfe\xff"):
        raise IntakeError("is empty", place=str(path), mend=_TABLE_MEND)
    return sample


def encodings(sample: bytes, path: Path) -> tuple[str, ...]:
    """Return the encodings a sample can have, the likeliest first.

    Raises
    ------
    IntakeError
        When the bytes are no text.
    """
    for bom, name in _BOMS:
        if sample.startswith(bom):
            return (name,)
    even, odd = sample[0::2].count(0), sample[1::2].count(0)
    half = max(len(sample) // 2, 1)
    if odd > 0.3 * half and even < 0.05 * half:
        return ("utf-16-le",)
    if even > 0.3 * half and odd < 0.05 * half:
        return ("utf-16-be",)
    if even + odd:
        raise IntakeError("is not text: it holds NUL bytes", place=str(path), mend=_TABLE_MEND)
    if _decodes(sample, "utf-8"):
        return ("utf-8",)
    found = tuple(name for name in ("cp1252", "cp932", "cp949") if _decodes(sample, name))
    return found or ("latin-1",)


def _decodes(sample: bytes, encoding: str) -> bool:
    decoder = codecs.getincrementaldecoder(encoding)("strict")
    try:
        decoder.decode(sample, final=len(sample) < SAMPLE_BYTES)
    except UnicodeDecodeError:
        return False
    return True


def lines(path: Path, encoding: str) -> Iterator[str]:
    """Yield the lines of a file one by one, each within a bound.

    Raises
    ------
    IntakeError
        When a line is too long for a table, is in another encoding or cannot be read.
    """
    number = 0
    errors = "replace" if encoding.startswith(("utf-16", "utf-32")) else "surrogateescape"
    try:
        with path.open(encoding=encoding, errors=errors, newline="") as file:
            while line := file.readline(MAX_LINE):
                number += 1
                flaw, mend = _flaw(line, number, encoding)
                if flaw:
                    raise IntakeError(flaw, place=str(path), mend=mend)
                yield line
    except (OSError, UnicodeError) as error:
        if isinstance(error, OSError):
            raise cannot_open(path, error) from error
        raise IntakeError("is not text", place=str(path), mend=_TABLE_MEND) from error


def _flaw(line: str, number: int, encoding: str) -> tuple[str, str]:
    """Return why a line can be none of a table, and what to do; nothing for a good one."""
    if number > MAX_LINES:
        return f"has more than {MAX_LINES:,} lines", _TABLE_MEND
    if len(line) == MAX_LINE and not line.endswith(("\n", "\r")):
        return f"row {number} is longer than {MAX_LINE} characters", _TABLE_MEND
    if "\x00" in line:
        return f"row {number} holds NUL bytes", _TABLE_MEND
    if _FOREIGN_BYTE.search(line) is not None:
        name = encoding.removesuffix("-sig").upper()
        return f"row {number} holds a byte that is not {name}", "Save the table as UTF-8."
    return "", ""


def _plain(cell: str) -> str:
    """Return a cell without blanks about it and without what guards it: ="..." or '."""
    text = cell.strip()
    guarded = len(text) > 2 and text.startswith('="') and text.endswith('"')
    return text[2:-1].strip() if guarded else as_typed(text)


def records(path: Path, encoding: str, delimiter: str) -> Iterator[Record]:
    """Yield the rows of a table one by one; a cell may hold quoted line ends.

    Raises
    ------
    IntakeError
        When a row cannot be parted into cells.
    """
    reader = csv.reader(lines(path, encoding), delimiter=delimiter, skipinitialspace=True)
    while True:
        first = reader.line_num + 1
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            raise IntakeError(
                f"row {first} cannot be parted into cells ({error})",
                place=str(path),
                mend="Look for a quotation mark that is opened and not closed.",
            ) from error
        if len(cells) > MAX_CELLS:
            raise IntakeError(
                f"row {first} has {len(cells)} cells, more than the {MAX_CELLS} of a shot table",
                place=str(path),
                mend=_TABLE_MEND,
            )
        longest = max(map(len, cells), default=0)
        if longest > MAX_CELL:
            raise IntakeError(
                f"row {first} has a cell of {longest} characters, more than {MAX_CELL}",
                place=str(path),
                mend=_TABLE_MEND,
            )
        yield Record(line=first, cells=tuple(map(_plain, cells)))


def write_whole(path: Path, content: bytes) -> None:
    """Write a file whole or not at all: a neighbour is written, then renamed.

    Raises
    ------
    IntakeError
        When the place cannot be written.
    """
    neighbour = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with neighbour.open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        neighbour.replace(path)
    except OSError as error:
        with suppress(OSError):
            neighbour.unlink(missing_ok=True)
        raise IntakeError(
            f"cannot be written ({error.strerror or error})",
            place=str(path),
            mend="Choose a folder that exists and may be written.",
        ) from error
