"""`loftwright shop`: the record of what was hit, and what it has taught."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from loftwright.cli.options import DataOption, JsonFlag, example, show_help_alone
from loftwright.cli.output import emit_lines, emit_record

if TYPE_CHECKING:
    from loftwright.services.studio import Studio

_RECORD: Final = example("loftwright shop record", "loftwright shop record --json")
_LEARN: Final = example(
    "loftwright shop learn --memory 2GB",
    "loftwright shop learn --engine spark --master spark://cluster.studio:7077",
)
_VERSIONS: Final = example("loftwright shop versions", "loftwright shop versions --json")

_SHOW: Final = example("loftwright shop show", 'loftwright shop show "Reedmace Ash" --json')
_EXPORT: Final = example("loftwright shop export record-2026")
_NOTHING: Final = (
    "Nothing was learned yet; physics alone leads.",
    "Learn: loftwright shop learn",
)

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
            f"In the record from this studio: {_count(kept.fittings, 'fitting')}.",
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
    threads: Annotated[
        int, typer.Option(metavar="N", min=1, help="Parts that DuckDB sums at once.")
    ] = 1,
    data: DataOption = None,
    as_json: JsonFlag = False,
) -> None:
    """Learn from the record what clubs do, and keep it as the next version.

    Visits that are open keep the version under which they began.
    """
    from loftwright.services.shop_learning import learn_shop  # noqa: PLC0415

    studio = _studio(data)
    try:
        learned = learn_shop(studio, engine=engine, master=master, memory=memory, threads=threads)
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


@shop.command(epilog=_SHOW)
def show(
    item: Annotated[
        str,
        typer.Argument(metavar="[MODEL]", help="A model, family, sample or head, by its name."),
    ] = "",
    version: Annotated[
        int, typer.Option(metavar="N", min=0, help="Which version; the newest without it.")
    ] = 0,
    data: DataOption = None,
    as_json: JsonFlag = False,
) -> None:
    """Show what was learned, each figure with the range that holds it with 80 %."""
    from loftwright.services.shop_learning import learned_versions, read_learned  # noqa: PLC0415
    from loftwright.services.shop_shown import learned_lines, learned_record  # noqa: PLC0415

    studio = _studio(data)
    try:
        chosen = version or max(learned_versions(studio), default=0)
        told = read_learned(studio, chosen) if chosen else None
        rack = studio.store.rack()
    finally:
        studio.store.close()
    if told is None:
        if as_json:
            emit_record(None)
        else:
            emit_lines(_NOTHING)
    elif as_json:
        emit_record(learned_record(told, rack, item))
    else:
        emit_lines(learned_lines(told, rack, item))


@shop.command(epilog=_EXPORT)
def export(
    to: Annotated[Path, typer.Argument(metavar="WHERE", help="A folder that is not there yet.")],
    data: DataOption = None,
    as_json: JsonFlag = False,
) -> None:
    """Copy the record into a folder, as open files with a page that says how to read them."""
    from loftwright.services.shop_export import export_record  # noqa: PLC0415

    studio = _studio(data)
    try:
        copied = export_record(studio, to)
    finally:
        studio.store.close()
    if as_json:
        emit_record(
            {
                "to": str(to),
                "files": copied.files,
                "fittings": copied.fittings,
                "balls": copied.balls,
            }
        )
        return
    emit_lines(
        [
            f"Copied {_count(copied.fittings, 'fitting')} ({_count(copied.balls, 'ball')}) "
            f"into {to}.",
            f"How to read them: {to / 'README.md'}",
            "They are for the shop itself: golfers agreed to its own record, not to be published.",
        ]
    )


@shop.command(epilog=_VERSIONS)
def versions(data: DataOption = None, as_json: JsonFlag = False) -> None:
    """List what was learned, the newest first."""
    from loftwright.services.shop_folder import record_trouble  # noqa: PLC0415
    from loftwright.services.shop_versions import kept_versions  # noqa: PLC0415

    studio = _studio(data)
    try:
        kept = kept_versions(studio)
        trouble = record_trouble(studio)
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
                ],
                "trouble": [{"of": of, "why": why} for of, why in trouble.items()],
            }
        )
        return
    behind = [
        f"The record could not be written: {why} When that is mended: loftwright shop record"
        for why in trouble.values()
    ]
    if not kept:
        emit_lines([*_NOTHING, *behind])
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
            *behind,
        ]
    )


def _studio(data: Path | None) -> "Studio":
    from loftwright.services.opening import open_known_studio  # noqa: PLC0415

    return open_known_studio(data)


def _count(number: int, one: str) -> str:
    from loftwright.report.numbers import count  # noqa: PLC0415

    return count(number, one)
