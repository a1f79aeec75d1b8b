"""Marks told in words: where on the face, and how far off such a word may be.

The figures are judgements: a face is some 90 mm by 50 mm, and a fitter who says *toe* means
about a third of it, *slightly* the near edge of that third and *far* its outer edge. A third of
30 mm, anywhere in which the mark may lie, has a standard deviation of some 6 to 9 mm (width over
the root of 12, and the choice of third besides).
"""

import difflib
import re
from types import MappingProxyType
from typing import Final

from loftwright.constants import MILLIMETRE
from loftwright.domain.fitting import Mark
from loftwright.errors import InputError

WORDS: Final = MappingProxyType(
    {
        "middle": (0.0, 0.0, 5.0),
        "toe": (14.0, 0.0, 6.0),
        "slightly toe": (7.0, 0.0, 5.0),
        "far toe": (25.0, 0.0, 8.0),
        "heel": (-14.0, 0.0, 6.0),
        "slightly heel": (-7.0, 0.0, 5.0),
        "far heel": (-25.0, 0.0, 8.0),
        "high": (0.0, 8.0, 6.0),
        "slightly high": (0.0, 4.0, 5.0),
        "far high": (0.0, 15.0, 8.0),
        "low": (0.0, -8.0, 6.0),
        "slightly low": (0.0, -4.0, 5.0),
        "far low": (0.0, -15.0, 8.0),
        "thin": (0.0, -11.0, 6.0),
        "topped": (0.0, -18.0, 8.0),
        "skied": (0.0, 18.0, 8.0),
        "hosel": (-34.0, 0.0, 8.0),
    }
)
"""Towards the toe, up, and standard error one way, each in millimetres, by what is said."""

_ALIKE: Final = MappingProxyType(
    {
        "centre": "middle",
        "center": "middle",
        "flush": "middle",
        "top": "topped",
        "sky": "skied",
        "shank": "hosel",
        "shanked": "hosel",
        "very": "far",
        "bit": "slightly",
        "little": "slightly",
        "slight": "slightly",
    }
)
_FILLERS: Final = frozenset({"and", "a", "of", "the"})
_HOW_FAR: Final = frozenset({"slightly", "far"})


def coarse_mark(said: str) -> Mark:
    """Return the mark that words stand for.

    Parameters
    ----------
    said : str
        One or two of `WORDS`, such as *toe*, *toe-high*, *slightly heel and low*, *thin*.

    Returns
    -------
    Mark
        With the error of the vaguer word and the words as they were said.

    Raises
    ------
    InputError
        If a word is not known, or two contradict each other.
    """
    places = [WORDS[phrase] for phrase in _phrases(said)]
    toes = [toe for toe, _, _ in places if toe]
    highs = [high for _, high, _ in places if high]
    if not places or len(toes) > 1 or len(highs) > 1 or (len(places) > 1 and not (toes and highs)):
        raise InputError(
            f"{said.strip()[:40]!r} is no one place on the face",
            place="mark",
            mend="Say one of toe and heel, one of high and low, or middle.",
        )
    return Mark(
        toe=sum(toes) * MILLIMETRE,
        high=sum(highs) * MILLIMETRE,
        error=max(error for _, _, error in places) * MILLIMETRE,
        words=" ".join(said.split()),
    )


def is_coarse_word(word: str) -> bool:
    """Return whether a word, or one joined to it by a hyphen, may tell a mark."""
    return all(_known(part) or part in _FILLERS for part in _parts(word)) and bool(_parts(word))


def _parts(text: str) -> list[str]:
    return [_ALIKE.get(part, part) for part in re.split(r"[\s,/+-]+", text.casefold()) if part]


def _known(word: str) -> bool:
    return word in WORDS or word in _HOW_FAR


def _phrases(said: str) -> list[str]:
    """Return the entries of the table that are said, a word of how far joined to what follows."""
    phrases = []
    how_far = ""
    for word in _parts(said[:80]):
        if word in _FILLERS:
            continue
        if not _known(word):
            raise _unknown(word)
        if word in _HOW_FAR:
            how_far = word
            continue
        phrases.append(f"{how_far} {word}".strip())
        how_far = ""
    if how_far and phrases:
        phrases[-1] = f"{how_far} {phrases[-1]}"
    return [phrase if phrase in WORDS else phrase.split()[-1] for phrase in phrases]


def _unknown(word: str) -> InputError:
    plain = [name for name in WORDS if " " not in name]
    near = difflib.get_close_matches(word, [*plain, *_ALIKE], n=1, cutoff=0.6)
    hint = f"Did you mean {near[0]}? " if near else ""
    return InputError(
        f"{word[:40]!r} says nothing about a place on the face",
        place="mark",
        mend=f"{hint}Say {', '.join(plain)}, with slightly or far before it.",
    )
