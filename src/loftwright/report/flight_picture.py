"""The flight from the side, drawn in pencil against a gable of known height."""

from collections.abc import Sequence
from typing import Final, TypeAlias

from loftwright.constants import FOOT
from loftwright.domain.home import Home
from loftwright.evidence.flight_map import conditions_at
from loftwright.evidence.result import Level
from loftwright.physics.flight import Launch, follow
from loftwright.report.look import INK
from loftwright.report.pencil import drawing, letters, marker, pencil
from loftwright.report.pictures import Drive
from loftwright.report.screen_numbers import TRADE, Show

_GABLES: Final = {"trade": 30.0 * FOOT, "metric": 9.0}
"""Height of the clubhouse gable that flights are judged by, round in either units [m]."""

Point: TypeAlias = tuple[float, float]

_STEP = 0.1


def flight_curve(level: Level, home: Home) -> tuple[Point, ...]:
    """Return the flight of a club's average launch numbers at home, seen from the side.

    Parameters
    ----------
    level : Level
        The launch numbers.
    home : Home
        Its air and wind.

    Returns
    -------
    tuple of (float, float)
        Distance and height [m], from the tee to the landing.
    """
    launch = Launch(
        ball_speed=level.ball_speed,
        launch=level.launch,
        direction=level.direction,
        spin=level.spin,
        axis=level.axis,
    )
    path = follow(launch, conditions_at(home), _STEP)
    return tuple((float(x), float(y)) for x, y, _ in path.position)


def flight_side(
    drives: Sequence[Drive], home: Home, *, width: float = 330.0, show: Show = TRADE
) -> str:
    """Draw flights from the side, to scale, with a height to judge them by.

    Parameters
    ----------
    drives : sequence of Drive
        One or two clubs, the last drawn strongest.
    home : Home
        Its air and wind.
    width : float
        In the picture's units.
    show : Show
        The units in which the height to judge by is round.
    """
    gable = _GABLES[show.units]
    curves = [flight_curve(drive.level, home) for drive in drives]
    scale = (width - 16.0) / max(curve[-1][0] for curve in curves)
    base = max(y for curve in curves for _, y in curve) * scale + 10.0
    parts = [
        f'<path d="M0 {base:.1f}H{width:.1f}" stroke="{INK}" stroke-width="1.2"/>',
        *_gable(0.52 * width, base, gable * scale, show.height(gable)),
    ]
    for index, curve in enumerate(curves):
        strong = index == len(curves) - 1
        path = "L".join(f"{4.0 + x * scale:.1f} {base - y * scale:.1f}" for x, y in curve)
        dash = "" if strong else ' stroke-dasharray="6 5"'
        parts.append(
            f'<path d="M{path}" fill="none" stroke="{INK}" '
            f'stroke-width="{1.8 if strong else 1.2}"{dash}/>'
        )
    parts.extend(
        marker(drive.mark, 4.0 + curve[-1][0] * scale, base, 6.0)
        for drive, curve in zip(drives, curves, strict=True)
    )
    return drawing(width, base + 12.0, parts)


def _gable(middle: float, base: float, roof: float, words: str) -> tuple[str, str]:
    wall = base - 0.6 * roof
    outline = (
        f"M{middle - 11.0:.1f} {base:.1f}V{wall:.1f}L{middle:.1f} {base - roof:.1f}"
        f"L{middle + 11.0:.1f} {wall:.1f}V{base:.1f}"
    )
    return pencil(outline), letters(middle + 16.0, base - 3.0, words, soft=True)
