"""One ball as it was recorded, and a table of them."""

from dataclasses import dataclass, field

from loftwright.domain.device import Column


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """One swing of a visit as device and fitter recorded it.

    All quantities are SI and radians; `None` where nothing was measured. Direction, axis and
    offline are world signs (right of the target positive) for every golfer; path (in-to-out),
    face (open) and strike (toe, high) are the golfer's own signs.

    Attributes
    ----------
    row : int
        Line of the file, the first line being 1.
    order : int
        Place among all swings of the visit, from 0, unread swings counted.
    club : str
        The club as the file calls it, letter for letter.
    axis : float, optional
        Tilt of the spin axis from the horizontal [rad], positive curves right.
    mark_set : str, optional
        Shots that share it carry the marks of one set in unknown order.
    read : bool
        False for a ball that was hit but not read by the device.
    """

    row: int
    order: int
    club: str
    ball_speed: float | None = None
    launch: float | None = None
    direction: float | None = None
    spin: float | None = None
    axis: float | None = None
    head_speed: float | None = None
    attack: float | None = None
    path: float | None = None
    face: float | None = None
    dynamic_loft: float | None = None
    strike_toe: float | None = None
    strike_high: float | None = None
    mark_set: str | None = None
    read: bool = True
    carry: float | None = None
    total: float | None = None
    offline: float | None = None
    peak_height: float | None = None
    landing_angle: float | None = None
    flight_time: float | None = None
    ball: str | None = None
    time: str | None = None
    golfer: str | None = None
    feel: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """A row of the file that is no ball of the comparison, and why."""

    row: int
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Duplicate:
    """A row that repeats an earlier one and counts once."""

    row: int
    of: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotTable:
    """What one file of shots held.

    Attributes
    ----------
    read : int
        Rows below the headers; the shots, refusals and duplicates add up to it.
    shots : tuple of Shot
        The balls to be used, in their order of play.
    columns : tuple of Column
        Every column of the file with its meaning and origin, and absent ones that matter.
    warnings : tuple of str
        Doubts that did not stop the reading, each naming its place.
    """

    read: int
    shots: tuple[Shot, ...]
    refused: tuple[Refusal, ...] = ()
    duplicates: tuple[Duplicate, ...] = ()
    columns: tuple[Column, ...] = ()
    warnings: tuple[str, ...] = field(default=())
