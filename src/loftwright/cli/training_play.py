"""`loftwright training cases` and `play`: fit a virtual golfer by hand, then see the truth."""

import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Annotated

import typer

from loftwright.cli.options import JsonFlag, example
from loftwright.cli.output import emit_lines, emit_record

if TYPE_CHECKING:
    from loftwright.services.training_by_text import Answer, TextPlay

_CASES_EXAMPLE = example("loftwright training cases")
_PLAY_EXAMPLE = example(
    "loftwright training play larkspur",
    "  printf 'Own 6\\nAsh 6\\ncall Ash\\n' | loftwright training play larkspur --json",
)


def add_commands(training: typer.Typer) -> None:
    """Add the commands to the group."""
    training.command(epilog=_CASES_EXAMPLE)(cases)
    training.command(epilog=_PLAY_EXAMPLE)(play)


def cases(as_json: JsonFlag = False) -> None:
    """List the training cases: who comes, and what is asked.

    Nothing of the truth is told.
    """
    from loftwright.training.case_files import known_cases  # noqa: PLC0415

    found = known_cases()
    if as_json:
        emit_record(
            {
                "cases": [
                    {
                        "case": one.name,
                        "golfer": one.golfer,
                        "goal": one.goal,
                        "hand": str(one.hand),
                        "clubs": len(one.clubs),
                        "balls": one.balls,
                        "minutes": round(one.seconds / 60.0),
                        "seed": one.seed,
                    }
                    for one in found
                ]
            }
        )
        return
    emit_lines(
        [
            f"{len(found)} cases; each hides what was true until you call.",
            *(
                f"  {one.name:<10}{one.golfer}: {one.goal.lower()}; {len(one.clubs)} clubs, "
                f"{one.balls} balls"
                for one in found
            ),
        ]
    )


def play(
    case: Annotated[str, typer.Argument(metavar="CASE", help="A name that `cases` lists.")],
    seed: Annotated[
        int | None,
        typer.Option(metavar="NUMBER", help="Other balls and names; the case's own without it."),
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Play a training case line by line.

    A club's name hits a ball with it; `call CLUB` or `call close` ends the case and shows what
    was true. The same seed and the same lines give the same balls. Nothing is kept.
    """
    from loftwright.services.training_by_text import TextPlay  # noqa: PLC0415

    with TemporaryDirectory(prefix="loftwright-") as folder:
        played = TextPlay(Path(folder), case, seed)
        try:
            if as_json:
                _play_for_scripts(played)
            else:
                _play(played)
        finally:
            played.close()


def _play(played: "TextPlay") -> None:
    """Answer every line as it comes, until the call, `quit` or the end of the input."""
    emit_lines(played.greeting())
    asked = sys.stdin.isatty()
    while True:
        if asked:
            typer.echo("> ", nl=False)
        line = sys.stdin.readline()
        answer = played.answer(line or "quit")
        emit_lines(_told(answer))
        if answer.over:
            return


def _play_for_scripts(played: "TextPlay") -> None:
    """Take every line, then print one record of balls, words and the debrief."""
    from loftwright.services.training_record import debrief_record  # noqa: PLC0415

    balls: list[object] = []
    said: list[str] = []
    debrief = None
    while True:
        line = sys.stdin.readline()
        answer = played.answer(line or "quit")
        balls += answer.balls
        if not answer.balls:
            said += answer.lines
        if answer.back is not None:
            debrief = debrief_record(answer.back)
        if answer.over:
            break
    emit_record(
        {
            "case": played.case.name,
            "seed": played.seed,
            "shots": balls,
            "answers": said,
            "debrief": debrief,
        }
    )


def _told(answer: "Answer") -> list[str]:
    from loftwright.services.training_words import debrief_lines  # noqa: PLC0415

    return list(answer.lines) if answer.back is None else debrief_lines(answer.back)
