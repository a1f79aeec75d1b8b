"""Plain lines for a terminal of 80 columns: facts, tables, notes and graduated rules."""

from collections.abc import Iterable, Sequence
from textwrap import wrap
from typing import Final

WIDTH: Final = 80
INDENT: Final = "  "


def facts(rows: Sequence[tuple[str, str]]) -> list[str]:
    """Return named figures one below the other."""
    widest = max((len(name) for name, _ in rows), default=0)
    return [f"{INDENT}{name:<{widest}}  {figure}" for name, figure in rows]


def paragraph(text: str, indent: str = "", hanging: str | None = None) -> list[str]:
    """Return a text in lines of the terminal's width."""
    return wrap(
        text,
        width=WIDTH,
        initial_indent=indent,
        subsequent_indent=indent if hanging is None else hanging,
        break_long_words=False,
        break_on_hyphens=False,
    )


def notes(texts: Iterable[str], heading: str = "Mind:") -> list[str]:
    """Return warnings under their heading, or nothing when there are none."""
    lines = [line for text in texts for line in paragraph(_said(text), INDENT, INDENT * 2)]
    return ["", heading, *lines] if lines else []


def table(
    headings: Sequence[str], rows: Sequence[Sequence[str]], left: Sequence[int] = (0,)
) -> list[str]:
    """Return a table: a heading, then the rows; columns named in `left` start at the left.

    Parameters
    ----------
    headings : sequence of str
        One a column.
    rows : sequence of sequences of str
    left : sequence of int
        Numbers of the columns of words; figures end at the right.
    """
    cells = [list(headings), *(list(row) for row in rows)]
    widths = [max(len(row[column]) for row in cells) for column in range(len(headings))]
    return [
        INDENT
        + INDENT.join(
            cell.ljust(widths[column]) if column in left else cell.rjust(widths[column])
            for column, cell in enumerate(row)
        ).rstrip()
        for row in cells
    ]


def _said(text: str) -> str:
    """Return a text as a sentence: a capital at its head and a point at its end."""
    sentence = text[:1].upper() + text[1:]
    return sentence if sentence.endswith((".", "!", "?", ":")) else f"{sentence}."
