"""`loftwright truth`: how often the balls fell where they were predicted."""

from pathlib import Path
from typing import Annotated

import typer

from loftwright.cli.options import JsonFlag, example
from loftwright.cli.output import emit_lines, emit_record

_EXAMPLE = example("loftwright truth", "loftwright truth --data backup --json")


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(truth)


def truth(
    data: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="The studio's data folder; the usual one without it."),
    ] = None,
    invented: Annotated[
        bool, typer.Option("--invented", help="Of invented golfers instead of the shop's own.")
    ] = False,
    as_json: JsonFlag = False,
) -> None:
    """Say how often the balls fell where they were predicted.

    Every ball in the bay is predicted before it is hit; nothing is predicted afterwards.
    """
    from loftwright.services.opening import open_known_studio  # noqa: PLC0415
    from loftwright.services.proof import proof_of  # noqa: PLC0415
    from loftwright.services.proof_words import proof_lines, proof_record  # noqa: PLC0415

    studio = open_known_studio(data)
    try:
        proof = proof_of(studio, invented=invented)
    finally:
        studio.store.close()
    if as_json:
        emit_record(proof_record(proof))
    else:
        emit_lines(proof_lines(proof))
