"""How the command line speaks: lines for people, one JSON object for scripts."""

import json
import os
import sys
from collections.abc import Sequence

import typer


def emit_record(record: object) -> None:
    """Print one JSON object on standard output; `null` where there is no number."""
    from loftwright.report.records import strict  # noqa: PLC0415 - only where it is needed

    _say(json.dumps(strict(record), ensure_ascii=False, allow_nan=False, indent=2))


def emit_lines(lines: Sequence[str]) -> None:
    """Print lines for people; the first, the answer, in bold on a terminal."""
    if not lines:
        return
    first, rest = lines[0], lines[1:]
    if sys.stdout.isatty() and "NO_COLOR" not in os.environ:
        first = typer.style(first, bold=True)
    _say("\n".join((first, *rest)))


def emit_error(lines: Sequence[str]) -> None:
    """Print lines on standard error."""
    typer.echo("\n".join(lines), err=True)


def _say(text: str) -> None:
    try:
        typer.echo(text)
        sys.stdout.flush()
    except BrokenPipeError:
        # The reader has seen enough, as with `| head`; nothing is wrong.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
