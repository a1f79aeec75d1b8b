"""Driver heads as rigid bodies, in the head's own axes (face normal, up the face, toe)."""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import DEGREE, GRAM, GRAM_SQUARE_CENTIMETRE, MILLIMETRE
from loftwright.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Head:
    """A rigid club head.

    The axes are fixed in the head with their origin at the geometric face centre: outward
    normal, up the face, toe. Toe coordinates serve right- and left-handed heads alike.

    Attributes
    ----------
    name : str
        What the head is called.
    mass : float
        [kg]
    cg : FloatArray, shape (3,)
        Centre of gravity from the face centre [m]; the first entry is negative.
    inertia : FloatArray, shape (3, 3)
        About the centre of gravity [kg m^2].
    bulge, roll : float
        Radii of the face, heel to toe and sole to crown [m]; infinite for a flat one.
    loft, lie, face_angle : float
        As built [rad]; the impact uses the delivered angles instead.
    restitution : float
        Normal coefficient of restitution at the face centre, at the speed of the rule's test.
    source : str
        Where the numbers come from.
    """

    name: str
    mass: float
    cg: FloatArray
    inertia: FloatArray
    bulge: float
    roll: float
    loft: float
    lie: float
    face_angle: float
    restitution: float
    source: str

    def __post_init__(self) -> None:
        object.__setattr__(self, "cg", frozen_array(self.cg))
        object.__setattr__(self, "inertia", frozen_array(self.inertia))
        self._check_mass_and_cg()
        self._check_inertia()
        self._check_face()

    def _check_mass_and_cg(self) -> None:
        if not 0.1 <= self.mass <= 0.4:
            raise InputError(
                f"a head of {self.mass / GRAM:.0f} g cannot be a driver's",
                place="mass",
                mend="Give 100 to 400 g.",
            )
        if self.cg.shape != (3,) or not np.all(np.isfinite(self.cg)):
            raise InputError(
                "the centre of gravity needs three numbers: normal, up, toe", place="cg"
            )
        if not -0.1 <= self.cg[0] < 0.0 or not np.all(np.abs(self.cg[1:]) <= 0.03):
            raise InputError(
                "the centre of gravity must lie 0 to 100 mm behind the face centre and within "
                "30 mm of it up and across",
                place="cg",
                mend="Behind the face is negative, up and toe are positive.",
            )

    def _check_inertia(self) -> None:
        if self.inertia.shape != (3, 3) or not np.all(np.isfinite(self.inertia)):
            raise InputError("the inertia needs three rows of three numbers", place="inertia")
        if not np.allclose(self.inertia, self.inertia.T, rtol=1e-9, atol=1e-12):
            raise InputError(
                "the inertia is not symmetric",
                place="inertia",
                mend="Products of inertia stand on both sides of the diagonal.",
            )
        least, middle, greatest = np.linalg.eigvalsh(self.inertia)
        if least <= 0.0 or greatest > (least + middle) * (1.0 + 1e-9):
            raise InputError(
                "no rigid body has this inertia: its principal moments must be positive and no "
                "one of them larger than the other two together",
                place="inertia",
                mend="Check the unit and the signs of the products.",
            )

    def _check_face(self) -> None:
        for name in ("bulge", "roll"):
            if not getattr(self, name) >= 0.05:
                raise InputError(
                    f"a {name} radius of {1000.0 * getattr(self, name):.0f} mm cannot be used",
                    place=name,
                    mend="Give 50 mm or more, infinite for a flat face.",
                )
        for name in ("loft", "lie", "face_angle"):
            if not abs(getattr(self, name)) < 90.0 * DEGREE:
                raise InputError("the angle must be below 90 degrees", place=name)
        if not 0.3 <= self.restitution <= 0.92:
            raise InputError(
                f"a restitution of {self.restitution:g} lies outside 0.3 to 0.92",
                place="restitution",
                mend="The rules allow 0.83.",
            )

    def mirrored(self) -> "Head":
        """Return the mirror image in the plane of the normal and the up axis.

        Returns
        -------
        Head
            With the toe coordinate of the centre of gravity, the products of inertia with the
            toe axis and the face angle reversed.
        """
        flip = np.array([1.0, 1.0, -1.0])
        return replace(
            self,
            cg=self.cg * flip,
            inertia=self.inertia * np.outer(flip, flip),
            face_angle=-self.face_angle,
        )


REFERENCE_HEAD: Final = Head(
    name="reference",
    mass=204.0 * GRAM,
    cg=np.array([-38.0, 2.0, 0.0]) * MILLIMETRE,
    inertia=np.diag([3000.0, 5000.0, 3500.0]) * GRAM_SQUARE_CENTIMETRE,
    bulge=305.0 * MILLIMETRE,
    roll=305.0 * MILLIMETRE,
    loft=10.5 * DEGREE,
    lie=58.0 * DEGREE,
    face_angle=0.0,
    restitution=0.830,
    source="assumed round figures inside the limits of the equipment rules",
)
"""A round-figure driver head."""

PUBLISHED_HEAD: Final = Head(
    name="published",
    mass=204.0 * GRAM,
    cg=np.array([-42.3, 2.9, 1.0]) * MILLIMETRE,
    inertia=np.array(
        [
            [2843.0, -733.0, 530.2],
            [-733.0, 5679.0, 0.5],
            [530.2, 0.5, 4085.0],
        ]
    )
    * GRAM_SQUARE_CENTIMETRE,
    bulge=305.0 * MILLIMETRE,
    roll=305.0 * MILLIMETRE,
    loft=9.8 * DEGREE,
    lie=58.0 * DEGREE,
    face_angle=0.0,
    restitution=0.830,
    source=(
        "Adjusting a momentum-based golf clubhead-ball impact model to improve accuracy, "
        "Proceedings 2020, 49(1):47, table 1 (mass, centre of gravity, inertia, bulge, loft, "
        "restitution); roll and lie assumed"
    ),
)
"""A measured driver head from the literature."""
