"""The end of the program's log, filtered again before it leaves the studio."""

import re
from collections.abc import Sequence
from hashlib import sha256
from pathlib import Path
from typing import Final

from loftwright.services.log_lines import is_line, sentence_in
from loftwright.services.log_sentences import sentences

MOST_BYTES: Final = 100_000
"""Of the end of the log that is given, over all its files."""
LEFT_OUT: Final = "(a line is left out)"
_DEVICE: Final = re.compile(r"\bdevice=(\S+)", re.ASCII)


def log_tail(files: Sequence[Path], salt: str, most: int = MOST_BYTES) -> str:
    """Return the last lines of a log's files that this version may have written.

    A line is left out unless its form, each of its fields and its sentence are known. Ids of
    devices are given as what only this one tail calls them.

    Parameters
    ----------
    files : sequence of Path
        The oldest lines first.
    salt : str
        Of this tail alone, so that ids of two tails cannot be joined.
    most : int
        Bytes that are read at most.
    """
    left = most
    parts: list[list[str]] = []
    for file in reversed(files):
        lines, read = _end_of(file, left)
        left -= read
        if lines:
            parts.append([_safe(line, salt) for line in lines])
        if left <= 0:
            break
    return "\n".join("".join(f"{line}\n" for line in lines) for lines in reversed(parts))


def _end_of(file: Path, most: int) -> tuple[list[str], int]:
    try:
        with file.open("rb") as read:
            size = read.seek(0, 2)
            read.seek(max(0, size - most))
            data = read.read(most)
    except OSError:
        return [LEFT_OUT], 0
    lines = data.decode("utf-8", errors="replace").splitlines()
    # The first line may be cut off.
    return lines[1:] if size > most else lines, len(data)


def _safe(line: str, salt: str) -> str:
    said = sentence_in(line)
    if not is_line(line) or (said is not None and said not in sentences()):
        return LEFT_OUT
    return _DEVICE.sub(lambda found: f"device={_alias(found[1], salt)}", line)


def _alias(name: str, salt: str) -> str:
    return sha256(f"{salt}:{name}".encode()).hexdigest()[:8]
