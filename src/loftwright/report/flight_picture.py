"""The flight from the side, drawn in pencil against a gable of known height."""

from collections.abc import Sequence
from math import tan

from loftwright.constants import FOOT
from loftwright.evidence.result import Level
from loftwright.report.look import INK
from loftwright.report.pencil import drawing, letters, marker, pencil
from loftwright.report.pictures import Drive

GABLE = 30.0 * FOOT
"""Height of the clubhouse gable that flights are judged by."""


def flight_curve(level: Level, points: int = 61) -> tuple[tuple[float, float], ...]:
    """Return a flight seen from the side, drawn through the figures that are printed of it.

    A quartic leaves the tee at the launch angle, lands at the carry under the landing angle and
    reaches the peak height; it is a drawing, not a computed trajectory.

    Returns
    -------
    tuple of (float, float)
        Distance and height [m].
    """
    carry = level.carry
    up, down = tan(level.launch), tan(level.landing_angle)

    def height(share: float, lift: float) -> float:
        rising = up + (down - up) * share + lift * share * (share - 1.0)
        return carry * share * (1.0 - share) * rising

    shares = [index / (points - 1) for index in range(points)]
    low, high = -8.0, 8.0
    for _ in range(50):
        lift = (low + high) / 2.0
        if max(height(share, lift) for share in shares) > level.peak_height:
            low = lift
        else:
            high = lift
    return tuple((carry * share, max(0.0, height(share, lift))) for share in shares)


def flight_side(drives: Sequence[Drive], *, width: float = 330.0) -> str:
    """Draw flights from the side, to scale, with what the ball runs and a height to judge by.

    Parameters
    ----------
    drives : sequence of Drive
        One or two clubs, the last drawn strongest.
    width : float
        In the picture's units.
    """
    longest = max(drive.level.total for drive in drives)
    scale = (width - 16.0) / longest
    top = max(drive.level.peak_height for drive in drives) * scale
    base = top + 10.0
    parts = [f'<path d="M0 {base:.1f}H{width:.1f}" stroke="{INK}" stroke-width="1.2"/>']
    roof = GABLE * scale
    x = 0.52 * width
    parts.append(
        pencil(
            f"M{x - 11:.1f} {base:.1f}v{-0.6 * roof:.1f}L{x:.1f} {base - roof:.1f}"
            f"L{x + 11:.1f} {base - 0.6 * roof:.1f}V{base:.1f}"
        )
    )
    parts.append(letters(x + 16.0, base - 3.0, "30 ft", soft=True))
    for index, drive in enumerate(drives):
        strong = index == len(drives) - 1
        curve = flight_curve(drive.level)
        path = "L".join(f"{4 + px * scale:.1f} {base - py * scale:.1f}" for px, py in curve)
        dash = "" if strong else ' stroke-dasharray="6 5"'
        parts.append(
            f'<path d="M{path}" fill="none" stroke="{INK}" '
            f'stroke-width="{1.8 if strong else 1.2}"{dash}/>'
        )
    parts.extend(
        marker(drive.mark, 4.0 + drive.level.carry * scale, base, 6.0) for drive in drives
    )
    return drawing(width, base + 12.0, parts)
