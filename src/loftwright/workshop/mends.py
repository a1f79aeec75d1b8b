"""What can be done about a head that differs from the tested one, before anything is glued."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot
from typing import Final

from loftwright.constants import INCH
from loftwright.domain.order import ClubSpec
from loftwright.domain.rack import SleeveSetting
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Fit, Reading, fit_of
from loftwright.physics.build.swingweight import FULCRUM, POINT
from loftwright.physics.sleeve import Bore, Convention, HeadAngles, turned
from loftwright.workshop.held import Figure

HEAD_SHORT: Final = 1.15 * INCH
"""By how much a head's balance point lies short of the club's length (self-consistent).

Of the reference driver of 45.5 in, whose swingweight gains 0.612 points a gram of head.
"""

SHAFT_SHARE: Final = 0.4725
"""Where a cut shaft balances, as a share of the club from the top (same driver)."""

GRIP_BALANCE: Final = 4.1 * INCH
"""Of a grip from its top (common practice, no source)."""

POINTS_PER_LENGTH: Final = 2.46 / (0.5 * INCH)
"""What a longer driver gains, the same one as above."""

MOST_TURNS: Final = 2
"""Settings that are offered besides the ordered one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadWeight:
    """What a head's weight does to the club, and what would make it good.

    Attributes
    ----------
    apart : float
        Heavier than the tested one positive [kg].
    points : float
        Of swingweight, if nothing is done.
    add : float
        To the head to be as the tested one; 0 where it is heavy [kg].
    shaft_lighter, grip_heavier, shorter : float
        Any one of which brings the swingweight of a heavy head back; 0 where it is light
        [kg, kg, m].
    """

    apart: float
    points: float
    add: float
    shaft_lighter: float
    grip_heavier: float
    shorter: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """A setting of the sleeve with this head in it, beside the club that was hit.

    Attributes
    ----------
    setting : str
    ordered : bool
        Whether it is the setting of the order.
    angles : HeadAngles
        Under the convention.
    apart : HeadAngles
        From those of the tested club under the same.
    soled : float
        How far the face of the head soled flat stands apart from the tested club's, open
        positive [rad].
    fits : mapping of Figure to Fit
        What is left over against the tolerances.
    """

    setting: str
    ordered: bool
    angles: HeadAngles
    apart: HeadAngles
    soled: float
    fits: Mapping[Figure, Fit]

    @property
    def off(self) -> float:
        """How far loft, lie and face are off together [rad]."""
        return hypot(self.apart.loft, self.apart.lie, self.apart.face)


def head_lever(length: float) -> float:
    """Return how far beyond the fulcrum of the swingweight scale a head balances.

    Parameters
    ----------
    length : float
        Of the club [m].
    """
    return length - HEAD_SHORT - FULCRUM


def head_weight(apart: float, length: float) -> HeadWeight:
    """Return what a head that weighs more or less than the tested one does.

    Parameters
    ----------
    apart : float
        Heavier positive [kg].
    length : float
        Of the club [m].

    Notes
    -----
    A gram at x changes the swingweight by (x - 14 in) / 49.61 g in.
    """
    moment = apart * head_lever(length)
    heavy = max(moment, 0.0)
    return HeadWeight(
        apart=apart,
        points=moment / POINT,
        add=max(-apart, 0.0),
        shaft_lighter=heavy / (SHAFT_SHARE * length - FULCRUM),
        grip_heavier=heavy / (FULCRUM - GRIP_BALANCE),
        shorter=heavy / POINT / POINTS_PER_LENGTH,
    )


def shaft_points(mass: float, apart: float, further: float, length: float) -> float:
    """Return by how many points a shaft that differs changes the swingweight.

    Parameters
    ----------
    mass : float
        Of the tested shaft [kg].
    apart : float
        Heavier positive [kg].
    further : float
        Of its balance point from the tip, further positive [m].
    length : float
        Of the club [m].
    """
    return (apart * (SHAFT_SHARE * length - FULCRUM) - mass * further) / POINT


def turns_known(settings: Sequence[SleeveSetting]) -> bool:
    """Return whether anything is known of what a turn of this sleeve does."""
    return len(settings) > 1 and any(one.bore > 0.0 for one in settings)


def turns(
    spec: ClubSpec,
    head: HeadAngles,
    tested: HeadAngles,
    convention: Convention,
    tolerances: Tolerances,
    doubt: float,
) -> tuple[Turn, ...]:
    """Return the ordered setting, then those that bring a head nearer to the club that was hit.

    Parameters
    ----------
    spec : ClubSpec
        With the sleeve's settings and the one that was ordered.
    head, tested : HeadAngles
        Of the new head and of the tested one, each with its sleeve in the middle [rad].
    convention : Convention
        What is held while the sleeve is turned.
    tolerances : Tolerances
    doubt : float
        Of a difference of angles [rad].

    Returns
    -------
    tuple of Turn
        The nearest first after the ordered one; only settings that leave less over than it.

    Raises
    ------
    InputError
        If an angle cannot be a driver's.
    """
    was = _set(tested, _bore(spec, spec.setting), convention)
    soled_was = _set(tested, _bore(spec, spec.setting), Convention.B)
    names = [one.name for one in spec.settings] or [spec.setting]
    made = [
        _turn(spec, name, head, (was, soled_was), convention, tolerances, doubt)
        for name in dict.fromkeys((spec.setting, *names))
    ]
    stays, *others = made
    nearer = sorted((one for one in others if one.off < stays.off), key=lambda one: one.off)
    return (stays, *nearer[:MOST_TURNS])


def _turn(
    spec: ClubSpec,
    setting: str,
    head: HeadAngles,
    tested: tuple[HeadAngles, HeadAngles],
    convention: Convention,
    tolerances: Tolerances,
    doubt: float,
) -> Turn:
    was, soled_was = tested
    bore = _bore(spec, setting)
    found = _set(head, bore, convention)
    soled = _set(head, bore, Convention.B)
    apart = HeadAngles(
        loft=found.loft - was.loft, lie=found.lie - was.lie, face=found.face - was.face
    )
    fits = {
        figure: fit_of(
            Reading(value=getattr(apart, figure.value), half_width=doubt),
            0.0,
            getattr(tolerances, figure.value),
        )
        for figure in (Figure.LOFT, Figure.LIE, Figure.FACE)
        if figure is not Figure.FACE or convention is not Convention.C
    }
    return Turn(
        setting=setting,
        ordered=setting == spec.setting,
        angles=found,
        apart=apart,
        soled=soled.face - soled_was.face,
        fits=fits,
    )


def as_set(head: HeadAngles, spec: ClubSpec, setting: str, convention: Convention) -> HeadAngles:
    """Return a head's angles with the sleeve of an ordered club at a setting.

    Parameters
    ----------
    head : HeadAngles
        With the sleeve in its middle.
    spec : ClubSpec
    setting : str
        Without one of that name the sleeve is in its middle.
    convention : Convention
        What is held.
    """
    return _set(head, _bore(spec, setting), convention)


def _bore(spec: ClubSpec, setting: str) -> Bore:
    for one in spec.settings:
        if one.name == setting:
            return Bore(angle=one.bore, azimuth=one.azimuth)
    return Bore(angle=0.0, azimuth=0.0)


def _set(head: HeadAngles, bore: Bore, convention: Convention) -> HeadAngles:
    return turned(head.loft, head.lie, head.face, bore, convention)
