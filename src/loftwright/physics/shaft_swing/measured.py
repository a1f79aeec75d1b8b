"""A measured shaft as a swing needs it: its bending shapes from the beam of the bench."""

import numpy as np

from loftwright.physics.shaft.beam import ELEMENTS, Beam, TipBody, gauss_points
from loftwright.physics.shaft.profile import Profile
from loftwright.physics.shaft.vibration import ritz_basis
from loftwright.physics.shaft_swing.basis import (
    HANDS,
    HOSEL,
    BeamShapes,
    ShaftBasis,
    SwungHead,
    swing_basis,
)


def swung(profile: Profile, head: SwungHead, *, damping: float = 0.02) -> ShaftBasis:
    """Return a shaft with a head on it, held in the hands.

    Parameters
    ----------
    profile : Profile
        Of the bare shaft as it is built, cut at both ends.
    head : SwungHead
        What lies in the hosel weighs with it.
    damping : float
        Relative to critical.

    Returns
    -------
    ShaftBasis

    Raises
    ------
    InputError
        As `swing_basis`.

    Notes
    -----
    A grip that reaches below the hands adds no mass there.
    """
    nodes = np.linspace(0.0, profile.length - HOSEL - HANDS, ELEMENTS + 1)
    along = HANDS + gauss_points(nodes)
    beam = Beam(
        nodes=nodes,
        bending=np.interp(along, profile.stations, profile.bending),
        line_density=np.interp(along, profile.stations, profile.line_density),
    )
    body = TipBody(mass=head.mass, inertia=head.inertia, reach=head.beyond)
    modes = ritz_basis(beam, body)
    count = len(modes.rates)
    moved = np.vstack([np.zeros((2, count)), modes.shapes])
    shapes = BeamShapes(
        nodes=HANDS + nodes,
        deflections=moved[0::2].T,
        slopes=moved[1::2].T,
        stiffness=np.diag(modes.rates**2),
        mass=np.eye(count),
        density=np.interp(HANDS + nodes, profile.stations, profile.line_density),
    )
    return swing_basis(shapes, head, damping=damping)
