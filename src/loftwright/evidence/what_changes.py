"""What would change the answer: another leader at another home, or from another place on the face.

Nothing is fitted anew. Another turf, wind or course flies the same clubs there and values them;
another mean strike moves every club along the fitted curve of launch against strike. A club that
leads only under the change is named with what it is then worth more than the leader of now.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import MILE_PER_HOUR, MILLIMETRE, YARD
from loftwright.domain.home import Hole, Home, Trouble, Turf
from loftwright.evidence.compare import Comparison
from loftwright.evidence.decide import probability_above
from loftwright.evidence.figures import Figure, as_swung, mean_row, swing_shift
from loftwright.evidence.flight_map import conditions_at, flight_map
from loftwright.evidence.one_thread import one_thread
from loftwright.evidence.result import Estimate
from loftwright.evidence.scales import FACE_HALF_HEIGHT, FACE_HALF_WIDTH, LAUNCH_SCALE, STRIKE_UNIT
from loftwright.evidence.value import value
from loftwright.evidence.visit import Visit
from loftwright.evidence.worth import AtHome, at_home, values

WIND: Final = 10.0 * MILE_PER_HOUR
STRIKE: Final = 10.0 * MILLIMETRE
_STRONGEST_WIND: Final = 30.0 * MILE_PER_HOUR
_TURFS: Final = (Turf.SOFT, Turf.NORMAL, Turf.FIRM)
NARROWER, WIDER = 0.75, 1.25
"""Factors on every fairway."""
_NARROWEST, _WIDEST = 5.0 * YARD, 150.0 * YARD


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """Something that might be otherwise.

    Attributes
    ----------
    name : str
        In words.
    home : Home
        With its holes.
    strike : tuple of float
        How far the mean strike moves: towards the toe and up [m].
    """

    name: str
    home: Home
    strike: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What a change comes to.

    Attributes
    ----------
    change : Change
    before, after : str
        Who leads now, and who would lead.
    gain : Estimate, optional
        What the one that would lead is then worth more than the leader of now [m]; None where
        they are one.
    p : float, optional
        Probability that it then is worth more.
    """

    change: Change
    before: str
    after: str
    gain: Estimate | None
    p: float | None

    @property
    def changes(self) -> bool:
        """Whether another club would lead."""
        return self.before != self.after


def usual_changes(home: Home) -> tuple[Change, ...]:
    """Return the changes that are looked at for a home.

    Parameters
    ----------
    home : Home
        With its holes filled in.

    Returns
    -------
    tuple of Change
        Those that are no change at this home, and winds beyond the flight model, left out.
    """
    homes = [
        ("turf firmer", replace(home, turf=_TURFS[min(_TURFS.index(home.turf) + 1, 2)])),
        ("turf softer", replace(home, turf=_TURFS[max(_TURFS.index(home.turf) - 1, 0)])),
        *_winds(home),
        ("a narrower course", _holes(home, NARROWER)),
        ("a wider course", _holes(home, WIDER)),
        ("trouble left", _trouble(home, Trouble.LEFT)),
        ("trouble right", _trouble(home, Trouble.RIGHT)),
    ]
    places = (
        ("strike 10 mm to the toe", (STRIKE, 0.0)),
        ("strike 10 mm to the heel", (-STRIKE, 0.0)),
        ("strike 10 mm higher", (0.0, STRIKE)),
        ("strike 10 mm lower", (0.0, -STRIKE)),
    )
    return (
        *(Change(name=name, home=other) for name, other in homes if other != home),
        *(Change(name=name, home=home, strike=by) for name, by in places),
    )


def _winds(home: Home) -> list[tuple[str, Home]]:
    found = []
    for name, by in (("10 mph more wind into", -WIND), ("10 mph more wind behind", WIND)):
        along = home.wind_along + by
        if (along**2 + home.wind_across**2) ** 0.5 <= _STRONGEST_WIND:
            found.append((name, replace(home, wind_along=along)))
    return found


def _holes(home: Home, factor: float) -> Home:
    return replace(home, holes=tuple(_as_wide(hole, factor) for hole in home.holes))


def _as_wide(hole: Hole, factor: float) -> Hole:
    """Return a hole whose fairway, and the trouble beside it, stand nearer or farther."""
    fairway = min(max(hole.fairway * factor, _NARROWEST), _WIDEST)
    return replace(hole, fairway=fairway, trouble_from=hole.trouble_from * fairway / hole.fairway)


