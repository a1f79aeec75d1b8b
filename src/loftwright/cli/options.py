"""Options that several commands share, and how their words become SI values."""

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from loftwright.units import parse_quantity

if TYPE_CHECKING:
    from loftwright.domain.home import Home


class Golfer(StrEnum):
    """What golfer: how fast and how steadily they swing."""

    TOUR = "tour"
    LOW = "low"
    MID = "mid"
    HIGH = "high"
    SENIOR = "senior"


class Hand(StrEnum):
    """The golfer's hand."""

    RIGHT = "right"
    LEFT = "left"


class Units(StrEnum):
    """What figures are told in."""

    TRADE = "trade"
    METRIC = "metric"


class DecimalMark(StrEnum):
    """What parts a figure's decimals."""

    POINT = "point"
    COMMA = "comma"


WRONG_USE: Final = 2
JsonFlag = Annotated[bool, typer.Option("--json", help="Print one JSON object instead.")]
DataOption = Annotated[
    Path | None,
    typer.Option(metavar="DIR", help="The studio's data folder; the usual one without it."),
]


def quantity(text: str, unit: str, option: str) -> float:
    """Return the SI value of an option given in its trade unit or with a unit of its own."""
    return parse_quantity(text, unit, place=option)


def home_of(path: Path) -> "Home":
    """Return the home course in a file."""
    from loftwright.intake.toml_files import read_home  # noqa: PLC0415 - only for files

    return read_home(path)


def example(*commands: str) -> str:
    """Return the lines under a command's help that show how it is used."""
    return "\b\n" + "\n".join(("Example:", *(f"  {command}" for command in commands)))


def show_help_alone(context: typer.Context) -> None:
    """Show the help of a group when no command of it was named, and end as wrong use."""
    if context.invoked_subcommand is None:
        typer.echo(context.get_help(), err=True)
        raise typer.Exit(WRONG_USE)
