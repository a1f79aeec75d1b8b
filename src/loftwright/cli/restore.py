"""`loftwright restore`: a studio put back from a backup."""

import os
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from loftwright.cli.options import JsonFlag, example
from loftwright.cli.output import emit_lines, emit_record
from loftwright.errors import UsageError

if TYPE_CHECKING:
    from loftwright.services.restore import Restored

_EXAMPLE: Final = example(
    "loftwright restore loftwright-20260514-180000.tar.gz --into fresh",
    "loftwright restore loftwright-20260514-180000.tar.gz --even-over",
)
_ADDRESS: Final = "://"


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(restore)


def restore(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A backup.")],
    into: Annotated[
        str,
        typer.Option(metavar="WHERE", help="A folder or an empty database; the usual folder."),
    ] = "",
    keys: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="A folder with copies of golfers' keys."),
    ] = None,
    even_over: Annotated[
        bool, typer.Option("--even-over", help="Put aside the studio that stands there.")
    ] = False,
    as_json: JsonFlag = False,
) -> None:
    """Put a studio back from a backup, which is checked and opened on trial first.

    What stood there is put aside in the same folder. Golfers who were erased since stay erased.
    """
    from loftwright.services.data_folder import data_folder  # noqa: PLC0415
    from loftwright.services.opening import STORE  # noqa: PLC0415
    from loftwright.services.restore import restore as put_back  # noqa: PLC0415
    from loftwright.services.studio import utc_now  # noqa: PLC0415

    url = into if _ADDRESS in into else ""
    if not into and os.environ.get(STORE):
        raise UsageError(
            f"{STORE} names a database, and a database is restored into an empty one",
            place="--into",
            mend="Give its address, or a folder for a store in a file.",
        )
    data = Path(into) if into and not url else data_folder()
    done = put_back(file, data, utc_now(), url=url, keys=keys, over=even_over)
    if as_json:
        emit_record(_record(done))
    else:
        emit_lines(_lines(done))


def _record(done: "Restored") -> dict[str, object]:
    return {
        "into": done.into,
        "schema": done.manifest.schema,
        "made_at": done.manifest.made_at,
        "rows": sum(done.manifest.counts.values()),
        "golfers": done.tried.golfers,
        "fittings": done.tried.fittings,
        "balls": done.tried.balls,
        "sealed": done.tried.sealed,
        "erased": done.tried.erased,
        "taken_back": done.taken_back,
        "keys_brought_back": done.keys,
        "former": str(done.former) if done.former else None,
    }


def _lines(done: "Restored") -> list[str]:
    from loftwright.report.numbers import count  # noqa: PLC0415
    from loftwright.services.restore_aside import KEPT  # noqa: PLC0415

    tried = done.tried
    lines = [
        f"Put back into {done.into} as it was at {done.manifest.made_at[:16]} UTC.",
        f"{count(tried.fittings, 'fitting')} with {count(tried.balls, 'ball')} of "
        f"{count(tried.golfers, 'golfer')} were read, every one.",
    ]
    if done.keys:
        lines.append(f"{count(done.keys, 'key')} of golfers came back from the copies.")
    if tried.sealed:
        lines.append(
            f"{count(tried.sealed, 'golfer')} have no name: their keys are in no copy that was "
            "found. --keys names a folder with more."
        )
    if tried.erased:
        lines.append(f"{count(tried.erased, 'golfer')} erased since stay erased.")
    if done.taken_back is None:
        lines.append(
            "Whether a golfer took a consent back since could not be read in what stood there: "
            "ask before you rely on one."
        )
    elif done.taken_back:
        lines.append(f"{count(done.taken_back, 'golfer')} took a consent back since; it stays so.")
    if done.former:
        lines.append(f"What stood there lies in {done.former} for {KEPT.days} days.")
    return lines
