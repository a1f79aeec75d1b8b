"""`loftwright store`: the studio's memory, from one database to another."""

from pathlib import Path
from typing import Annotated, Final

import typer

from loftwright.cli.options import JsonFlag, example, show_help_alone
from loftwright.cli.output import emit_lines, emit_record

_COPY: Final = example(
    "loftwright store copy postgresql+psycopg://loftwright@db.studio/loftwright",
    "loftwright store copy copy --from postgresql+psycopg://loftwright@db.studio/loftwright",
)

store = typer.Typer(rich_markup_mode=None)


@store.callback(invoke_without_command=True)
def _store(context: typer.Context) -> None:
    """Carry the studio's memory from one database to another."""
    show_help_alone(context)


def register(app: typer.Typer) -> None:
    """Add the group."""
    app.add_typer(store, name="store")


@store.command(epilog=_COPY)
def copy(
    to: Annotated[
        str,
        typer.Argument(metavar="WHERE", help="An empty folder or database."),
    ],
    source: Annotated[
        str,
        typer.Option("--from", metavar="WHERE", help="A folder or database; the usual one."),
    ] = "",
    keys: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="Where golfers' keys lie beside a database."),
    ] = None,
    even_while_running: Annotated[
        bool,
        typer.Option("--even-while-running", help="Also while somebody is being fitted."),
    ] = False,
    as_json: JsonFlag = False,
) -> None:
    """Copy a studio into an empty store, with counts and checksums.

    WHERE is a data folder or an address such as postgresql+psycopg://user@machine/database.
    No studio may be open on either store meanwhile; while a fitting runs nothing is copied.
    """
    from loftwright.services.data_folder import data_folder  # noqa: PLC0415
    from loftwright.services.store_copy import copy_studio, shown_place  # noqa: PLC0415

    home = data_folder()
    copied = copy_studio(source or str(home), to, keys or home, anyway=even_while_running)
    if as_json:
        tables = [{"table": one.table, "rows": one.rows, "sha256": one.checksum} for one in copied]
        places = {"from": shown_place(source or str(home)), "to": shown_place(to)}
        emit_record({**places, "tables": tables})
        return
    rows = sum(one.rows for one in copied)
    width = max(len(one.table) for one in copied)
    emit_lines(
        [
            f"Copied {rows} rows of {len(copied)} tables; both stores have the same checksums.",
            "",
            *(f"  {one.table:<{width}}  {one.rows:>8}  {one.checksum[:16]}" for one in copied),
        ]
    )
