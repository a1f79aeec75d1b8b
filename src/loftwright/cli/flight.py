"""`loftwright flight`: where one ball goes."""

from typing import Annotated

import typer

from loftwright.cli.options import JsonFlag, example, quantity
from loftwright.cli.output import emit_lines, emit_record
from loftwright.domain.home import Turf

_EXAMPLE = example("loftwright flight --ball-speed 148 --launch 13.5 --spin 2650 --axis 2")


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command(epilog=_EXAMPLE)(flight)


def flight(
    ball_speed: Annotated[str, typer.Option(metavar="MPH", help="Ball speed.")],
    launch: Annotated[str, typer.Option(metavar="DEG", help="Launch angle above the ground.")],
    spin: Annotated[str, typer.Option(metavar="RPM", help="Spin rate.")],
    axis: Annotated[
        str, typer.Option(metavar="DEG", help="Tilt of the spin axis, right +.")
    ] = "0",
    direction: Annotated[str, typer.Option(metavar="DEG", help="Start direction, right +.")] = "0",
    wind_along: Annotated[
        str, typer.Option(metavar="MPH", help="Wind at 10 m, from behind +.")
    ] = "0",
    wind_across: Annotated[
        str, typer.Option(metavar="MPH", help="Wind at 10 m, to the right +.")
    ] = "0",
    temperature: Annotated[str, typer.Option(metavar="DEGF", help="Air temperature.")] = "75",
    altitude: Annotated[str, typer.Option(metavar="FT", help="Height above the sea.")] = "0",
    humidity: Annotated[str, typer.Option(metavar="PERCENT", help="Relative humidity.")] = "50",
    turf: Annotated[Turf, typer.Option(help="The ground where the ball lands.")] = Turf.NORMAL,
    roughness: Annotated[
        str,
        typer.Option(
            metavar="M",
            help="Roughness of the ground to the wind; 0: the same wind at all heights.",
        ),
    ] = "0.03",
    drag_scale: Annotated[
        float, typer.Option(metavar="RATIO", help="Drag of this ball against the norm.")
    ] = 1.0,
    lift_scale: Annotated[
        float, typer.Option(metavar="RATIO", help="Lift of this ball against the norm.")
    ] = 1.1,
    as_json: JsonFlag = False,
) -> None:
    """Fly one ball: carry, run, height and landing.

    Plain numbers are in the units shown; another unit may follow its number, as in "76 m/s".
    """
    from loftwright.report.ball_words import flight_lines, flight_record  # noqa: PLC0415
    from loftwright.services.flight import Launch, fly_ball  # noqa: PLC0415

    flown = fly_ball(
        Launch(
            ball_speed=quantity(ball_speed, "mph", "--ball-speed"),
            launch=quantity(launch, "deg", "--launch"),
            spin=quantity(spin, "rpm", "--spin"),
            axis=quantity(axis, "deg", "--axis"),
            direction=quantity(direction, "deg", "--direction"),
        ),
        temperature=quantity(temperature, "degF", "--temperature"),
        altitude=quantity(altitude, "ft", "--altitude"),
        humidity=quantity(humidity, "%", "--humidity"),
        turf=turf,
        wind_along=quantity(wind_along, "mph", "--wind-along"),
        wind_across=quantity(wind_across, "mph", "--wind-across"),
        roughness=quantity(roughness, "m", "--roughness"),
        drag_scale=drag_scale,
        lift_scale=lift_scale,
    )
    if as_json:
        emit_record(flight_record(flown))
    else:
        emit_lines(flight_lines(flown))
