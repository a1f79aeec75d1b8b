"""`loftwright demo`: an invented fitting from its balls to the printed pages."""

from pathlib import Path
from typing import Annotated

import typer

from loftwright.cli.options import JsonFlag, example
from loftwright.cli.output import emit_lines, emit_record

_EXAMPLE = example("loftwright demo --out demo")


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(demo)


def demo(
    out: Annotated[
        Path, typer.Option(metavar="DIR", help="Folder for the shots, the course and the pages.")
    ] = Path("out"),
    as_json: JsonFlag = False,
) -> None:
    """Carry an invented fitting from its balls to decision and report.

    Studio, golfer, course and balls are made up; the balls are those of a virtual golfer.
    """
    from loftwright.report.records import decision_record  # noqa: PLC0415
    from loftwright.report.terminal import decision_lines  # noqa: PLC0415
    from loftwright.services.demo import run_demo  # noqa: PLC0415

    shown = run_demo(out)
    reading = shown.reading
    if as_json:
        emit_record(
            {
                **decision_record(reading.decision, reading.table),
                "shots": str(shown.shots),
                "home_file": str(shown.home),
                "report": str(shown.report),
            }
        )
        return
    lines = decision_lines(reading.decision, reading.table)
    again = f"loftwright read {shown.shots} --own Own --home {shown.home} --report {shown.report}"
    lines += [
        "",
        "All of this is invented: studio, golfer, course and balls.",
        f"Printed: {shown.report}",
        "The same again, step by step:",
        f"  {again}",
    ]
    emit_lines(lines)
