"""`loftwright doctor`: a look over the studio, from its file to its last backup."""

import os
from typing import TYPE_CHECKING, Annotated, Final

import typer

from loftwright.cli.options import JsonFlag, example
from loftwright.cli.output import emit_lines, emit_record

if TYPE_CHECKING:
    from loftwright.services.doctor import Looked

_EXAMPLE: Final = example("loftwright doctor", "loftwright doctor --repair")
_FOUND: Final = 6
"""Exit code where something was found: that of the store."""


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(doctor)


def doctor(
    repair: Annotated[
        bool,
        typer.Option("--repair", help="First put right file rights and what was broken off."),
    ] = False,
    as_json: JsonFlag = False,
) -> None:
    """Look the studio over: its file, every record, keys, rights, backups.

    Nothing is changed without --repair. Ends with code 6 where something is found.
    """
    from loftwright.services.data_folder import data_folder  # noqa: PLC0415
    from loftwright.services.doctor import look_over  # noqa: PLC0415
    from loftwright.services.doctor import repair as put_right  # noqa: PLC0415
    from loftwright.services.opening import STORE  # noqa: PLC0415
    from loftwright.services.studio import utc_now  # noqa: PLC0415

    data = data_folder()
    done = put_right(data) if repair else ()
    looked = look_over(data, utc_now(), os.environ.get(STORE, ""))
    if as_json:
        emit_record(_record(looked, done))
    else:
        emit_lines([*_lines(looked), *(f"Put right: {one}." for one in done)])
    if looked.findings:
        raise typer.Exit(_FOUND)


def _record(looked: "Looked", done: tuple[str, ...]) -> dict[str, object]:
    return {
        "studio": looked.place,
        "version": looked.version,
        "schema": looked.schema,
        "checks": list(looked.checks),
        "findings": [
            {
                "check": one.check,
                "severity": one.severity.value,
                "place": one.place,
                "message": one.message,
                "mend": one.mend,
            }
            for one in looked.findings
        ],
        "repaired": list(done),
    }


def _lines(looked: "Looked") -> list[str]:
    from loftwright.report.numbers import count  # noqa: PLC0415

    if not looked.findings:
        return [
            f"Nothing is wrong with the studio in {looked.place}.",
            f"Looked at: {', '.join(looked.checks)}.",
        ]
    lines = [f"{count(len(looked.findings), 'finding')} in {looked.place}:"]
    for one in looked.findings:
        lines += ["", f"{one.severity.value}: {one.check}: {one.place}", f"  {one.message}"]
        lines.append(f"  {one.mend}")
    return [*lines, "", f"Looked at: {', '.join(looked.checks)}."]
