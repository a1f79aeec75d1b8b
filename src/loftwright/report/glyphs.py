"""Which letters the typefaces have, so that no name can stop a report from being printed."""

import unicodedata
from functools import cache
from pathlib import Path
from struct import unpack_from

from loftwright.report.fonts import font_folders

STAND_IN = "\N{BALLOT BOX}"
"""Printed in place of a letter that the typefaces do not have."""

BREAK = "\N{ZERO WIDTH SPACE}"
"""Where a very long word may break."""

_BREAKS = frozenset("\t\n\v\f\r\x85\u2028\u2029")


@cache
def covered() -> frozenset[int]:
    """Return the code points that every upright font file has a glyph for."""
    files = [
        path
        for folder in font_folders()
        for path in sorted(folder.glob("*.ttf"))
        if "Italic" not in path.name
    ]
    return frozenset.intersection(*(_code_points(path) for path in files))


def _code_points(path: Path) -> frozenset[int]:
    """Read the character map of a TrueType file (OpenType specification, table `cmap`)."""
    font = path.read_bytes()
    tables = unpack_from(">H", font, 4)[0]
    start = next(
        unpack_from(">I", font, 12 + 16 * index + 8)[0]
        for index in range(tables)
        if font[12 + 16 * index : 16 + 16 * index] == b"cmap"
    )
    found: set[int] = set()
    for index in range(unpack_from(">H", font, start + 2)[0]):
        at = start + unpack_from(">I", font, start + 4 + 8 * index + 4)[0]
        kind = unpack_from(">H", font, at)[0]
        if kind == 4:
            found.update(_segments(font, at))
        elif kind == 12:
            found.update(_groups(font, at))
    return frozenset(found)


def _segments(font: bytes, at: int) -> set[int]:
    """Read a map of format 4: segments of the basic plane."""
    size = unpack_from(">H", font, at + 6)[0]
    found: set[int] = set()
    for offset in range(0, size, 2):
        end = unpack_from(">H", font, at + 14 + offset)[0]
        start = unpack_from(">H", font, at + 16 + size + offset)[0]
        delta = unpack_from(">H", font, at + 16 + 2 * size + offset)[0]
        place = at + 16 + 3 * size + offset
        jump = unpack_from(">H", font, place)[0]
        for code in range(start, end + 1):
            glyph = (
                code
                if jump == 0
                else unpack_from(">H", font, place + jump + 2 * (code - start))[0]
            )
            if (glyph + delta) % 65536 and glyph | (jump == 0):
                found.add(code)
    return found - {0xFFFF}


def _groups(font: bytes, at: int) -> set[int]:
    """Read a map of format 12: groups over all planes."""
    found: set[int] = set()
    for index in range(unpack_from(">I", font, at + 12)[0]):
        start, end, _ = unpack_from(">III", font, at + 16 + 12 * index)
        found.update(range(start, end + 1))
    return found


def clean(text: str) -> str:
    """Return text without control characters, for titles and alternative texts."""
    spaced = (
        " " if character in _BREAKS else character
        for character in unicodedata.normalize("NFC", text)
    )
    return "".join(
        character
        for character in spaced
        if character == BREAK or unicodedata.category(character)[0] != "C"
    )


def printable(text: str) -> str:
    """Return text that the typefaces can set.

    A letter they lack is printed as its plain form where it has one, else as a square.

    Parameters
    ----------
    text : str
        Any text, such as a name from a file.
    """
    return "".join(_letter(character) for character in clean(text))


def _letter(character: str) -> str:
    known = covered()
    if ord(character) in known:
        return character
    plain = "".join(
        part for part in unicodedata.normalize("NFKD", character) if ord(part) in known
    )
    return plain or STAND_IN
