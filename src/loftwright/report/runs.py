"""Text for paper as runs: plain words, strong words, and clubs with their markers."""

import re
from collections.abc import Iterable, Mapping
from typing import Final, TypeAlias

from loftwright.report.glyphs import BREAK, printable
from loftwright.report.marks import Mark

Run: TypeAlias = dict[str, str]

_UNIT: Final = re.compile(r"(\d) (yd|mph|ft|mm|m/s|m|rpm|deg|in|%|°C?)(?!\w)")
_SHORTEST_MARKED = 3
_LONGEST_WORD = 24


def plain(text: str) -> Run:
    """Return words as they are."""
    return {"text": breakable(text)}


def strong(text: str) -> Run:
    """Return words in the stronger weight."""
    return {"strong": breakable(text)}


def club(name: str, label: str | None = None) -> Run:
    """Return a club's name, or its shorter label, to be set with its marker."""
    return {"club": breakable(label or name), "mark": mark_key(name)}


def mark_key(name: str) -> str:
    """Return the key of a club's mark: plain letters, whatever the file calls the club."""
    return name.encode("utf-8", "surrogatepass").hex()


def breakable(text: str) -> str:
    """Return text whose very long words may break, so that no name leaves its column."""
    pattern = rf"[^\s{BREAK}]{{{_LONGEST_WORD},}}"
    return re.sub(pattern, lambda found: _broken(found.group()), tied(printable(text)))


def tied(text: str) -> str:
    """Return text in which a number never parts from its unit, nor a range at its `to`."""
    text = _UNIT.sub("\\1\N{NO-BREAK SPACE}\\2", text)
    return re.sub(r"(\d) to ([−+]?\d)", "\\1\N{NO-BREAK SPACE}to\N{NO-BREAK SPACE}\\2", text)


def _broken(word: str) -> str:
    pieces = (word[at : at + _LONGEST_WORD // 2] for at in range(0, len(word), _LONGEST_WORD // 2))
    return BREAK.join(pieces)


def shortened(text: str, most: int) -> str:
    """Return a name that fits a picture, with an ellipsis where it was cut."""
    text = printable(text)
    return text if len(text) <= most else f"{text[: most - 1].rstrip()}…"


def marked(text: str, marks: Mapping[str, Mark]) -> list[Run]:
    """Return a sentence as runs, every club's name with its marker.

    Parameters
    ----------
    text : str
        The sentence.
    marks : mapping of str to Mark
        The fitting's clubs.

    Notes
    -----
    A name of one or two characters, or a number, is left plain: it would be found in words and
    figures that are not the club.
    """
    names = [
        name for name in marks if len(name) >= _SHORTEST_MARKED and not name.strip().isdigit()
    ]
    if not names:
        return [plain(text)]
    choice = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    runs = []
    for piece in re.split(rf"(?<!\w)({choice})(?!\w)", text):
        if piece in marks:
            runs.append(club(piece))
        elif piece:
            runs.append(plain(piece))
    return runs


def clubs(names: Iterable[str], last: str = "and", most: int = 6) -> list[Run]:
    """Return clubs as a list in words, each with its marker; the others as a number."""
    found = list(names)
    shown = found if len(found) <= most else found[: most - 1]
    parts = [club(name) for name in shown]
    if len(shown) < len(found):
        parts.append(plain(f"{len(found) - len(shown)} others"))
    runs: list[Run] = []
    for index, part in enumerate(parts):
        if index:
            runs.append(plain(f" {last} " if index == len(parts) - 1 else ", "))
        runs.append(part)
    return runs
