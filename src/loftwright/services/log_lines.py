"""What may stand in the program's log: words that the program wrote itself, and known fields.

A line is made of the instant, the level, who says it, a sentence that stands in the source, and
fields of known names whose values fit a pattern. What a sentence would be filled with, the
message of an error and the values in a traceback never get in: they may hold a name.
"""

import errno
import logging
import re
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from traceback import walk_tb
from types import MappingProxyType
from typing import Any, Final

from loftwright.services.log_sentences import filled_out, sentences_of

OURS: Final = "loftwright"
WITHHELD: Final = "withheld"
FIELDS: Final[Mapping[str, "re.Pattern[str]"]] = MappingProxyType(
    {
        name: re.compile(pattern, re.ASCII)
        for name, pattern in {
            "version": r"[0-9][0-9a-z.+]{0,30}",
            "python": r"[0-9]\.[0-9]{1,3}\.[0-9]{1,3}[a-z0-9+]{0,6}",
            "schema": r"[0-9]{4}",
            "was": r"[0-9]{4}",
            "engine": r"sqlite|postgresql|memory",
            "process": r"[0-9]{1,10}",
            "request": r"[0-9]{4}-[0-9]{4}",
            "method": r"[A-Z]{3,7}|other",
            "route": r"none|(?:/(?:[a-z][a-z0-9_.-]{0,40}|\{[a-z_]{1,20}(?::[a-z]+)?\})?)+",
            "status": r"[1-5][0-9]{2}",
            "kind": r"[a-z_]{1,20}",
            "device": r"[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}",
            "role": r"fitter|workshop|screen|feed",
            "thread": r"[a-z-]{1,20}",
            "file": r"loftwright-[0-9]{8}-[0-9]{6}\.tar\.gz",
            "at": r"[\w.<>]{1,120}:[0-9]{1,6}",
            "count": r"[0-9]{1,12}",
            "bytes": r"[0-9]{1,15}",
            "seconds": r"[0-9]{1,9}(?:\.[0-9]{1,3})?",
        }.items()
    }
)
"""Every field that may stand in a line, and what its value may look like."""

_SENTENCE: Final = re.compile(r"[A-Za-z0-9 ,;:'’()…/-]{1,120}")
_FIRST: Final = re.compile(
    r"(?P<at>\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z) (?P<level>[A-Z]{4,8}) "
    r"(?P<who>[\w.]{1,100})(?:: (?P<says>[^|]{1,120}))?(?: \|(?P<fields>(?: \w+=\S+)+))?",
    re.ASCII,
)
_RAISED: Final = re.compile(
    r"  (?:raised|because of|while handling) [\w.]+(?: [A-Z0-9_]+)?", re.ASCII
)
_FRAME: Final = re.compile(r"    [\w.<>]+:[0-9]+ [\w<>]+", re.ASCII)
_DEEPEST: Final = 60
"""Frames of a traceback that are written, from its end."""
_LONGEST_CHAIN: Final = 6


def told(**fields: object) -> dict[str, dict[str, str]]:
    """Return fields as a call of a logger takes them: `log.info("…", extra=told(status=404))`."""
    return {"told": {name: str(value) for name, value in fields.items() if value is not None}}


def lines_of(record: logging.LogRecord, at: datetime) -> list[str]:
    """Return the lines of a log record, without anything that could be somebody's.

    Parameters
    ----------
    record : logging.LogRecord
    at : datetime
        The instant that is written, by the studio's clock.
    """
    who = record.name if re.fullmatch(r"[\w.]{1,100}", record.name, re.ASCII) else "other"
    first = f"{instant(at)} {record.levelname} {who}"
    fields: Mapping[str, Any] = getattr(record, "told", None) or {}
    if who.split(".")[0] == OURS:
        first += f": {_sentence(record)}"
    else:
        # What another library says is not in our hands: only where it stands is written.
        fields = {"at": f"{record.module}:{record.lineno}"}
    shown = " ".join(f"{name}={value}" for name, value in _known(fields))
    lines = [f"{first} | {shown}" if shown else first]
    error = record.exc_info[1] if record.exc_info else None
    if error is not None:
        lines += trace_of(error)
    return lines


def trace_of(error: BaseException) -> list[str]:
    """Return where an error was raised and what it came of, without what it says."""
    lines: list[str] = []
    link, seen = "raised", 0
    current: BaseException | None = error
    while current is not None and seen < _LONGEST_CHAIN:
        kind = re.sub(r"[<>]", "", f"{type(current).__module__}.{type(current).__qualname__}")
        lines.append(f"  {link} {kind}{_code_of(current)}")
        lines += [f"    {where}" for where in _frames(current)]
        link = "because of" if current.__cause__ is not None else "while handling"
        hidden = current.__suppress_context__
        current = current.__cause__ or (None if hidden else current.__context__)
        seen += 1
    return [line for line in lines if _RAISED.fullmatch(line) or _FRAME.fullmatch(line)]


def place_of(error: BaseException) -> str | None:
    """Return the module and line of ours that raised an error, if it was raised."""
    frames = [
        f"{frame.f_globals.get('__name__', '')}:{line}"
        for frame, line in walk_tb(error.__traceback__)
        if str(frame.f_globals.get("__name__", "")).startswith(OURS)
    ]
    return frames[-1] if frames else None


def is_line(line: str) -> bool:
    """Return whether a line is one that this program may have written, field by field."""
    if _RAISED.fullmatch(line) or _FRAME.fullmatch(line):
        return True
    found = _FIRST.fullmatch(line)
    if found is None:
        return False
    says, fields = found["says"], found["fields"]
    if says is not None and not _SENTENCE.fullmatch(says):
        return False
    pairs = [field.partition("=") for field in (fields or "").split()]
    return all(value == WITHHELD or _fits(name, value) for name, _, value in pairs)


def sentence_in(line: str) -> str | None:
    """Return the sentence of a line; None where it has none."""
    found = _FIRST.fullmatch(line)
    return found["says"] if found is not None else None


def instant(at: datetime) -> str:
    """Return an instant as lines write it."""
    return at.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def _sentence(record: logging.LogRecord) -> str:
    """Return the sentence of a record as its module's source has it, its fillings left out."""
    text = filled_out(record.msg) if isinstance(record.msg, str) else ""
    known = text in sentences_of(record.pathname) and _SENTENCE.fullmatch(text)
    return text if known else WITHHELD


def _known(fields: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    for name, value in fields.items():
        if name in FIELDS:
            yield name, str(value) if _fits(name, str(value)) else WITHHELD


def _fits(name: str, value: str) -> bool:
    return name in FIELDS and FIELDS[name].fullmatch(value) is not None


def _frames(error: BaseException) -> list[str]:
    walked = [
        f"{frame.f_globals.get('__name__', 'other')}:{line} {frame.f_code.co_name}"
        for frame, line in walk_tb(error.__traceback__)
    ]
    return walked[-_DEEPEST:]


def _code_of(error: BaseException) -> str:
    """Return the name of the system's or the database's own code of an error, with a space."""
    inner = getattr(error, "orig", None) or error
    code = getattr(inner, "sqlite_errorname", None) or getattr(inner, "sqlstate", None)
    if code is None and isinstance(inner, OSError):
        code = errno.errorcode.get(inner.errno or 0)
    return f" {code}" if code else ""
