"""`loftwright impact`: how a delivered head launches a ball, and back from ball to head."""

from typing import Annotated

import typer

from loftwright.cli.options import JsonFlag, example, quantity
from loftwright.cli.output import emit_lines, emit_record
from loftwright.errors import UsageError

_EXAMPLE = example(
    "loftwright impact --head-speed 100 --attack 1 --loft 13 --face 1 --strike-toe 8",
    "loftwright impact --from-ball --ball-speed 148 --launch 12 --spin 2600",
)


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(impact)


def impact(
    head_speed: Annotated[
        str | None, typer.Option(metavar="MPH", help="Speed of the face centre.")
    ] = None,
    head: Annotated[
        str, typer.Option(metavar="reference|published|FILE", help="The head, or its file.")
    ] = "reference",
    attack: Annotated[str | None, typer.Option(metavar="DEG", help="Attack angle, up +.")] = None,
    path: Annotated[
        str | None, typer.Option(metavar="DEG", help="Club path, in-to-out +.")
    ] = None,
    face: Annotated[str | None, typer.Option(metavar="DEG", help="Face angle, open +.")] = None,
    loft: Annotated[
        str | None,
        typer.Option(metavar="DEG", help="Dynamic loft; the head's own loft without it."),
    ] = None,
    lie: Annotated[str, typer.Option(metavar="DEG", help="Lie tilt, toe up +.")] = "0",
    strike_toe: Annotated[
        str | None, typer.Option(metavar="MM", help="Strike from the centre, toe +.")
    ] = None,
    strike_high: Annotated[
        str | None, typer.Option(metavar="MM", help="Strike from the centre, high +.")
    ] = None,
    from_ball: Annotated[
        bool, typer.Option("--from-ball", help="Solve back from a ball; give what was measured.")
    ] = False,
    ball_speed: Annotated[str | None, typer.Option(metavar="MPH", help="Of the ball.")] = None,
    launch: Annotated[str | None, typer.Option(metavar="DEG", help="Of the ball, up +.")] = None,
    direction: Annotated[
        str, typer.Option(metavar="DEG", help="Start line of the ball, right +.")
    ] = "0",
    spin: Annotated[str | None, typer.Option(metavar="RPM", help="Of the ball.")] = None,
    axis: Annotated[
        str, typer.Option(metavar="DEG", help="Tilt of the ball's axis, right +.")
    ] = "0",
    device: Annotated[
        str, typer.Option(metavar="good|basic", help="How exactly the ball was read.")
    ] = "good",
    as_json: JsonFlag = False,
) -> None:
    """Strike one ball, or tell from a ball how the head came in.

    For a right-handed golfer; the spin axis of a struck ball is that across the launch
    direction. Plain numbers are in the units shown; another unit may follow its number, as in
    "45 m/s". With --from-ball the options of the delivery say what was measured, strike
    the mark.
    """
    delivery = {
        "head_speed": _told(head_speed, "mph", "--head-speed"),
        "attack": _told(attack, "deg", "--attack"),
        "path": _told(path, "deg", "--path"),
        "face": _told(face, "deg", "--face"),
        "loft": _told(loft, "deg", "--loft"),
    }
    toe = _told(strike_toe, "mm", "--strike-toe")
    high = _told(strike_high, "mm", "--strike-high")
    if from_ball:
        ball = {
            "ball_speed": _told(ball_speed, "mph", "--ball-speed"),
            "launch": _told(launch, "deg", "--launch"),
            "spin": _told(spin, "rpm", "--spin"),
            "direction": quantity(direction, "deg", "--direction"),
            "axis": quantity(axis, "deg", "--axis"),
        }
        _solve_back(head, ball, delivery, (toe, high), device, as_json=as_json)
    else:
        _strike(head, delivery, quantity(lie, "deg", "--lie"), (toe, high), as_json=as_json)


def _told(text: str | None, unit: str, option: str) -> float | None:
    return None if text is None else quantity(text, unit, option)


def _strike(
    head: str,
    delivery: dict[str, float | None],
    lie: float,
    mark: tuple[float | None, float | None],
    *,
    as_json: bool,
) -> None:
    """Strike a ball and say how it leaves."""
    from loftwright.report.ball_words import impact_lines, impact_record  # noqa: PLC0415
    from loftwright.services.impact import Delivery, find_head, strike  # noqa: PLC0415

    club_head = find_head(head)
    speed, loft = delivery["head_speed"], delivery["loft"]
    if speed is None:
        raise UsageError(
            "no head speed was given",
            place="--head-speed",
            mend="Give it in mph, or --from-ball with a ball's numbers.",
        )
    struck = strike(
        club_head,
        Delivery(
            head_speed=speed,
            attack=delivery["attack"] or 0.0,
            path=delivery["path"] or 0.0,
            face=delivery["face"] or 0.0,
            loft=club_head.loft if loft is None else loft,
            lie=lie,
            strike_toe=mark[0] or 0.0,
            strike_high=mark[1] or 0.0,
        ),
    )
    if as_json:
        emit_record(impact_record(struck))
    else:
        emit_lines(impact_lines(struck))


def _solve_back(
    head: str,
    ball: dict[str, float | None],
    delivery: dict[str, float | None],
    mark: tuple[float | None, float | None],
    device: str,
    *,
    as_json: bool,
) -> None:
    """Say how the head came in that sent a ball."""
    from loftwright.report.delivery_words import (  # noqa: PLC0415
        delivery_lines,
        delivery_record,
    )
    from loftwright.services.delivery import BallReading, came_in  # noqa: PLC0415
    from loftwright.services.impact import find_head  # noqa: PLC0415

    numbers: dict[str, float] = {}
    for name, value in ball.items():
        if value is None:
            option = f"--{name.replace('_', '-')}"
            raise UsageError(
                f"the ball's {name.replace('_', ' ')} is missing",
                place=option,
                mend="Give ball speed, launch and spin with --from-ball.",
            )
        numbers[name] = value
    toe, high = mark
    if (toe is None) != (high is None):
        raise UsageError(
            "half a mark was given",
            place="--strike-toe" if toe is None else "--strike-high",
            mend="Give both, or neither.",
        )
    reading = BallReading(
        ball_speed=numbers["ball_speed"],
        launch=numbers["launch"],
        direction=numbers["direction"],
        spin=numbers["spin"],
        axis=numbers["axis"],
        head_speed=delivery["head_speed"],
        attack=delivery["attack"],
        path=delivery["path"],
        face=delivery["face"],
        loft=delivery["loft"],
        mark=None if toe is None or high is None else (toe, high),
    )
    found = came_in(reading, find_head(head), device)
    if as_json:
        emit_record(delivery_record(found))
    else:
        emit_lines(delivery_lines(found))
