"""The short code on a piece's label: typed or scanned, its last sign a check."""

from collections.abc import Iterable
from hashlib import sha256
from typing import Final

from loftwright.errors import InputError

ALPHABET: Final = "23456789ABCDEFGHJKMNPQRSTWXYZ"
"""Signs that are not taken for one another; their number, 29, is a prime."""

_BODY: Final = 8
_GROUP: Final = 3
_SHOWN: Final = 40


def code_of(piece: str) -> str:
    """Return the code of a piece's label, three groups of three signs.

    Notes
    -----
    It is the beginning of the SHA-256 of the piece's id, so that it never changes and nothing has
    to be kept; two of 10 000 pieces share one with a chance of 1 in 10 000. The last sign is a
    weighted sum modulo the prime 29: one wrong sign, or two neighbours swapped, never stay unseen.
    """
    number = int.from_bytes(sha256(piece.encode()).digest()[:16], "big")
    signs = []
    for _ in range(_BODY):
        number, place = divmod(number, len(ALPHABET))
        signs.append(ALPHABET[place])
    whole = "".join(signs) + _check(signs)
    return "-".join(whole[start : start + _GROUP] for start in range(0, len(whole), _GROUP))


def read_code(text: str) -> str:
    """Return a code as it was typed or scanned in its own form.

    Raises
    ------
    InputError
        If it is none, or a sign of it was misread.
    """
    signs = [sign for sign in text.upper() if sign not in "- \t"]
    if len(signs) != _BODY + 1 or any(sign not in ALPHABET for sign in signs):
        raise InputError(
            f"{text[:_SHOWN]!r} is no label’s code",
            place="code",
            mend="Give its nine signs, such as 7KQ-4MX-9TR.",
        )
    if _check(signs[:_BODY]) != signs[_BODY]:
        raise InputError(
            f"a sign of {text[:_SHOWN]!r} was misread",
            place="code",
            mend="Look at the label again, sign by sign.",
        )
    whole = "".join(signs)
    return "-".join(whole[start : start + _GROUP] for start in range(0, len(whole), _GROUP))


def piece_of(code: str, pieces: Iterable[str]) -> str:
    """Return the id of the piece that bears a code.

    Raises
    ------
    InputError
        If it is no code, or none or several of these pieces bear it.
    """
    wanted = read_code(code)
    found = [piece for piece in pieces if code_of(piece) == wanted]
    if len(found) != 1:
        raise InputError(
            f"no part here bears the label {wanted}"
            if not found
            else f"{len(found)} parts bear the label {wanted}",
            place="code",
            mend="It may belong to another shop; look for the part by its words."
            if not found
            else "Look for the part by its words.",
        )
    return found[0]


def _check(signs: list[str]) -> str:
    total = sum((place + 2) * ALPHABET.index(sign) for place, sign in enumerate(signs))
    return ALPHABET[total % len(ALPHABET)]
