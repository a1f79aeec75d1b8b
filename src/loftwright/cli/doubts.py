"""Asks a person at a terminal what a table leaves open."""

from collections.abc import Iterable

import typer

from loftwright.intake.answers import answered
from loftwright.intake.doubts import Doubt
from loftwright.intake.options import ReadOptions


def settle(doubts: Iterable[Doubt], options: ReadOptions) -> ReadOptions:
    """Ask each question and return the options with the answers in them.

    Parameters
    ----------
    doubts : iterable of Doubt
    options : ReadOptions
        As they stand.

    Returns
    -------
    ReadOptions
    """
    for doubt in doubts:
        typer.echo(f"\n{doubt.question}", err=True)
        for row, value in doubt.samples:
            typer.echo(f"  row {row}: {value}", err=True)
        for number, way in enumerate(doubt.options, start=1):
            typer.echo(f"  {number}  {way}", err=True)
        options = _asked(doubt, options)
    return options


def _asked(doubt: Doubt, options: ReadOptions) -> ReadOptions:
    """Ask until the answer settles something."""
    while True:
        answer = str(typer.prompt("Which number, or an option of your own", err=True))
        settled = answered(_chosen(answer, doubt), options)
        if settled is not None:
            return settled
        typer.echo(
            f"{answer!r} settles nothing. Give a number of the list, or an option such as "
            '--column "Col A=ball speed[mph]".',
            err=True,
        )


def _chosen(answer: str, doubt: Doubt) -> str:
    text = answer.strip()
    if text.isdigit() and 1 <= int(text) <= len(doubt.options):
        return doubt.options[int(text) - 1]
    return text
