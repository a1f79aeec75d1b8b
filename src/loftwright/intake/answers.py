"""Answers to what a table leaves open, written as options of the command line."""

import shlex
from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from loftwright.errors import InputError
from loftwright.intake.options import ReadOptions

_LONGEST: Final = 10_000
"""Letters of an answer; parting one into words takes a time that grows with their square."""
_MOST_DIGITS: Final = 9
"""Of the number of a line."""


def answered(option: str, options: ReadOptions) -> ReadOptions | None:
    """Return the options with one answer in them, or None if it settles nothing.

    Parameters
    ----------
    option : str
        Such as ``--column "Col A=ball speed[mph]"``.
    options : ReadOptions
        As they stand.
    """
    try:
        name, *rest = shlex.split(option) if len(option) <= _LONGEST else [""]
    except ValueError:
        name, rest = "", []
    value = " ".join(rest)
    if value and name == "--column":
        return replace(options, columns=(*options.columns, value))
    if value and name == "--only":
        return replace(options, only=(*options.only, value))
    if value and name == "--club-column":
        return replace(options, club_column=value)
    if value.isdecimal() and len(value) <= _MOST_DIGITS and name == "--not-ours":
        return replace(options, not_ours=(*options.not_ours, int(value)))
    return None


def all_answered(answers: Iterable[str], options: ReadOptions) -> ReadOptions:
    """Return the options with several answers in them.

    Raises
    ------
    InputError
        If one of them settles nothing.
    """
    for answer in answers:
        settled = answered(answer, options)
        if settled is None:
            raise InputError(
                f"{answer!r} settles nothing",
                place="answers",
                mend='Choose one of the ways, or write --column "Col A=ball speed[mph]".',
            )
        options = settled
    return options
