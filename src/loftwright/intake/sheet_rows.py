"""Reads a paper sheet that is typed in later, its balls in the order in which they were hit.

One line a ball, as it stands on the sheet: its number there, the club, the numbers, the mark::

    after 17
    18 elm 148.2 12.1 2510 -2 8 mark toe-high
    19 147.5 11.8 2600 1 -3 mark 5t 3h
    20 unread
    after 23
    21 birch 149 - 2450

A line ``after 17`` says after which ball of the record the lines below it were hit; ``first``
that they came before all, and without either they came last. A ball whose line names no club was
hit with the club of the line above.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from loftwright.domain.fitting import MARK_ERROR
from loftwright.errors import IntakeError
from loftwright.intake.line import TypedBall, ball_from_line
from loftwright.intake.line_order import WORDS, LineOrder

MOST_ROWS: Final = 200
_AFTER: Final = re.compile(r"after\s+(?:ball\s+)?(\d{1,5})[:.]?", re.IGNORECASE)
_FIRST: Final = re.compile(r"first[:.]?", re.IGNORECASE)
_BALL: Final = re.compile(r"(\d{1,3})[.:)]?(?:\s+(.*))?")
_NAMED: Final = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetBall:
    """A ball of the sheet and its place among the balls of the record.

    Attributes
    ----------
    number : int
        On the sheet.
    ball : TypedBall
        What was written, its key made of sheet and number.
    after : int, optional
        Number, as pages show it, of the ball of the record it was hit after; 0 before the
        first, None after the last.
    """

    number: int
    ball: TypedBall
    after: int | None = None


class SheetError(IntakeError):
    """A sheet with lines that are not understood.

    Parameters
    ----------
    errors : tuple of IntakeError
        One for each of these lines.
    """

    def __init__(self, errors: tuple[IntakeError, ...]) -> None:
        more = f"\nand {len(errors) - _NAMED} more" if len(errors) > _NAMED else ""
        listed = "\n".join(str(error) for error in errors[:_NAMED])
        count = "one line is" if len(errors) == 1 else f"{len(errors)} lines are"
        super().__init__(
            f"{count} not understood:\n{listed}{more}",
            place="sheet",
            mend="\nMend these lines; nothing was taken and the others stay as they are.",
        )
        self.errors = errors


def balls_from_sheet(
    text: str,
    order: LineOrder,
    *,
    sheet: str,
    clubs: Sequence[str] = (),
    mark_error: float = MARK_ERROR,
) -> tuple[SheetBall, ...]:
    """Return the balls of a sheet in the order in which they were hit.

    Parameters
    ----------
    text : str
        Its lines.
    order : LineOrder
        What plain numbers mean, and their units.
    sheet : str
        The sheet's own name: typed in twice, a ball has the same key and counts once.
    clubs : sequence of str
        The fitting's clubs.
    mark_error : float
        Error of a mark in millimetres, one way [m].

    Returns
    -------
    tuple of SheetBall
        Those of one place by their numbers on the sheet, in whatever order they were typed.

    Raises
    ------
    SheetError
        With every line that is not understood; nothing is taken.
    IntakeError
        If there is no line, or there are too many.
    """
    lines = [(place, line.strip()) for place, line in enumerate(text.splitlines(), start=1)]
    held = [(place, line) for place, line in lines if line]
    if not held or len(held) > MOST_ROWS:
        raise IntakeError(
            f"a sheet of {len(held)} lines cannot be read",
            place="sheet",
            mend=f"Type one line a ball, {MOST_ROWS} at most.",
        )
    sheets = _Sheet(order, sheet, clubs, mark_error)
    for place, line in held:
        sheets.take(place, line)
    if sheets.errors:
        raise SheetError(tuple(sheets.errors))
    return sheets.in_order()


def line_of_cells(cells: Mapping[str, str]) -> str:
    """Return the line that stands for cells of a form.

    Parameters
    ----------
    cells : mapping of str to str
        By word: ``ball``, ``club``, ``mark``, ``read``, or a word of the column list; blank
        cells say nothing.

    Raises
    ------
    IntakeError
        If a cell has a name that no line has.
    """
    spoken = {means.replace(" ", "_"): word for word, means in reversed(tuple(WORDS.items()))}
    said = {name: " ".join(cell.split()) for name, cell in cells.items() if cell.strip()}
    words = [said.pop("ball", "")]
    words += [f"{name} {said.pop(name)}" for name in ("club", "mark") if name in said]
    if said.pop("read", "yes").casefold() in {"no", "unread", "false"}:
        words.append("unread")
    for name, cell in said.items():
        word = spoken.get(name.replace(" ", "_"))
        if word is None:
            raise IntakeError(
                f"a sheet has no {name!r}",
                place=name,
                mend=f"There are ball, club, mark, read, {', '.join(spoken)}.",
            )
        words.append(f"{word} {cell}")
    return " ".join(word for word in words if word)


class _Sheet:
    """Takes the lines of a sheet one by one."""

    def __init__(
        self, order: LineOrder, sheet: str, clubs: Sequence[str], mark_error: float
    ) -> None:
        self.order, self.sheet, self.clubs, self.mark_error = order, sheet, clubs, mark_error
        self.after: int | None = None
        self.blocks: list[list[SheetBall]] = [[]]
        self.seen: dict[int, int] = {}
        self.club = ""
        self.errors: list[IntakeError] = []

    def take(self, place: int, line: str) -> None:
        """Take one line in, or note what is wrong with it."""
        after = _AFTER.fullmatch(line)
        if after is not None or _FIRST.fullmatch(line):
            self.after = int(after[1]) if after is not None else 0
            self.blocks.append([])
            return
        try:
            self.blocks[-1].append(self._ball(place, line))
        except IntakeError as error:
            word = f", {error.place}" if error.place.startswith("word") else ""
            self.errors.append(
                IntakeError(f"{error.message}.", place=f"line {place}{word}", mend=error.mend)
            )

    def in_order(self) -> tuple[SheetBall, ...]:
        """Return the balls, within one place by their numbers."""
        ordered = [sorted(block, key=lambda ball: ball.number) for block in self.blocks]
        return tuple(ball for block in ordered for ball in block)

    def _ball(self, place: int, line: str) -> SheetBall:
        match = _BALL.fullmatch(line)
        if match is None:
            raise IntakeError(
                f"{line.split(maxsplit=1)[0][:40]!r} is no ball's number",
                mend="Begin with the number on the sheet, as in 18 elm 148.2, or write after 17.",
            )
        number = int(match[1])
        if number in self.seen:
            raise IntakeError(
                f"ball {number} stands in line {self.seen[number]} already",
                mend="Give each ball the number it has on the sheet.",
            )
        self.seen[number] = place
        ball = ball_from_line(
            match[2] or "",
            self.order,
            key=f"sheet {self.sheet} ball {number}",
            clubs=self.clubs,
            mark_error=self.mark_error,
        )
        self.club = ball.shot.club or self.club
        # A line that was not understood may have named it.
        if not (self.club or self.errors):
            raise IntakeError(
                f"ball {number} names no club, nor does a line above it",
                mend=f"Write it after the number: {number} {(*self.clubs, 'Elm')[0]}.",
            )
        shot = replace(ball.shot, club=self.club, line=line)
        return SheetBall(number=number, ball=replace(ball, shot=shot), after=self.after)
