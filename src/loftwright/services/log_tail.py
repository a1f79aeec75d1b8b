"""The end of the program's log, filtered again before it leaves the studio."""

import ast
import re
from collections.abc import Iterator, Sequence
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Final

import loftwright
from loftwright.services.log_lines import filled_out, is_line, sentence_in

MOST_BYTES: Final = 100_000
"""Of the end of the log that is given, over all its files."""
LEFT_OUT: Final = "(a line is left out)"
_DEVICE: Final = re.compile(r"\bdevice=(\S+)", re.ASCII)
_CALLS: Final = frozenset({"debug", "info", "warning", "error", "exception", "critical", "log"})


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


@cache
def sentences() -> frozenset[str]:
    """Return every sentence that the source of this version gives to a log."""
    found: set[str] = set()
    for module in Path(loftwright.__file__).parent.rglob("*.py"):
        text = module.read_text(encoding="utf-8")
        if "getLogger(" in text:
            found |= {filled_out(said) for said in logged_in(text)}
    return frozenset(found)


def logged_in(source: str) -> Iterator[str]:
    """Yield what a module's calls of `log` say, which stands first or behind a level.

    A call whose words are put together while the program runs yields nothing.
    """
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Attribute):
            continue
        whose = node.func.value
        if isinstance(whose, ast.Name) and whose.id == "log" and node.func.attr in _CALLS:
            said = node.args[1 if node.func.attr == "log" else 0]
            if isinstance(said, ast.Constant) and isinstance(said.value, str):
                yield said.value


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
