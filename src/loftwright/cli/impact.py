"""`loftwright impact`: how a delivered head launches a ball."""

from typing import Annotated

import typer

from loftwright.cli.options import JsonFlag, example, quantity
from loftwright.cli.output import emit_lines, emit_record

_EXAMPLE = example(
    "loftwright impact --head-speed 100 --attack 1 --loft 13 --face 1 --strike-toe 8"
)


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(impact)


def impact(
    head_speed: Annotated[str, typer.Option(metavar="MPH", help="Speed of the face centre.")],
    head: Annotated[
        str, typer.Option(metavar="reference|published|FILE", help="The head, or its file.")
    ] = "reference",
    attack: Annotated[str, typer.Option(metavar="DEG", help="Attack angle, up +.")] = "0",
    path: Annotated[str, typer.Option(metavar="DEG", help="Club path, in-to-out +.")] = "0",
    face: Annotated[str, typer.Option(metavar="DEG", help="Face angle, open +.")] = "0",
    loft: Annotated[
        str | None,
        typer.Option(metavar="DEG", help="Dynamic loft; the head's own loft without it."),
    ] = None,
    lie: Annotated[str, typer.Option(metavar="DEG", help="Lie tilt, toe up +.")] = "0",
    strike_toe: Annotated[
        str, typer.Option(metavar="MM", help="Strike from the centre, toe +.")
    ] = "0",
    strike_high: Annotated[
        str, typer.Option(metavar="MM", help="Strike from the centre, high +.")
    ] = "0",
    as_json: JsonFlag = False,
) -> None:
    """Strike one ball: speed, launch, start line and spin.

    For a right-handed golfer; the spin axis is that across the launch direction. Plain
    numbers are in the units shown; another unit may follow its number, as in "45 m/s".
    """
    from loftwright.report.ball_words import impact_lines, impact_record  # noqa: PLC0415
    from loftwright.services.impact import Delivery, find_head, strike  # noqa: PLC0415

    club_head = find_head(head)
    struck = strike(
        club_head,
        Delivery(
            head_speed=quantity(head_speed, "mph", "--head-speed"),
            attack=quantity(attack, "deg", "--attack"),
            path=quantity(path, "deg", "--path"),
            face=quantity(face, "deg", "--face"),
            loft=club_head.loft if loft is None else quantity(loft, "deg", "--loft"),
            lie=quantity(lie, "deg", "--lie"),
            strike_toe=quantity(strike_toe, "mm", "--strike-toe"),
            strike_high=quantity(strike_high, "mm", "--strike-high"),
        ),
    )
    if as_json:
        emit_record(impact_record(struck))
    else:
        emit_lines(impact_lines(struck))
