"""The command `loftwright`: its groups, and the one place where errors become exit codes."""

import io
import sys
from collections.abc import Sequence
from typing import Annotated

import typer

from loftwright.cli import (
    backup,
    build,
    demo,
    diagnose,
    doctor,
    erase,
    export,
    flight,
    impact,
    plan,
    read,
    restore,
    serve,
    shaft,
    shop,
    shop_publish,
    shortlist,
    store,
    training,
    truth,
)
from loftwright.cli.errors import report
from loftwright.cli.options import show_help_alone
from loftwright.cli.output import emit_lines

app = typer.Typer(
    name="loftwright",
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["--help", "-h"]},
)
for group in (
    serve,
    read,
    plan,
    flight,
    impact,
    shaft,
    shortlist,
    build,
    training,
    demo,
    truth,
    shop,
    shop_publish,
    store,
    diagnose,
    backup,
    restore,
    export,
    erase,
    doctor,
):
    group.register(app)


def _version(wanted: bool) -> None:
    if wanted:
        from loftwright import __version__  # noqa: PLC0415 - only where it is asked for

        emit_lines([f"loftwright {__version__}"])
        raise typer.Exit


@app.callback(invoke_without_command=True)
def _loftwright(
    context: typer.Context,
    version: Annotated[  # noqa: ARG001 - handled by its callback
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Say the version.")
    ] = False,
) -> None:
    """From the balls a golfer hit to the club that suits, with what may be said and why.

    \b
    Exit codes: 0 done, 1 our defect, 2 wrong use, 3 input, 4 file or feed,
    5 too little evidence, 6 store, 7 no solution.
    """  # noqa: D301 - \b keeps the lines
    show_help_alone(context)


def run(arguments: Sequence[str]) -> int:
    """Run one command and return its exit code.

    Parameters
    ----------
    arguments : sequence of str
        As typed after the name of the program.

    Returns
    -------
    int
    """
    try:
        code = app(args=list(arguments), prog_name="loftwright", standalone_mode=False)
    except (Exception, KeyboardInterrupt) as error:  # noqa: BLE001 - the one place that must
        return report(error, as_json="--json" in arguments)
    return code if isinstance(code, int) else 0


def main() -> None:
    """Run the command line of this process."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
    sys.exit(run(sys.argv[1:]))
