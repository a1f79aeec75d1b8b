"""A measured shaft as physics takes it, and what of it nobody measured."""

from dataclasses import dataclass
from typing import Final

from loftwright.arrays import FloatArray
from loftwright.constants import GRAM, MILLIMETRE
from loftwright.domain.profile import MeasuredProfile
from loftwright.errors import InputError
from loftwright.physics.bench.beliefs import Beliefs
from loftwright.physics.shaft.limits import LINE_DENSITY
from loftwright.physics.shaft.profile import Profile

TWIST: Final = "twist"
WEIGHT: Final = "weight"
WEIGHT_ALONG: Final = "weight along it"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ShaftShape:
    """A shaft to trim, swing and put on the bench again.

    Attributes
    ----------
    profile : Profile
    assumed : tuple of str
        What was not measured and stands at what driver shafts usually have: `TWIST`, `WEIGHT`,
        or, where the weight is known and the balance point is not, `WEIGHT_ALONG`.
    """

    profile: Profile
    assumed: tuple[str, ...]


def shape_of(measured: MeasuredProfile, weighed: float | None = None) -> ShaftShape:
    """Return a measured shaft as physics takes it.

    Parameters
    ----------
    measured : MeasuredProfile
    weighed : float, optional
        What the bare shaft weighs, where the profile does not say [kg].

    Returns
    -------
    ShaftShape

    Raises
    ------
    InputError
        If weight and balance point leave no weight at one end.

    Notes
    -----
    Weight and balance point give a line density that is straight from butt to tip. Usual values
    are the means of the bench's beliefs.
    """
    assumed: list[str] = []
    usual = Beliefs()
    along = measured.station / measured.length
    twisting = measured.twisting
    if twisting is None:
        butt, tip = usual.torsion_ends
        twisting = butt * (tip / butt) ** along
        assumed.append(TWIST)
    density = measured.density
    if density is None:
        mass = weighed if measured.mass is None else measured.mass
        if mass is None:
            assumed.append(WEIGHT)
            mass = usual.mean_density * measured.length
        elif measured.balance is None:
            assumed.append(WEIGHT_ALONG)
        density = _straight(along, mass, measured.length, measured.balance)
    profile = Profile(
        stations=measured.station,
        bending=measured.bending,
        torsion=twisting,
        line_density=density,
    )
    return ShaftShape(profile=profile, assumed=tuple(assumed))


def _straight(along: FloatArray, mass: float, length: float, balance: float | None) -> FloatArray:
    """Return a straight line density of this weight and balance point."""
    level = mass / length
    lean = 0.0 if balance is None else 12.0 * (balance / length - 0.5)
    found: FloatArray = level * (1.0 + lean * (along - 0.5))
    if balance is not None and float(found.min()) < LINE_DENSITY.low:
        raise InputError(
            f"{mass / GRAM:.1f} g that balance {balance / MILLIMETRE:.0f} mm from the butt of "
            f"{length / MILLIMETRE:.0f} mm leave next to nothing at one end",
            place="balance",
            mend="Balance the shaft bare, measured from the butt, and weigh it again.",
        )
    return found