def _trouble(home: Home, side: Trouble) -> Home:
    return replace(
        home,
        holes=tuple(
            replace(hole, trouble=side, trouble_from=max(hole.trouble_from, hole.fairway / 2.0))
            for hole in home.holes
        ),
    )


@one_thread()
def what_changes(
    comparison: Comparison, changes: tuple[Change, ...], toe: float = 1.0
) -> tuple[Answer, ...]:
    """Return who would lead under each change.

    Parameters
    ----------
    comparison : Comparison
    changes : tuple of Change
    toe : float
        1 where the toe lies to the right of the middle, as for a right-handed golfer, else -1.

    Returns
    -------
    tuple of Answer
        In the order of the changes; none while fewer than two clubs may be ranked.
    """
    if comparison.standing is None:
        return ()
    able = np.flatnonzero(comparison.rankable)
    names = comparison.visit.setup.balls.clubs
    before = comparison.standing.leader
    found = []
    for change in changes:
        flown = _flown(comparison, change, toe)
        worth = [value(change.home, flown.drives(int(club))) for club in able]
        after = int(able[int(np.argmax(worth))])
        if after == before:
            found.append(
                Answer(change=change, before=names[before], after=names[before], gain=None, p=None)
            )
            continue
        pair = replace(
            flown,
            figure=Figure(
                launches=flown.figure.launches[[after, before]],
                covariance=flown.figure.covariance[[after, before]][:, :, [after, before]],
            ),
            outcomes=flown.outcomes[[after, before]],
            gradients=flown.gradients[[after, before]],
        )
        level, covariance = values(change.home, pair)
        spread = covariance[0, 0] + covariance[1, 1] - 2.0 * covariance[0, 1]
        found.append(
            Answer(
                change=change,
                before=names[before],
                after=names[after],
                gain=Estimate(
                    mean=float(level[0] - level[1]), sd=float(np.sqrt(spread)), df=comparison.df
                ),
                p=probability_above(level, covariance, comparison.df, 0, 1),
            )
        )
    return tuple(found)


def _flown(comparison: Comparison, change: Change, toe: float) -> AtHome:
    """Return the clubs as swung under a change; as they are where only the holes differ."""
    visit, home = comparison.visit, change.home
    moved = change.strike != (0.0, 0.0)
    if not moved and conditions_at(home) == conditions_at(comparison.home):
        return comparison.swung
    figure = visit.swung
    if moved:
        figure = struck_elsewhere(visit, np.array(change.strike) * np.array([toe, 1.0]))
    centre = figure.launches.mean(axis=0)
    flights = flight_map(centre, list(visit.setup.columns.responses), conditions_at(home))
    return at_home(figure, flights, visit.scatter)


def struck_elsewhere(visit: Visit, by: FloatArray) -> Figure:
    """Return every club as the golfer swings it, struck elsewhere on average.

    Parameters
    ----------
    visit : Visit
    by : FloatArray, shape (2,)
        To the right and up [m]; the mean strike stays on the face.

    Returns
    -------
    Figure

    Notes
    -----
    Without marks the mean strike is not known: every club's launch moves by the impact model's
    slopes from the middle of the face, and a club's own part stays.
    """
    setup, columns = visit.setup, visit.setup.columns
    if not columns.marks or visit.swing is None:
        far = by / STRIKE_UNIT
        scaled = setup.slopes.strike @ far + setup.slopes.curvature @ far**2
        kept = np.isin(np.arange(5), columns.responses)
        launches = visit.swung.launches + np.where(kept, scaled * LAUNCH_SCALE, 0.0)
        return Figure(launches=launches, covariance=visit.swung.covariance)
    edge = np.array([FACE_HALF_WIDTH, FACE_HALF_HEIGHT])
    mean = np.clip(setup.strike.mean + by, -edge, edge)
    step = (mean - setup.strike.mean) / STRIKE_UNIT
    row = mean_row(setup.launch_rows, visit.launch, columns)
    linear, square = columns.index("toe", "high"), columns.index("toe_squared", "high_squared")
    row[square] += 2.0 * row[linear] * step + step**2
    row[linear] += step
    return as_swung(
        visit.launch,
        row,
        swing_shift(visit.swing, len(setup.balls.clubs)),
        replace(setup.strike, mean=mean),
        columns,
        setup.slopes,
    )
