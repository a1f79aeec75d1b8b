"""The frequency of a clamped shaft, which means nothing without its set-up."""

from math import pi

from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.limits import FREQUENCY, within
from loftwright.physics.shaft.mount import Mount, mounted
from loftwright.physics.shaft.profile import Profile
from loftwright.physics.shaft.vibration import modes


def frequency(profile: Profile, mount: Mount, weight: TipBody) -> float:
    """Return how often a clamped shaft with a weight on its free end swings a second.

    Parameters
    ----------
    profile : Profile
        Of the bare shaft.
    mount : Mount
        The clamp, which end it holds, and what is on the shaft.
    weight : TipBody
        On the free end.

    Returns
    -------
    float
        [s^-1]

    Raises
    ------
    InputError
        If the set-up is none, or the frequency is not that of a shaft.

    Notes
    -----
    Of a slender shaft in a clamp that does not give, gravity off. A clamp that holds 5 mm less
    takes about 1.5 cycles a minute off a driver shaft.
    """
    held = mounted(profile, mount, weight)
    found = float(modes(held.beam, held.body).rates[0]) / (2.0 * pi)
    within(found, FREQUENCY)
    return found
