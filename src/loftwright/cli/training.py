"""`loftwright training`: virtual golfers with their hidden truth, dealt or played."""

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from loftwright.cli.options import (
    Golfer,
    Hand,
    JsonFlag,
    example,
    home_of,
    quantity,
    show_help_alone,
)
from loftwright.cli.output import emit_lines, emit_record
from loftwright.cli.training_play import add_commands

_EXAMPLE = example(
    "loftwright training deal --seed 7 --clubs 6 --balls 48 --golfer mid \\",
    "      --out shots.csv --truth truth.json",
)


class DealtDevice(StrEnum):
    """What the virtual device gives."""

    FULL = "full"
    NO_MARKS = "no-marks"
    BALL_ONLY = "ball-only"
    SPEED_AND_CARRY = "speed-and-carry"


training = typer.Typer(rich_markup_mode=None)
add_commands(training)


@training.callback(invoke_without_command=True)
def _training(context: typer.Context) -> None:
    """Fit virtual golfers, then see what was true."""
    show_help_alone(context)


def register(app: typer.Typer) -> None:
    """Add the group."""
    app.add_typer(training, name="training")


@training.command(epilog=_EXAMPLE)
def deal(
    seed: Annotated[int, typer.Option(metavar="NUMBER", help="The same seed, the same bytes.")],
    out: Annotated[Path, typer.Option(metavar="SHOTS.csv", help="The shot table to write.")],
    truth: Annotated[
        Path | None, typer.Option(metavar="TRUTH.json", help="The truth to write, kept apart.")
    ] = None,
    clubs: Annotated[int, typer.Option(metavar="COUNT", help="Clubs, Own among them.")] = 6,
    balls: Annotated[int, typer.Option(metavar="COUNT", help="Balls the golfer hits.")] = 48,
    golfer: Annotated[Golfer, typer.Option(help="How the golfer swings.")] = Golfer.MID,
    no_difference: Annotated[
        bool, typer.Option("--no-difference", help="All clubs are the same.")
    ] = False,
    moves_strike: Annotated[
        bool, typer.Option("--moves-strike", help="Clubs move strike and speed more than usual.")
    ] = False,
    head_speed: Annotated[
        str | None, typer.Option(metavar="MPH", help="Mean head speed; the golfer's own without.")
    ] = None,
    hand: Annotated[Hand, typer.Option(help="The golfer's hand.")] = Hand.RIGHT,
    ghosts: Annotated[int, typer.Option(metavar="COUNT", help="Reads of no ball of theirs.")] = 0,
    misreads: Annotated[
        int | None, typer.Option(metavar="COUNT", help="Balls misread; 4 % without it.")
    ] = None,
    unordered_marks: Annotated[
        int, typer.Option(metavar="COUNT", help="Balls whose marks are read together; 0 for none.")
    ] = 0,
    device: Annotated[
        DealtDevice, typer.Option(help="The columns the device gives.")
    ] = DealtDevice.FULL,
    home: Annotated[
        Path | None, typer.Option(metavar="HOME.toml", help="Where the truth is stated.")
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Deal the balls of one visit of a virtual golfer.

    The shot table is what `read` may see; the truth file is for comparing afterwards, key by key.
    """
    from loftwright.domain.home import Home  # noqa: PLC0415
    from loftwright.services.training import DealOptions, deal_fitting  # noqa: PLC0415

    dealt = deal_fitting(
        DealOptions(
            seed=seed,
            clubs=clubs,
            balls=balls,
            golfer=golfer.value,
            no_difference=no_difference,
            moves_strike=moves_strike,
            head_speed=None if head_speed is None else quantity(head_speed, "mph", "--head-speed"),
            hand=hand.value,
            ghosts=ghosts,
            misreads=misreads,
            unordered_marks=unordered_marks,
            device=device.value,
            home=Home() if home is None else home_of(home),
        ),
        out,
        truth,
    )
    names = list(dealt.truth.clubs)
    if as_json:
        emit_record(
            {
                "seed": seed,
                "clubs": names,
                "rows": len(dealt.shots),
                "out": str(out),
                "truth": None if truth is None else str(truth),
            }
        )
        return
    answer = f"{len(dealt.shots)} balls with {len(names)} clubs are in {out}."
    hidden = f"What was true of them is in {truth}: look after you have chosen."
    emit_lines([answer] if truth is None else [answer, hidden])
