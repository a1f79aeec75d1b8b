"""The claims ladder: what these columns and balls allow to be said, and what not."""

from loftwright.evidence.balls import Balls
from loftwright.evidence.columns import Columns
from loftwright.evidence.decide import FEWEST_BALLS
from loftwright.evidence.result import Claim
from loftwright.evidence.scales import DISTANCE, LAUNCH_NAMES, SHAPE
from loftwright.evidence.strokes import TABLE_ORIGIN

_BALLS_FOR_SCATTER = 160
_FEWEST_CLUBS = 2
FURTHER = "which club goes further as you swing it"
"""The claim whose reason says which columns a total still needs."""
SHAPE_SHOWN = "where each club starts and curves"
_SHOWN_INSTEAD = f"; these balls show {SHAPE_SHOWN}"


def claims_ladder(
    balls: Balls, columns: Columns, *, device_carry: bool, standard_hole: float | None = None
) -> tuple[Claim, ...]:
    """Return every claim a fitter may want to make, allowed or not, with the reason.

    Parameters
    ----------
    balls : Balls
    columns : Columns
    device_carry : bool
        Whether the device's own carry is all that can be compared.
    standard_hole : float, optional
        Length of the hole that stands for the golfer's own, none being given [m].
    """
    given = set(columns.responses)
    shown = Claim(
        say="which club carries further, as this device shows it",
        may=True,
        why=f"{_counted(balls)} with the device's own carry",
    )
    return (
        *((_between_clubs(shown, balls),) if device_carry else ()),
        _between_clubs(_further(balls, columns, device_carry=device_carry), balls),
        _between_clubs(_same_swing(columns, device_carry=device_carry), balls),
        _strike(balls, columns),
        _shape(given, device_carry=device_carry),
        _launch_advice(given),
        Claim(
            say="which club is straighter",
            may=False,
            why=f"a difference in scatter takes about {_BALLS_FOR_SCATTER} balls a club to see"
            + _SHOWN_INSTEAD * (given >= SHAPE and not device_carry),
        ),
        _score(given, standard_hole),
        Claim(
            say="what a wet or windy day changes between two clubs",
            may=False,
            why="all balls are flown in one air, wind and turf",
        ),
    )


def _counted(balls: Balls) -> str:
    return "1 ball" if len(balls) == 1 else f"{len(balls)} balls"


def _between_clubs(claim: Claim, balls: Balls) -> Claim:
    """Return a claim about the difference of clubs, which a single club does not allow."""
    if not claim.may or (balls.counts >= FEWEST_BALLS).sum() >= _FEWEST_CLUBS:
        return claim
    why = "two clubs with two balls each are the least that can be compared"
    return Claim(say=claim.say, may=False, why=why)


def _further(balls: Balls, columns: Columns, *, device_carry: bool) -> Claim:
    say = FURTHER
    if set(columns.responses) >= DISTANCE:
        return Claim(
            say=say,
            may=True,
            why=f"{_counted(balls)} with ball speed, launch and spin, flown again at home",
        )
    if device_carry:
        return Claim(
            say=say,
            may=False,
            why=f"only the carry that this device shows can be compared; {_missing(columns)} "
            "would give the total at home",
        )
    return Claim(say=say, may=False, why="ball speed, launch and spin are needed")


def _missing(columns: Columns) -> str:
    """Return what a total still needs, column by column."""
    places = sorted(DISTANCE - {*columns.responses})
    names = [LAUNCH_NAMES[place].replace("_", " ") for place in places]
    if len(names) == 1:
        return f"one more column, {names[0]},"
    return f"{', '.join(names[:-1])} and {names[-1]}, one more column each,"


def _same_swing(columns: Columns, *, device_carry: bool) -> Claim:
    say = "what the club does from the same swing, apart from strike and swing"
    if device_carry and (columns.delivery or columns.marks):
        return Claim(
            say=say, may=False, why="strike and swing cannot be taken out of the device's carry"
        )
    if columns.delivery and columns.marks:
        return Claim(say=say, may=True, why="delivery and strike marks are measured")
    if columns.delivery:
        return Claim(
            say=say,
            may=True,
            why="delivery is measured; the strike is not, so what the club does to the strike "
            "stays in the club's own part",
        )
    if columns.marks:
        return Claim(
            say=say,
            may=True,
            why="strikes are marked; delivery is not measured, so what the club does to the "
            "swing stays in the club's own part",
        )
    return Claim(
        say=say,
        may=False,
        why="neither delivery nor strike is measured: what a club gains has no reason in it",
    )


def _strike(balls: Balls, columns: Columns) -> Claim:
    say = "where the ball met the face"
    if not columns.marks:
        return Claim(
            say=say,
            may=False,
            why="no strike was marked; ball data alone do not tell a toe strike from an open face",
        )
    sets = bool((balls.mark_set >= 0).any())
    why = "strikes are marked"
    if sets:
        why += "; where the order of a set is unknown, only how likely each order is"
    return Claim(say=say, may=True, why=why)


def _shape(given: set[int], *, device_carry: bool) -> Claim:
    say = SHAPE_SHOWN
    if device_carry and given >= SHAPE:
        return Claim(say=say, may=False, why="without a total only speed and carry are compared")
    if given >= SHAPE:
        return Claim(say=say, may=True, why="start direction and spin axis are given")
    return Claim(say=say, may=False, why="start direction and spin axis are both needed")


def _launch_advice(given: set[int]) -> Claim:
    say = "whether another loft, launch or spin would go further"
    if given >= DISTANCE:
        return Claim(say=say, may=True, why="ball speed, launch and spin are given")
    return Claim(say=say, may=False, why="launch and spin are not both given")


def _score(given: set[int], standard_hole: float | None) -> Claim:
    say = "what a club is worth in strokes a round"
    if not given >= DISTANCE:
        return Claim(say=say, may=False, why="there is no total to value")
    if not given >= SHAPE:
        return Claim(
            say=say, may=False, why="without start direction and spin axis no fairway is known"
        )
    given_holes = "on the holes given, " * (standard_hole is None)
    return Claim(
        say=say,
        may=True,
        why=f"{given_holes}by the {TABLE_ORIGIN}; an amateur's strokes differ, the order hardly "
        "does",
        hole=standard_hole,
    )
