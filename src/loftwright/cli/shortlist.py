"""`loftwright shortlist`: what to try for a golfer before a ball is hit."""

from pathlib import Path
from typing import Annotated

import typer

from loftwright.cli.options import JsonFlag, example
from loftwright.cli.output import emit_lines, emit_record

_EXAMPLE = example(
    "loftwright shortlist --golfer golfer.toml",
    "loftwright shortlist --golfer golfer.toml --rack rack.json --json",
)


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(shortlist)


def shortlist(
    golfer: Annotated[
        Path, typer.Option(metavar="GOLFER.toml", help="Head speed, wish, loading and own club.")
    ],
    rack: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="A rack file instead of the data folder's rack."),
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Name the levers and the measured shafts to try, before a ball is hit.

    Length, loft, head, weight and grip come before the shaft. What a shaft will do is a weak guess
    from a model of the swing, and says so.
    """
    from loftwright.intake.golfer_file import read_golfer  # noqa: PLC0415
    from loftwright.report.shortlist_words import (  # noqa: PLC0415
        shortlist_lines,
        shortlist_record,
    )
    from loftwright.services.rack_source import rack_of  # noqa: PLC0415
    from loftwright.services.shortlist import list_for_file  # noqa: PLC0415

    told = read_golfer(golfer)
    with rack_of(rack) as studio:
        found = list_for_file(studio, told)
    if as_json:
        emit_record(shortlist_record(found))
    else:
        emit_lines(shortlist_lines(found))
