"""`loftwright shop`: the record of what was hit, and what it has taught."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from loftwright.cli.options import JsonFlag, example, show_help_alone
from loftwright.cli.output import emit_lines, emit_record

if TYPE_CHECKING:
    from loftwright.services.studio import Studio

_RECORD: Final = example("loftwright shop record", "loftwright shop record --json")
_LEARN: Final = example(
    "loftwright shop learn --memory 2GB",
    "loftwright shop learn --engine spark --master spark://cluster.studio:7077",
)
_VERSIONS: Final = example("loftwright shop versions", "loftwright shop versions --json")

DataOption = Annotated[
    Path | None,
    typer.Option(metavar="DIR", help="The studio's data folder; the usual one without it."),
]

shop = typer.Typer(rich_markup_mode=None)


@shop.callback(invoke_without_command=True)
def _shop(context: typer.Context) -> None:
    """Keep the record of what golfers hit, and learn from it what clubs do."""
    show_help_alone(context)


def register(app: typer.Typer) -> None:
    """Add the group."""
    app.add_typer(shop, name="shop")


@shop.command(epilog=_RECORD)
def record(data: DataOption = None, as_json: JsonFlag = False) -> None:
    """Bring the record up to date with every closed fitting of golfers who agreed.

    Fittings go into it by themselves when they are closed; this mends what was missed, and takes
    out what may not be in it any more.
    """
    from loftwright.services.evidence import Desk  # noqa: PLC0415
    from loftwright.services.shop_record import record_shop  # noqa: PLC0415

    studio = _studio(data)
    try:
        kept = record_shop(studio, Desk())
    finally:
        studio.store.close()
    if as_json:
        emit_record({"fittings": kept.fittings, "left_out": kept.left_out})
        return
    emit_lines(
        [
            f"The record holds {_count(kept.fittings, 'fitting')}.",
            f"Left out: {kept.left_out}, of golfers who did not agree, not closed, invented, "
            "or with no ball that can be compared.",
        ]
    )


@shop.command(epilog=_LEARN)
def learn(
    engine: Annotated[
        str, typer.Option(metavar="NAME", help="What sums the record: duckdb or spark.")
    ] = "duckdb",
    master: Annotated[
        str, typer.Option(metavar="URL", help="Of a Spark cluster; this machine without it.")
    ] = "",
    memory: Annotated[
        str, typer.Option(metavar="SIZE", help="At most so much memory for DuckDB, as 2GB.")
    ] = "",
    data: DataOption = None,
    as_json: JsonFlag = False,
) -> None:
    """Learn from the record what clubs do, and keep it as the next version.

    Visits that are open keep the version under which they began.
    """
    from loftwright.services.shop_learning import learn_shop  # noqa: PLC0415

    studio = _studio(data)
    try:
        learned = learn_shop(studio, engine=engine, master=master, memory=memory)
    finally:
        studio.store.close()
    if as_json:
        emit_record(
            {"version": learned.version, "fittings": learned.fittings, "balls": learned.balls}
        )
        return
    emit_lines(
        [
            f"Version {learned.version} was learned from {_count(learned.fittings, 'fitting')} "
            f"({_count(learned.balls, 'ball')}).",
            "See what it says: loftwright shop show",
        ]
    )


@shop.command(epilog=_VERSIONS)
def versions(data: DataOption = None, as_json: JsonFlag = False) -> None:
    """List what was learned, the newest first."""
    from loftwright.services.shop_versions import kept_versions  # noqa: PLC0415

    studio = _studio(data)
    try:
        kept = kept_versions(studio)
    finally:
        studio.store.close()
    if as_json:
        emit_record(
            {
                "versions": [
                    {
                        "version": one.version,
                        "program": one.program,
                        "made": one.made,
                        "fittings": one.fittings,
                        "balls": one.balls,
                    }
                    for one in kept
                ]
            }
        )
        return
    if not kept:
        emit_lines(
            ["Nothing was learned yet; physics alone leads.", "Learn: loftwright shop learn"]
        )
        return
    emit_lines(
        [
            f"{_count(len(kept), 'version')}; new visits begin under version {kept[0].version}.",
            "",
            *(
                f"  {one.version:>4}  {one.made or '':<10}  "
                f"{_count(one.fittings, 'fitting')}, {_count(one.balls, 'ball')}"
                for one in kept
            ),
        ]
    )


def _studio(data: Path | None) -> "Studio":
    from loftwright.services.opening import open_known_studio  # noqa: PLC0415

    return open_known_studio(data)


def _count(number: int, one: str) -> str:
    from loftwright.report.numbers import count  # noqa: PLC0415

    return count(number, one)
