"""`loftwright export`: a golfer, or the whole shop, as open files."""

from pathlib import Path
from typing import Annotated, Final

import typer

from loftwright.cli.options import DataOption, JsonFlag, example
from loftwright.cli.output import emit_lines, emit_record

_EXPORT: Final = example(
    'loftwright export "Ottoline Brambleby" --to copy', "loftwright export --to whole-shop --json"
)


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXPORT)(export)


def export(
    to: Annotated[
        Path,
        typer.Option(metavar="DIR", help="A folder that is not there yet, or an empty one."),
    ],
    golfer: Annotated[
        str,
        typer.Argument(metavar="[GOLFER]", help="A name or id; the whole shop without it."),
    ] = "",
    results: Annotated[
        bool,
        typer.Option(
            "--with-results", help="Compare clubs and print reports for a whole shop too."
        ),
    ] = False,
    data: DataOption = None,
    as_json: JsonFlag = False,
) -> None:
    """Copy what is kept of a golfer, or of the whole shop, into open files with a README.

    Limits of a day and that somebody was in pain are in no copy, nor is any key.
    """
    from loftwright.services.exporting import export_golfer, export_shop  # noqa: PLC0415
    from loftwright.services.golfer_named import golfer_named  # noqa: PLC0415
    from loftwright.services.opening import open_known_studio  # noqa: PLC0415

    studio = open_known_studio(data)
    try:
        if golfer:
            copied = export_golfer(studio, golfer_named(studio, golfer).golfer.id, to)
        else:
            copied = export_shop(studio, to, results=results)
    finally:
        studio.store.close()
    if as_json:
        emit_record({"to": str(to), "files": copied.files, "bytes": copied.bytes})
        return
    emit_lines([f"Copied {copied.files} files to {to}.", f"Begin with {to / 'README.txt'}."])
