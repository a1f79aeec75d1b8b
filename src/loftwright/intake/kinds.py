"""Tells a driver from an iron by the words of a club's label."""

import re
from typing import Final

from loftwright.intake.words import strip_accents

DRIVER: Final = "driver"
_KINDS: Final = (
    (
        DRIVER,
        r"\b(driver|1[ -]?w(ood)?|w[ -]?1|wood 1|holz 1|bois 1|madera 1|legno 1)\b"
        r"|ドライバー|드라이버",
    ),
    ("putter", r"\bputter\b|パター|퍼터"),
    (
        "wedge",
        r"\b(wedge|[psglau]w|(4[4-9]|5[0-9]|6[0-4]) ?(°|deg))(?!\w)"
        r"|ウェッジ|웨지",
    ),
    (
        "hybrid",
        r"\b(hybrid|hybride|rescue|[2-7][ -]?hy?|hy?[ -]?[2-7]|utility|hibrido|ibrido)\b"
        r"|하이브리드",
    ),
    (
        "fairway wood",
        r"\b(fairway( wood)?|[2-9][ -]?w(ood)?|w[ -]?[2-9]|wood [2-9]|holz [2-9]|[2-9]er holz"
        r"|bois [2-9]|madera [2-9]|legno [2-9])\b",
    ),
    (
        "iron",
        r"\b([1-9][ -]?i(ron)?s?|i[ -]?[1-9]|iron [1-9]|irons?|eisen ?[1-9]|[1-9]er eisen|eisen"
        r"|fer [1-9]|hierro [1-9]|ferro [1-9]|jarn ?[1-9]|[1-9]a? jarn|ijzer ?[1-9])\b"
        r"|아이언|アイアン",
    ),
)
_PATTERNS: Final = tuple((kind, re.compile(pattern)) for kind, pattern in _KINDS)


def club_kind(label: str) -> str:
    """Return what kind of club a label speaks of (`driver`, `iron`, ...), or nothing.

    Parameters
    ----------
    label : str
        The club as the file calls it.
    """
    plain = " ".join(re.sub(r"[_]+", " ", strip_accents(label)).split())
    for kind, pattern in _PATTERNS:
        if pattern.search(plain):
            return kind
    return ""
