"""What is believed of each shaft on hand in the golfer's own club, before a ball with it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import log
from typing import Final

from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.domain.cut_profile import cut
from loftwright.domain.likeness import Likeness, likeness
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.shaft_shape import shape_of
from loftwright.domain.shortlist import ShaftOnHand, Sought
from loftwright.errors import ConvergenceError, InputError
from loftwright.evidence.shaft_prior import Belief, Effect, shaft_prior
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.mount import Mount
from loftwright.physics.shaft_swing.basis import REFERENCE_SWUNG_HEAD, ShaftBasis
from loftwright.physics.shaft_swing.bracket import Bracket, brackets
from loftwright.physics.shaft_swing.matching import matched
from loftwright.physics.shaft_swing.measured import swung
from loftwright.physics.shaft_swing.players import PLAYERS, Loading, Player

BEYOND: Final = 1.875 * INCH
"""Of the playing length that is no shaft: cap of the grip, and from the seated tip to the sole's
plane (common practice, no source)."""
NEARLY: Final = 5.0 * MILLIMETRE
"""A shaft that is shorter than wanted by no more than this counts as long enough."""
FURTHER_OFF: Final = 2.0 * INCH
"""By how much a profile of the own shaft may miss its club's length before it is doubted."""
SCALE_ERROR: Final = 0.5 * GRAM
"""Of a shaft that the shop weighed (judgement)."""
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
    played : MeasuredProfile
        As it is in the own club.
    apart : Likeness
        From the own one, both in the club.
    """

    shaft: ShaftOnHand
    beliefs: Mapping[Effect, Belief]
    stiffness_change: float
    played: MeasuredProfile
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
    able, found = _able(others, sought, mine.length)
    swings = _swings(able, basis, sought)
    for other, part in able.items():
        by_loading = swings[other]
        if isinstance(by_loading, str):
            found[other] = NoGuess(shaft=other, reason=by_loading)
            continue
        stiffer = 2.0 * log(_rate(part) / _rate(mine))
        found[other] = Guess(
            shaft=other,
            beliefs=shaft_prior(by_loading, stiffer),
            stiffness_change=stiffer,
            played=part,
            apart=likeness(part, mine),
        )
    return tuple(found[other] for other in others)


def _able(
    others: Sequence[ShaftOnHand], sought: Sought, length: float
) -> tuple[dict[ShaftOnHand, MeasuredProfile], dict[ShaftOnHand, Guess | NoGuess]]:
    """Return the shafts that are long enough, cut to the club, and what is said of the rest."""
    able: dict[ShaftOnHand, MeasuredProfile] = {}
    found: dict[ShaftOnHand, Guess | NoGuess] = {}
    for other in others:
        part = _in_club(other, sought, length)
        if part is None:
            lacks = length + sought.tip_trim - other.measured.length
            found[other] = NoGuess(shaft=other, too_short_by=lacks)
        else:
            able[other] = part
    return able, found


def _swings(
    able: Mapping[ShaftOnHand, MeasuredProfile], basis: ShaftBasis, sought: Sought
) -> dict[ShaftOnHand, dict[Loading, Bracket] | str]:
    """Return each shaft's brackets by loading, or why it cannot be swung."""
    bases: dict[ShaftOnHand, ShaftBasis] = {}
    found: dict[ShaftOnHand, dict[Loading, Bracket] | str] = {}
    for other, part in able.items():
        try:
            bases[other] = _swung(part, sought)
        except InputError as error:
            found[other] = error.message
    for loading in sought.loadings:
        player = matched(PLAYERS[loading], basis, sought.head_speed)
        for other, made in _bracketed(bases, basis, player).items():
            known = found.setdefault(other, {})
            if isinstance(made, str):
                found[other] = made
            elif isinstance(known, dict):
                known[loading] = made
    return found


def _bracketed(
    bases: Mapping[ShaftOnHand, ShaftBasis], basis: ShaftBasis, player: Player
) -> dict[ShaftOnHand, Bracket | str]:
    """Return each shaft's bracket; one that cannot be swung does not cost the others theirs."""
    try:
        return dict(zip(bases, brackets(list(bases.values()), basis, player), strict=True))
    except ConvergenceError as error:
        if len(bases) == 1:
            return dict.fromkeys(bases, error.message)
    alone = [_bracketed({other: one}, basis, player) for other, one in bases.items()]
    return {other: made for one in alone for other, made in one.items()}


def own_part(own: ShaftOnHand, sought: Sought) -> MeasuredProfile | None:
    """Return the own shaft as it is in its club; None if it is too short for it."""
    wanted = sought.length - BEYOND
    whole = _weighed(own)
    if whole.length - sought.tip_trim > wanted:
        return cut(whole, tip=sought.tip_trim, butt=whole.length - sought.tip_trim - wanted)
    return whole if whole.length > wanted - FURTHER_OFF else None


def _in_club(other: ShaftOnHand, sought: Sought, length: float) -> MeasuredProfile | None:
    whole = _weighed(other)
    spare = whole.length - sought.tip_trim - length
    if spare < -NEARLY:
        return None
    return cut(whole, tip=sought.tip_trim, butt=max(spare, 0.0))


def _weighed(one: ShaftOnHand) -> MeasuredProfile:
    """Return a profile with the weight of the shop's scale where the bench did not weigh."""
    if one.measured.mass is not None or one.weighed is None:
        return one.measured
    return replace(one.measured, mass=one.weighed, mass_error=SCALE_ERROR)


def _swung(part: MeasuredProfile, sought: Sought) -> ShaftBasis:
    head = replace(REFERENCE_SWUNG_HEAD, mass=sought.head_mass)
    return swung(shape_of(part).profile, head)


def _rate(part: MeasuredProfile) -> float:
    return frequency(shape_of(part).profile, BENCH_MOUNT, BENCH_WEIGHT)
