"""A straight line through points with known errors, and how far each lies from the rest's."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot, inf, sqrt

from loftwright.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """A value at a place, with the standard errors of both."""

    name: str
    along: float
    along_error: float
    value: float
    error: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line of least squares, each point by its errors.

    Attributes
    ----------
    middle, level, slope : float
        The line is `level` at `middle`.
    weight, spread : float
        Sum of the weights, and of weights times squared distance from the middle.
    freedoms : int
        1 for a level line, else 2.
    """

    middle: float
    level: float
    slope: float
    weight: float
    spread: float
    freedoms: int

    def at(self, along: float) -> float:
        """Return the line at a place."""
        return self.level + self.slope * (along - self.middle)

    def error_of(self, point: Point) -> float:
        """Return the standard error of a point across the line."""
        return hypot(point.error, self.slope * point.along_error)

    def error_at(self, along: float) -> float:
        """Return the standard error of the line at a place."""
        tilt = (along - self.middle) ** 2 / self.spread if self.freedoms == 2 else 0.0
        return sqrt(1.0 / self.weight + tilt)

    def error_beside(self, point: Point) -> float:
        """Return the standard error of how far a point that is not in the line lies from it."""
        return hypot(self.error_of(point), self.error_at(point.along))


def line_through(points: Sequence[Point]) -> Line:
    """Return the line of least squares through points, level where they all stand in one place.

    Parameters
    ----------
    points : sequence of Point
        At least one.

    Notes
    -----
    Errors along the line count by its slope, which is found without them first. Points stand in
    one place if no two are farther apart than twice the larger of their errors along.
    """
    if not points:
        raise InputError("no line goes through nothing", place="points", mend="Give a point.")
    line = _weighted(points, 0.0)
    return _weighted(points, line.slope) if line.freedoms == 2 else line


def farthest(points: Sequence[Point], line: Line) -> float:
    """Return the largest distance of a point from the line of the others, in standard errors.

    Parameters
    ----------
    points : sequence of Point
    line : Line
        Through all of them.

    Returns
    -------
    float
        Nothing where the line goes through every point, whatever they are.

    Notes
    -----
    With residual r, standard error s and leverage h the point lies r / (1 - h) from the line of
    the others, with a standard error of s / sqrt(1 - h).

    References
    ----------
    Cook and Weisberg 1982, Residuals and Influence in Regression, section 2.2: deletion residuals
    and the mean-shift model (from memory).
    """
    if len(points) <= line.freedoms:
        return 0.0
    return max(_deleted(point, line) for point in points)


def _deleted(point: Point, line: Line) -> float:
    error = line.error_of(point)
    left = 1.0 - (line.error_at(point.along) / error) ** 2
    if left <= 1e-9:
        return 0.0
    return abs(point.value - line.at(point.along)) / (error * sqrt(left))


def _weighted(points: Sequence[Point], slope: float) -> Line:
    weights = [1.0 / (one.error**2 + (slope * one.along_error) ** 2) for one in points]
    weight = sum(weights)
    pairs = list(zip(points, weights, strict=True))
    middle = sum(by * one.along for one, by in pairs) / weight
    level = sum(by * one.value for one, by in pairs) / weight
    spread = sum(by * (one.along - middle) ** 2 for one, by in pairs)
    if _in_one_place(points):
        return Line(middle=middle, level=level, slope=0.0, weight=weight, spread=inf, freedoms=1)
    tilt = sum(by * (one.along - middle) * (one.value - level) for one, by in pairs)
    return Line(
        middle=middle,
        level=level,
        slope=tilt / spread,
        weight=weight,
        spread=spread,
        freedoms=2,
    )


def _in_one_place(points: Sequence[Point]) -> bool:
    places = [one.along for one in points]
    return max(places) - min(places) <= 2.0 * max(one.along_error for one in points)
