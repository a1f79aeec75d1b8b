"""Text in a cell of a table that no table program takes for a formula.

References
----------
OWASP ASVS 5.0, 1.2.10, and "CSV Injection" (the latter from memory): a cell that begins with = + -
@, a tab, a line end or U+0000, or with one of the first four at full width, may be run; an
apostrophe before it makes it text.
RFC 4180: cells with commas, quotation marks or line breaks are quoted, which the writer does.
"""

import re
from typing import Final

_RUN: Final = tuple("=+-@\t\r\n\0\uff1d\uff0b\uff0d\uff20")
_NUMBER: Final = re.compile(r"[+-]?\d+(?:[.,]\d+)?(?:[eE][+-]?\d+)?")
_SHIELD: Final = "'"


def harmless(text: str) -> str:
    """Return a text so that a table program shows it and runs nothing.

    Parameters
    ----------
    text : str
        Of a cell; a plain number stays as it is, and a line ends by a line feed alone: the writer
        of Python 3.11 quotes no lone carriage return, and the cell would break in two.
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    bare = text.lstrip(_SHIELD)
    risky = bare.startswith(_RUN) or bare.lstrip().startswith(_RUN)
    return _SHIELD + text if risky and not _NUMBER.fullmatch(text) else text


def as_typed(cell: str) -> str:
    """Return the text that `harmless` made a cell of; any other cell as it is."""
    text = cell[1:]
    return text if cell.startswith(_SHIELD) and harmless(text) == cell else cell
