"""`loftwright read`: from a file of shots to a decision."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from loftwright.cli.options import DecimalMark, Hand, JsonFlag, Units, example, home_of, quantity
from loftwright.cli.output import emit_lines, emit_record

if TYPE_CHECKING:
    from loftwright.intake.options import ReadOptions
    from loftwright.report.screen_numbers import Show
    from loftwright.services.read import Reading

_EXAMPLE = example(
    'loftwright read shots.csv --own "Old driver" --home home.toml --report fitting.pdf',
    'loftwright read shots.csv --column "Col A=ball speed[mph]" --only "Golfer=Ann" --json',
)
MINUTE = 60.0


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(read)


def read(
    shots: Annotated[Path, typer.Argument(metavar="SHOTS.csv", help="A table of shots.")],
    club_column: Annotated[
        str | None, typer.Option(metavar="HEADING", help="The column that names the club.")
    ] = None,
    own: Annotated[
        str | None, typer.Option(metavar="CLUB", help="The golfer's own club, as in the file.")
    ] = None,
    home: Annotated[
        Path | None, typer.Option(metavar="HOME.toml", help="The golfer's home course.")
    ] = None,
    hand: Annotated[Hand, typer.Option(help="The golfer's hand.")] = Hand.RIGHT,
    minutes_left: Annotated[
        str | None, typer.Option(metavar="MIN", help="Minutes left for more balls.")
    ] = None,
    balls_left: Annotated[
        int | None, typer.Option(metavar="COUNT", min=0, help="Balls left to be hit.")
    ] = None,
    report: Annotated[
        Path | None, typer.Option(metavar="OUT.pdf", help="Write the two printed pages.")
    ] = None,
    column: Annotated[
        list[str] | None,
        typer.Option(metavar="HEADING=MEANING[UNIT]", help="What a column means; repeat it."),
    ] = None,
    only: Annotated[
        list[str] | None,
        typer.Option(metavar="HEADING=VALUE", help="Rows to read; repeat it."),
    ] = None,
    not_ours: Annotated[
        list[int] | None,
        typer.Option(metavar="ROW", help="A row that is no ball of this golfer; repeat it."),
    ] = None,
    same_head: Annotated[
        bool, typer.Option("--same-head", help="All clubs are built on one and the same head.")
    ] = False,
    golfer: Annotated[str, typer.Option(metavar="NAME", help="On the printed pages.")] = "",
    fitter: Annotated[str, typer.Option(metavar="NAME", help="On the printed pages.")] = "",
    studio: Annotated[str, typer.Option(metavar="NAME", help="On the printed pages.")] = "",
    date: Annotated[
        str | None, typer.Option(metavar="YYYY-MM-DD", help="Day of the visit, on the pages.")
    ] = None,
    units: Annotated[
        Units, typer.Option(help="What lengths and speeds are told in, here and on the pages.")
    ] = Units.TRADE,
    decimal: Annotated[
        DecimalMark, typer.Option(help="The decimal mark, here and on the pages.")
    ] = DecimalMark.POINT,
    as_json: JsonFlag = False,
) -> None:
    """Read a file of shots: which club, how sure, and why.

    What is doubtful in the table is asked at a terminal; otherwise it is refused with the option
    that settles it. The file is never changed.
    """
    from loftwright.intake.options import ReadOptions  # noqa: PLC0415
    from loftwright.report.screen_numbers import Show  # noqa: PLC0415
    from loftwright.services.data_folder import mappings_file  # noqa: PLC0415
    from loftwright.services.paper import Visit, day_of, print_fitting  # noqa: PLC0415

    visit = Visit(golfer=golfer, fitter=fitter, studio=studio, day=day_of(date))
    options = ReadOptions(
        columns=tuple(column or ()),
        club_column=club_column,
        only=tuple(only or ()),
        not_ours=tuple(not_ours or ()),
        hand=hand.value,
        mappings_path=mappings_file(),
    )
    seconds = None if minutes_left is None else quantity(minutes_left, "min", "--minutes-left")
    reading = _read(
        shots,
        options,
        home,
        own,
        seconds,
        balls_left,
        same_head=same_head,
        ask=sys.stdin.isatty() and not as_json,
    )
    show = Show(units=units.value, decimal=decimal.value)
    if report is not None:
        print_fitting(reading, report, visit, show)
    _show(reading, report, show, as_json=as_json)


def _read(
    shots: Path,
    options: "ReadOptions",
    home: Path | None,
    own: str | None,
    seconds: float | None,
    balls_left: int | None,
    *,
    same_head: bool,
    ask: bool,
) -> "Reading":
    from loftwright.intake.doubts import DoubtsError  # noqa: PLC0415
    from loftwright.services.read import read_fitting  # noqa: PLC0415

    course = None if home is None else home_of(home)
    while True:
        try:
            return read_fitting(
                shots,
                options=options,
                home=course,
                own=own,
                minutes_left=None if seconds is None else seconds / MINUTE,
                balls_left=balls_left,
                same_head=same_head,
            )
        except DoubtsError as error:
            if not ask:
                raise
            from loftwright.cli.doubts import settle  # noqa: PLC0415

            options = settle(error.doubts, options)


def _show(reading: "Reading", report: Path | None, show: "Show", *, as_json: bool) -> None:
    from loftwright.report.records import decision_record  # noqa: PLC0415
    from loftwright.report.terminal import decision_lines  # noqa: PLC0415

    if as_json:
        record = decision_record(reading.decision, reading.table, show)
        emit_record({**record, "report": None if report is None else str(report)})
        return
    lines = decision_lines(reading.decision, reading.table, show)
    if report is not None:
        lines += ["", f"Printed: {report}"]
    emit_lines(lines)
