"""`loftwright plan`: which club when, and what so many balls can show."""

from typing import Annotated

import typer

from loftwright.cli.options import Golfer, JsonFlag, example, quantity
from loftwright.cli.output import emit_lines, emit_record

_EXAMPLE = example("loftwright plan --clubs 5 --balls 40 --minutes 60 --golfer mid")


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(plan)


def plan(
    clubs: Annotated[
        int, typer.Option(metavar="COUNT", help="Clubs, the golfer's own among them.")
    ],
    balls: Annotated[
        int, typer.Option(metavar="COUNT", help="Balls to be read, warm-up not counted.")
    ],
    minutes: Annotated[
        str | None,
        typer.Option(metavar="MIN", help="Minutes from coming to going; no limit without it."),
    ] = None,
    difference_yd: Annotated[
        str, typer.Option("--difference-yd", metavar="YD", help="Difference in total to be seen.")
    ] = "3",
    golfer: Annotated[Golfer, typer.Option(help="How steadily the golfer swings.")] = Golfer.MID,
    blind: Annotated[bool, typer.Option("--blind", help="Deal the names at random.")] = False,
    seed: Annotated[
        int | None,
        typer.Option(metavar="NUMBER", help="Gives the same plan again; drawn anew without it."),
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Plan a fitting: shuffled sets, minutes, and what can be seen.

    The own club opens, closes and comes up in the middle. When the minutes do not suffice, the
    plan says what is given up; talk, warm-up and closing stay whole.
    """
    from loftwright.report.plan_words import plan_lines, plan_record  # noqa: PLC0415
    from loftwright.services.plan import SCATTER, PlanRequest, plan_fitting  # noqa: PLC0415

    fitting = plan_fitting(
        PlanRequest(
            clubs=clubs,
            balls=balls,
            available=None if minutes is None else quantity(minutes, "min", "--minutes"),
            difference=quantity(difference_yd, "yd", "--difference-yd"),
            scatter=SCATTER[golfer.value],
            blind=blind,
        ),
        seed,
    )
    if as_json:
        emit_record(plan_record(fitting.plan, fitting.seed, golfer.value))
    else:
        emit_lines(plan_lines(fitting.plan, fitting.seed, golfer.value))
