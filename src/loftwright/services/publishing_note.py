"""The one line that a person may add to a comparison: no claim, no figure, no name."""

import re
from collections.abc import Iterable
from typing import Final

from loftwright.errors import InputError

LONGEST: Final = 90

_CLAIMS: Final = re.compile(
    r"\b(longer|longest|farther|farthest|further|furthest|better|best|straighter|straightest"
    r"|faster|fastest|higher|highest|lower|lowest|greater|greatest|superior|inferior|worse|worst"
    r"|winner|winners|winning|wins?|won|beats?|beaten|outperforms?|leads?|leading|leader"
    r"|number one|top|most|least|more|less|guaranteed?|proven|perfect|ultimate|unbeatable|gains?"
    r"|adds? (?:yards|metres|distance|speed))\b",
    re.IGNORECASE,
)
_MADE_UP: Final = re.compile(r"\w{2,}(?:est|iest)\b", re.IGNORECASE)
_NO_CLAIM: Final = frozenset({"test", "rest", "interest", "request", "west", "latest", "honest"})


def checked_note(text: str, names: Iterable[str]) -> str:
    """Return a note that may stand under a comparison.

    Parameters
    ----------
    text : str
    names : iterable of str
        Of golfers, bays, devices and whoever else is not to be named.

    Raises
    ------
    InputError
        If it claims, counts or names.
    """
    note = " ".join(text.split())
    if len(note) > LONGEST:
        raise InputError(
            f"a note of {len(note)} letters is too long",
            place="note",
            mend=f"Write {LONGEST} at most.",
        )
    claim = _CLAIMS.search(note) or next(
        (word for word in _MADE_UP.finditer(note) if word.group().lower() not in _NO_CLAIM), None
    )
    if claim is not None:
        raise InputError(
            f"a note does not say “{claim.group()}”: figures with their ranges say what differs",
            place="note",
            mend="Say how the comparison was made, and nothing of which model is ahead.",
        )
    if any(letter.isdigit() for letter in note):
        raise InputError(
            "a note holds no figures or days",
            place="note",
            mend="Leave them out; figures stand in the picture with their ranges.",
        )
    for name in names:
        for word in {name.strip(), *name.split()}:
            if len(word) > 1 and re.search(
                rf"(?<!\w){re.escape(word)}(?!\w)", note, re.IGNORECASE
            ):
                raise InputError(
                    "a note names nobody, and no bay or device",
                    place="note",
                    mend=f"Leave “{word}” out.",
                )
    return note
