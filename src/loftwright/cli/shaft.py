"""`loftwright shaft`: what a shaft is, from readings on the bench and from the rack."""

from pathlib import Path
from typing import Annotated

import typer

from loftwright.cli.options import JsonFlag, example, quantity, show_help_alone
from loftwright.cli.output import emit_lines, emit_record
from loftwright.cli.shaft_rack import add_commands

_EXAMPLE = example(
    "loftwright shaft bench readings.csv --length 1168",
    "loftwright shaft bench readings.csv --length 46in --grip-mass 50 --grip-length 270 --json",
)

shaft = typer.Typer(rich_markup_mode=None)


@shaft.callback(invoke_without_command=True)
def _shaft(context: typer.Context) -> None:
    """Measure shafts, and ask the rack which one plays like which."""
    show_help_alone(context)


def register(app: typer.Typer) -> None:
    """Add the group."""
    app.add_typer(shaft, name="shaft")


@shaft.command(epilog=_EXAMPLE)
def bench(
    readings: Annotated[
        Path, typer.Argument(metavar="READINGS.csv", help="One row a reading, with its set-up.")
    ],
    length: Annotated[
        str | None,
        typer.Option(metavar="MM", help="Of the shaft, from butt to tip end."),
    ] = None,
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

    Nothing is left out: a strange reading is named, with its likely slip. Without --length, which
    weight, balance, frequency, torque and the tip need, it is told up to the last support.

    A loaded shaft can break: wear eye protection, tether the weight, load slowly, and keep head
    and hands out of the line of weight and shaft. One that creaks or cracks is loaded no more.
    """
    from loftwright.report.bench_words import shaft_lines  # noqa: PLC0415
    from loftwright.report.shaft_records import shaft_record  # noqa: PLC0415
    from loftwright.services.bench import Dressing, measure_file  # noqa: PLC0415

    dressing = Dressing(
        grip_mass=quantity(grip_mass, "g", "--grip-mass"),
        grip_length=quantity(grip_length, "mm", "--grip-length"),
        sleeve_mass=quantity(sleeve_mass, "g", "--sleeve-mass"),
        sleeve_length=quantity(sleeve_length, "mm", "--sleeve-length"),
        sleeve_balance=quantity(sleeve_balance, "mm", "--sleeve-balance"),
    )
    told = None if length is None else quantity(length, "mm", "--length")
    found = measure_file(readings, told, dressing)
    if as_json:
        emit_record(shaft_record(found.measured, found.lines, whole=found.whole))
    else:
        emit_lines(shaft_lines(found.measured, found.lines, whole=found.whole))


add_commands(shaft)
