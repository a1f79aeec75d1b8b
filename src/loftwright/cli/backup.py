"""`loftwright backup`: a copy of everything, while the studio runs."""

import os
from pathlib import Path
from typing import Annotated, Final

import typer

from loftwright.cli.options import JsonFlag, example
from loftwright.cli.output import emit_lines, emit_record

_EXAMPLE: Final = example("loftwright backup", "loftwright backup --to /media/drive")


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(backup)


def backup(
    to: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="A folder that is there; backups in the data folder."),
    ] = None,
    keys_to: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="Copy golfers' keys there too; keep it elsewhere."),
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Back the studio up, also while it runs, and read the backup back.

    Golfers' keys are never in it: without them it names nobody.
    """
    from loftwright.services.backup import make_backup  # noqa: PLC0415
    from loftwright.services.backup_content import source_in  # noqa: PLC0415
    from loftwright.services.data_folder import data_folder  # noqa: PLC0415
    from loftwright.services.opening import STORE  # noqa: PLC0415
    from loftwright.services.studio import utc_now  # noqa: PLC0415

    source = source_in(data_folder(), os.environ.get(STORE, ""))
    made = make_backup(source, utc_now(), to=to, keys_to=keys_to)
    rows = sum(made.manifest.counts.values())
    if as_json:
        emit_record(
            {
                "file": str(made.path),
                "bytes": made.size,
                "schema": made.manifest.schema,
                "made_at": made.manifest.made_at,
                "rows": rows,
                "files": len(made.manifest.members),
                "sha256": made.manifest.whole,
                "keys_copied": made.keys.kept,
                "copies_destroyed": made.keys.destroyed,
                "copies_waiting": made.keys.waiting,
                "left_out": list(made.left_out),
            }
        )
        return
    lines = [
        f"Backed up to {made.path}",
        f"{rows} rows and {len(made.manifest.members)} files, read back and found whole.",
        f"{made.keys.kept} keys of golfers are copied apart from it; it names nobody alone.",
    ]
    if made.keys.waiting:
        lines.append(
            f"{made.keys.waiting} keys are gone though nobody was erased; `loftwright doctor` "
            "says whose."
        )
    lines += [f"Left out, since it is no file of the studio: {one}" for one in made.left_out]
    emit_lines(lines)
