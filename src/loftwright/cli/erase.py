"""`loftwright erase`: a golfer goes from everything that the studio keeps."""

import sys
from typing import TYPE_CHECKING, Annotated, Final

import typer

from loftwright.cli.options import DataOption, JsonFlag, example
from loftwright.cli.output import emit_lines, emit_record
from loftwright.errors import UsageError

if TYPE_CHECKING:
    from loftwright.services.erasing import ErasedGolfer

_ERASE: Final = example(
    'loftwright erase "Ottoline Brambleby"', 'loftwright erase "Ottoline Brambleby" --yes --json'
)


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_ERASE)(erase)


def erase(
    golfer: Annotated[str, typer.Argument(metavar="GOLFER", help="A name or id.")],
    yes: Annotated[
        bool, typer.Option("--yes", help="Erase without asking; it cannot be undone.")
    ] = False,
    data: DataOption = None,
    as_json: JsonFlag = False,
) -> None:
    """Erase a golfer who asked for it, from everything that the studio keeps.

    Nothing is erased while the golfer is being fitted.
    """
    from loftwright.services.erasing import erase_everywhere  # noqa: PLC0415
    from loftwright.services.erasing_look import look, said  # noqa: PLC0415
    from loftwright.services.golfer_named import golfer_named  # noqa: PLC0415
    from loftwright.services.opening import open_known_studio  # noqa: PLC0415

    studio = open_known_studio(data)
    try:
        known = golfer_named(studio, golfer)
        if not yes:
            _ask(said(look(studio, known.golfer.id)), known.identity.initials)
        done = erase_everywhere(studio, known.golfer.id)
    finally:
        studio.store.close()
    if as_json:
        emit_record(_record(done))
        return
    emit_lines(
        [
            "The golfer is erased.",
            f"Gone: {done.fittings} fittings, {done.items} items of own clubs, "
            f"{done.record_balls} balls of the shop record, {done.exports} copies in the data "
            "folder.",
        ]
    )


def _ask(lines: tuple[str, ...], initials: str) -> None:
    """Say what would go and have the golfer's initials typed.

    Raises
    ------
    UsageError
        If nobody is there who could answer, or it was answered otherwise.
    """
    if not sys.stdin.isatty():
        raise UsageError(
            "nobody is there who could say yes",
            place="--yes",
            mend="Give --yes; it cannot be undone.",
        )
    emit_lines([*lines, ""])
    typed = typer.prompt(f"It cannot be undone. Type {initials} to erase")
    if "".join(typed.split()).casefold() != initials.casefold():
        raise UsageError(
            "that is not what was asked for; nobody was erased",
            place="GOLFER",
            mend=f"Type {initials}, the golfer's initials, to erase.",
        )


def _record(done: "ErasedGolfer") -> dict[str, object]:
    return {
        "records": done.records,
        "fittings": done.fittings,
        "items": done.items,
        "record_balls": done.record_balls,
        "relearned": list(done.relearned),
        "unlearned": list(done.unlearned),
        "withdrawn": list(done.withdrawn),
        "exports": done.exports,
    }
