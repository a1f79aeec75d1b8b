"""`loftwright diagnose`: a bundle for whoever helps, also where the studio does not open."""

from pathlib import Path
from typing import Annotated

import typer

from loftwright.cli.options import JsonFlag, example
from loftwright.cli.output import emit_lines, emit_record

_EXAMPLE = example("loftwright diagnose --to help.zip")


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(diagnose)


def diagnose(
    to: Annotated[
        Path, typer.Option("--to", metavar="FILE", help="The zip file to write; a new one.")
    ],
    as_json: JsonFlag = False,
) -> None:
    """Write a bundle for whoever helps: what this installation is, and nobody's data.

    The studio is only read, and may be open meanwhile. Read the bundle before you pass it on.
    """
    from loftwright.services.diagnosing import diagnose_into  # noqa: PLC0415

    bundle, trouble = diagnose_into(to)
    if as_json:
        parts = [{"name": one.name, "says": one.says} for one in bundle.parts]
        cannot = trouble.kind if trouble is not None else None
        emit_record({"to": str(to), "parts": parts, "cannot_be_opened": cannot})
        return
    emit_lines(
        [
            f"{to} holds {len(bundle.parts)} files and nobody's data.",
            *([f"The studio cannot be opened: {trouble}"] if trouble is not None else []),
            "",
            *(f"  {one.name:<18}  {one.says}" for one in bundle.parts),
        ]
    )
