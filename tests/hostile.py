"""Spoils content that is good: in its cells and values, its ends of lines, its bytes, its size."""

import re
from collections.abc import Callable
from random import Random
from typing import Final

NUMBERS: Final = (
    *("nan", "NaN", "inf", "-inf", "Infinity", "1e400", "-1e400", "1e-400", "-0", "0", "-1"),
    *("9" * 30, "9" * 400, "9" * 5000, "1e308", "1e5", "0.1e", "1_000", "0x1F", "0b1", "1e9"),
    *("1,000", "1.000.000", "1,5", ".", "-", "+", "+-1", "1..2", "12,1,3", "1e+", "--5"),
    *("٣", "²", "１２", "½", "Ⅻ", "−5", "1\u00a0000", "1\u2009000", "𝟙"),
)
WORDS: Final = (
    *("=1+1", "=cmd|' /C calc'!A0", "@SUM(A1)", "+1", "-1+1", "\t=1", '="00"', "'"),
    *('"', '""', '"""', "''", '"unclosed', "\\", "\\u0000", "\\ud800", "\\x00", "${x}", "{{7*7}}"),
    *("\x00", "\x07", "\x0b", "\x0c", "\x1a", "\x1b[2J", "\x7f", "\x85", "\u2028", "\u2029"),
    *("\ufeff", "\u200b", "\u202e", "\u200f", "\u2066", "\ufffd", "\ufffe", "\U0010ffff"),
    *("<script>alert(1)</script>", "<b>", "&amp;", "%00", "%0d%0a", "../../etc/passwd", "~"),
    *("null", "true", "false", "None", "[]", "{}", "[[]]", '{"a": 1}', "id", "kind", "1979-05-27"),
    *("2026-02-30", "0000-00-00", "9999-12-31", "-1-01-01", "25:61:61", "2026-10-03T10:00:00Z"),
    *("x" * 70, "x" * 5000, "é" * 500, " " * 1000, "a b" * 300, "ß", "İ", "ı", "ŉ", "\u0130"),
    *("__proto__", "__class__", "constructor", "self", "' OR 1=1 --", "%s%n", "{0}", "{name}"),
)
NESTED: Final = (
    *("[" * 50, "[" * 5000, "{" * 500, '{"a":' * 5000, "(" * 2000, "[" * 900 + "]" * 900),
    *("a." * 900 + "b = 1", "[a." + "b." * 900 + "c]\n", "[[a]]\n" * 900, '"' * 999, "/*" * 99),
)
WIDE: Final = ("," * 500, ";" * 500, "\t" * 500, "|" * 500, ',"' * 500, "\n" * 500, "\r" * 99)
BYTES: Final = (
    *(b"\x00", b"\xff", b"\xfe\xff", b"\xff\xfe", b"\xef\xbb\xbf", b"\xed\xa0\x80", b"\xc0\x80"),
    *(b"\xf4\x90\x80\x80", b"\x80", b"\xe2\x82", b"PK\x03\x04", b"\x1f\x8b", b"PAR1", b"\x81\x40"),
)
_MARKS: Final = re.compile(rb"[^,;\t|\n\r=\"\[\]{}: ]+")
_LINE_ENDS: Final = (b"\n", b"\r\n", b"\r", b"\n\r", b"\n\n", b"\x0b", b"\xc2\x85", b"\xe2\x80")
_ENCODINGS: Final = ("utf-16", "utf-16-le", "utf-16-be", "utf-32", "cp1252", "cp932", "utf-7")
_ALL: Final = (*NUMBERS, *WORDS, *NESTED, *WIDE)
HOSTILE: Final = tuple(dict.fromkeys((*NUMBERS, *WORDS)))
"""What may be typed into one field."""


def spoilt(content: bytes, chance: Random, *, most: int = 4) -> bytes:
    """Return content with a few things in it spoilt."""
    for _ in range(chance.randint(1, most)):
        content = chance.choice(_WAYS)(content, chance)
    return content


def _value(chance: Random) -> bytes:
    if chance.random() < 0.15:
        return chance.choice(BYTES)
    return chance.choice(chance.choice((NUMBERS, NUMBERS, WORDS, WORDS, _ALL))).encode()


def _cell(content: bytes, chance: Random) -> bytes:
    """Put something else where a value, a heading or a key stands."""
    found = list(_MARKS.finditer(content))
    if not found:
        return content + _value(chance)
    one = chance.choice(found)
    return content[: one.start()] + _value(chance) + content[one.end() :]


def _grown(content: bytes, chance: Random) -> bytes:
    """Let a value grow by something."""
    place = chance.randint(0, len(content))
    return content[:place] + _value(chance) + content[place:]


def _moved(content: bytes, chance: Random) -> bytes:
    """Put one value where another stands."""
    found = list(_MARKS.finditer(content))
    if not found:
        return content
    one, other = chance.choice(found), chance.choice(found)
    return content[: one.start()] + other.group() + content[one.end() :]


def _cut(content: bytes, chance: Random) -> bytes:
    """Break off, as a copy that was not finished."""
    return content[: chance.randint(0, len(content))]


def _without(content: bytes, chance: Random) -> bytes:
    """Lose some bytes in the middle."""
    place = chance.randint(0, len(content))
    return content[:place] + content[place + chance.choice((1, 1, 2, 7, 40)) :]


def _twice(content: bytes, chance: Random) -> bytes:
    """Say some of it twice, or many times."""
    place = chance.randint(0, len(content))
    end = place + chance.choice((1, 10, 80))
    return content[:end] + content[place:end] * chance.choice((1, 2, 30)) + content[end:]


def _lines(content: bytes, chance: Random) -> bytes:
    """Swap, double or lose a line."""
    lines = content.split(b"\n")
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    way = chance.randint(0, 2)
    if way == 0:
        lines[one], lines[other] = lines[other], lines[one]
    elif way == 1:
        lines.insert(one, lines[other])
    else:
        del lines[one]
    return b"\n".join(lines)


def _ends(content: bytes, chance: Random) -> bytes:
    """End every line otherwise, or every one its own way."""
    parts = content.split(b"\n")
    mixed = chance.random() < 0.5
    end = chance.choice(_LINE_ENDS)
    made = parts[0]
    for part in parts[1:]:
        made += (chance.choice(_LINE_ENDS) if mixed else end) + part
    return made


def _bit(content: bytes, chance: Random) -> bytes:
    """Turn one bit over."""
    if not content:
        return content
    place = chance.randrange(len(content))
    turned = content[place] ^ (1 << chance.randint(0, 7))
    return content[:place] + bytes([turned]) + content[place + 1 :]


def _encoded(content: bytes, chance: Random) -> bytes:
    """Write it in another encoding."""
    text = content.decode("utf-8", "replace")
    return text.encode(chance.choice(_ENCODINGS), "replace")


_WAYS: Final[tuple[Callable[[bytes, Random], bytes], ...]] = (
    *(_cell, _cell, _cell, _grown, _moved, _moved, _cut, _without),
    *(_twice, _lines, _ends, _bit, _bit, _encoded),
)
