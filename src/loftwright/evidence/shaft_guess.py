"""What is believed of each shaft on hand in the golfer's own club, before a ball with it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import log
from typing import Final

from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.domain.likeness import Likeness, likeness
from loftwright.domain.shaft_shape import shape_of
from loftwright.domain.shortlist import ShaftOnHand, Sought
from loftwright.errors import ConvergenceError, InputError
from loftwright.evidence.shaft_prior import Belief, Effect, shaft_prior
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.mount import Mount
from loftwright.physics.shaft.profile import Profile, trimmed
from loftwright.physics.shaft_swing.basis import REFERENCE_SWUNG_HEAD, ShaftBasis
from loftwright.physics.shaft_swing.bracket import Bracket, brackets
from loftwright.physics.shaft_swing.matching import matched
from loftwright.physics.shaft_swing.measured import swung
from loftwright.physics.shaft_swing.players import PLAYERS, Loading

BEYOND: Final = 1.875 * INCH
"""Of the playing length that is no shaft: cap of the grip, and from the seated tip to the sole's
plane (common practice, no source)."""
NEARLY: Final = 5.0 * MILLIMETRE
"""A shaft that is shorter than wanted by no more than this counts as long enough."""
BENCH_MOUNT: Final = Mount(clamp=5.0 * INCH)
BENCH_WEIGHT: Final = TipBody(mass=205.0 * GRAM)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Guess:
    """One shaft less the own one, both in the own club.

    Attributes
    ----------
    shaft : ShaftOnHand
    beliefs : mapping of Effect to Belief
        [rad] and [m s^-1].
    stiffness_change : float
        2 ln of the ratio of frequencies in one set-up.
    apart : Likeness
        As they were measured.
    """

    shaft: ShaftOnHand
    beliefs: Mapping[Effect, Belief]
    stiffness_change: float
    apart: Likeness


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NoGuess:
    """A shaft of which nothing can be said in the own club.

    Attributes
    ----------
    too_short_by : float
        What it lacks to the own club's length; 0 if that is not the reason [m].
    reason : str
        In words, where it is another one.
    """

    shaft: ShaftOnHand
    too_short_by: float = 0.0
    reason: str = ""


def guesses(
    sought: Sought, own: ShaftOnHand, others: Sequence[ShaftOnHand]
) -> tuple[Guess | NoGuess, ...]:
    """Return what is believed of each shaft in the own club, in their order.

    Parameters
    ----------
    sought : Sought
    own : ShaftOnHand
        The shaft in the own club.
    others : sequence of ShaftOnHand

    Returns
    -------
    tuple of Guess or NoGuess

    Raises
    ------
    InputError
        If the own shaft is too short for its club, or its profile cannot be swung.
    ConvergenceError
        If no swing with the own shaft reaches the golfer's head speed.

    Notes
    -----
    Every shaft is cut at the butt to the own club's length, after the same trim of the tip, and
    carries the same head. The own shaft may have been measured as it came out of its club; it is
    then taken as it is.
    """
    mine = own_part(own, sought)
    if mine is None:
        raise InputError(
            f"the profile of {own.name} is {own.measured.length / MILLIMETRE:.0f} mm long, too "
            "short for its club",
            place="own.length",
            mend="Check the club's length and the length at which the shaft was measured.",
        )
    basis = _swung(mine, sought)
    players = {
        loading: matched(PLAYERS[loading], basis, sought.head_speed) for loading in sought.loadings
    }
    rate = _rate(mine)
    found: list[Guess | NoGuess] = []
    for other in others:
        part = _in_club(other, sought, mine.length)
        if part is None:
            lacks = mine.length + sought.tip_trim - other.measured.length
            found.append(NoGuess(shaft=other, too_short_by=lacks))
            continue
        try:
            swings: dict[Loading, Bracket] = {
                loading: brackets([_swung(part, sought)], basis, player)[0]
                for loading, player in players.items()
            }
        except (ConvergenceError, InputError) as error:
            found.append(NoGuess(shaft=other, reason=error.message))
            continue
        stiffer = 2.0 * log(_rate(part) / rate)
        found.append(
            Guess(
                shaft=other,
                beliefs=shaft_prior(swings, stiffer),
                stiffness_change=stiffer,
                apart=likeness(other.measured, own.measured),
            )
        )
    return tuple(found)


def own_part(own: ShaftOnHand, sought: Sought) -> Profile | None:
    """Return the own shaft as it is in its club; None if it is too short for it."""
    wanted = sought.length - BEYOND
    whole = shape_of(own.measured, own.weighed).profile
    if whole.length - sought.tip_trim > wanted:
        return trimmed(whole, tip=sought.tip_trim, butt=whole.length - sought.tip_trim - wanted)
    return whole if whole.length > wanted - 2.0 * INCH else None


def _in_club(other: ShaftOnHand, sought: Sought, length: float) -> Profile | None:
    whole = shape_of(other.measured, other.weighed).profile
    spare = whole.length - sought.tip_trim - length
    if spare < -NEARLY:
        return None
    return trimmed(whole, tip=sought.tip_trim, butt=max(spare, 0.0))


def _swung(part: Profile, sought: Sought) -> ShaftBasis:
    return swung(part, replace(REFERENCE_SWUNG_HEAD, mass=sought.head_mass))


def _rate(part: Profile) -> float:
    return frequency(part, BENCH_MOUNT, BENCH_WEIGHT)
