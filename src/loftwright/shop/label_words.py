"""What the words printed on a shaft say it does."""

import re
from dataclasses import dataclass
from typing import Final

_SAYS: Final = re.compile(r"(?<!mid)(?<!mid[ -])\b(low|high)(?:er)?[ -]+(launch|spin)")
_STIFF: Final = re.compile(
    r"\b(?:(ladies|l)|(senior|a)|(regular|r)|(stiff|s)|(x|tx))\b|\b(extra[ -]stiff)\b"
)
_EXTRA: Final = re.compile(r"\bextra[ -]stiff\b")


@dataclass(frozen=True, slots=True, kw_only=True)
class Says:
    """A printed claim: less or more of a launch number than other shafts give.

    Attributes
    ----------
    response : str
    sign : int
        -1 for less, 1 for more.
    words : str
        As printed.
    """

    response: str
    sign: int
    words: str


def said_by(label: str) -> tuple[Says, ...]:
    """Return what a label claims of launch and spin."""
    return tuple(
        Says(
            response=found.group(2),
            sign=-1 if found.group(1) == "low" else 1,
            words=found.group(0),
        )
        for found in _SAYS.finditer(label.casefold())
    )


def stiffness_by(label: str) -> int | None:
    """Return how stiff a label says a shaft is, from 0; None where it does not say.

    Notes
    -----
    Ladies, senior, regular, stiff and extra stiff, or L, A, R, S and X (common practice, no
    source). A label that says two of them says nothing.
    """
    text = label.casefold()
    told = {4} if _EXTRA.search(text) else set()
    for found in _STIFF.finditer(_EXTRA.sub(" ", text)):
        told.add(next(step for step, word in enumerate(found.groups()) if word))
    return told.pop() if len(told) == 1 else None
