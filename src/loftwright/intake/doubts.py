"""What a table leaves open: a question, three sample rows and the option that settles it."""

import shlex
from dataclasses import dataclass

from loftwright.errors import IntakeError


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """One question that must be settled before a table can be read.

    Attributes
    ----------
    column : str
        Heading of the column; empty where the whole table is meant.
    question : str
        What is not clear.
    samples : tuple of (int, str)
        Up to three rows: line of the file and what stands there.
    options : tuple of str
        Texts that settle it, such as ``--column "Col A=ball speed[mph]"``.
    """

    column: str
    question: str
    samples: tuple[tuple[int, str], ...] = ()
    options: tuple[str, ...] = ()

    def __str__(self) -> str:
        rows = "; ".join(f"row {row}: {value!r}" for row, value in self.samples)
        ways = "  or  ".join(self.options)
        lines = [self.question]
        if rows:
            lines.append(f"  {rows}")
        if ways:
            lines.append(f"  settle it by  {ways}")
        return "\n".join(lines)


class DoubtsError(IntakeError):
    """A table that can be read in more than one way.

    Parameters
    ----------
    doubts : tuple of Doubt
        Every question found.
    place : str
        The file.
    """

    def __init__(self, doubts: tuple[Doubt, ...], *, place: str) -> None:
        listed = "\n".join(f"{number}. {doubt}" for number, doubt in enumerate(doubts, start=1))
        count = "one question is" if len(doubts) == 1 else f"{len(doubts)} questions are"
        super().__init__(
            f"{count} open:\n{listed}",
            place=place,
            mend="\nGive the option that is right; nothing was read and the file is as it was.",
        )
        self.doubts = doubts


def quoted_option(name: str, text: str) -> str:
    """Return an option as it is typed on a command line."""
    plain = not set(text) & set('"$`\\!')
    return f'{name} "{text}"' if plain else f"{name} {shlex.quote(text)}"


def samples_of(rows: list[int], values: list[str]) -> tuple[tuple[int, str], ...]:
    """Return the first three rows that hold something, with what they hold."""
    held = [(row, value[:60]) for row, value in zip(rows, values, strict=True) if value.strip()]
    return tuple(held[:3])
