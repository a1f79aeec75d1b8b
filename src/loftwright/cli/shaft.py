"""`loftwright shaft`: what a shaft is, from a table of bench readings."""

from pathlib import Path
from typing import Annotated

import typer

from loftwright.cli.options import JsonFlag, example, quantity
from loftwright.cli.output import emit_lines, emit_record

_EXAMPLE = example(
    "loftwright shaft readings.csv --length 1143",
    "loftwright shaft readings.csv --length 45in --grip-mass 50 --grip-length 270 --json",
)


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(shaft)


def shaft(
    readings: Annotated[
        Path, typer.Argument(metavar="READINGS.csv", help="One row a reading, with its set-up.")
    ],
    length: Annotated[str, typer.Option(metavar="MM", help="Of the shaft, from butt to tip end.")],
    grip_mass: Annotated[
        str, typer.Option(metavar="G", help="Of a grip that is on, with its tape.")
    ] = "0",
    grip_length: Annotated[
        str, typer.Option(metavar="MM", help="How far down the shaft it reaches.")
    ] = "0",
    sleeve_mass: Annotated[str, typer.Option(metavar="G", help="Of a sleeve that is on.")] = "0",
    sleeve_length: Annotated[
        str, typer.Option(metavar="MM", help="How much of the tip it makes rigid.")
    ] = "0",
    sleeve_balance: Annotated[
        str,
        typer.Option(metavar="MM", help="Its balance point from the tip end, to the butt +."),
    ] = "0",
    as_json: JsonFlag = False,
) -> None:
    """Say what a shaft is along its length, what was not read, and which reading looks wrong.

    Nothing is left out: a strange reading is named, with its likely slip.
    """
    from loftwright.report.bench_words import shaft_lines, shaft_record  # noqa: PLC0415
    from loftwright.services.bench import Dressing, measure_file  # noqa: PLC0415

    dressing = Dressing(
        grip_mass=quantity(grip_mass, "g", "--grip-mass"),
        grip_length=quantity(grip_length, "mm", "--grip-length"),
        sleeve_mass=quantity(sleeve_mass, "g", "--sleeve-mass"),
        sleeve_length=quantity(sleeve_length, "mm", "--sleeve-length"),
        sleeve_balance=quantity(sleeve_balance, "mm", "--sleeve-balance"),
    )
    found = measure_file(readings, quantity(length, "mm", "--length"), dressing)
    lines = [row.line for row in found.table.rows]
    if as_json:
        emit_record(shaft_record(found.measured, lines))
    else:
        emit_lines(shaft_lines(found.measured, lines))
