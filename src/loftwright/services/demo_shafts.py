"""What the shafts of the invented studio measure: stiffness, torsion, weight and diameter."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import GRAM, MILLIMETRE
from loftwright.physics.shaft.profile import Profile

MAKER: Final = "Nullmoor Composites (invented)"
STATIONS_MM: Final = (0, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 1080, 1168)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DemoShaft:
    """An invented shaft, uncut.

    Attributes
    ----------
    name : str
    profile : Profile
    diameter : FloatArray
        Outside, at the profile's stations [m].
    note : str
        What it was invented to show.
    """

    name: str
    profile: Profile
    diameter: FloatArray
    note: str


def _shaft(
    name: str,
    note: str,
    *,
    bending: tuple[float, ...],
    torsion: tuple[float, ...],
    grams_a_metre: tuple[float, ...],
    diameter_mm: tuple[float, ...],
) -> DemoShaft:
    profile = Profile(
        stations=np.array(STATIONS_MM) * MILLIMETRE,
        bending=np.array(bending),
        torsion=np.array(torsion),
        line_density=np.array(grams_a_metre) * GRAM,
    )
    return DemoShaft(
        name=name,
        profile=profile,
        diameter=frozen_array(np.array(diameter_mm) * MILLIMETRE),
        note=note,
    )


_USUAL_MM: Final = (
    15.24,
    15.24,
    14.87,
    14.17,
    13.47,
    12.77,
    12.08,
    11.38,
    10.68,
    9.98,
    9.28,
    8.8,
    8.51,
)
_LARGE_BUTT_MM: Final = (
    15.75,
    15.75,
    15.36,
    14.61,
    13.85,
    13.09,
    12.34,
    11.59,
    10.82,
    10.07,
    9.31,
    8.8,
    8.51,
)

DEMO_SHAFTS: Final = (
    _shaft(
        "Heron",
        "10 % firmer than Linnet in the upper middle, 8 % softer over the last 0.1 m",
        bending=(82, 78, 72, 67.98, 64.8, 58.85, 52.25, 43.99, 36, 29.28, 24.44, 21.62, 20.24),
        torsion=(
            39.52,
            38.25,
            35.07,
            31.88,
            28.68,
            25.5,
            22.32,
            19.38,
            16.57,
            14.03,
            11.98,
            10.71,
            9.95,
        ),
        grams_a_metre=(
            65.15,
            61.2,
            55.28,
            52.32,
            50.35,
            48.37,
            47.38,
            47.38,
            48.37,
            50.35,
            54.29,
            59.23,
            63.18,
        ),
        diameter_mm=_USUAL_MM,
    ),
    _shaft(
        "Badger",
        "12 % firmer than Linnet everywhere, heavier towards the butt",
        bending=(
            91.84,
            87.36,
            80.64,
            73.92,
            67.2,
            59.92,
            53.2,
            46.48,
            40.32,
            34.16,
            29.12,
            26.32,
            24.64,
        ),
        torsion=(
            44.56,
            43.12,
            39.54,
            35.94,
            32.34,
            28.75,
            25.16,
            21.85,
            18.69,
            15.81,
            13.51,
            12.07,
            11.21,
        ),
        grams_a_metre=(
            77.68,
            73.48,
            62.99,
            55.64,
            52.49,
            49.34,
            48.29,
            48.29,
            49.34,
            51.44,
            55.64,
            60.89,
            65.09,
        ),
        diameter_mm=_USUAL_MM,
    ),
    _shaft(
        "Kestrel",
        "as Linnet to 0.6 m but 5 % firmer in the butt; 15 % softer from 1.0 m on",
        bending=(86.1, 81.9, 75.6, 69.3, 61.2, 53.5, 47.5, 40.67, 33.48, 26.54, 22.1, 19.97, 18.7),
        torsion=(
            36.81,
            35.62,
            32.66,
            29.69,
            26.71,
            23.75,
            20.79,
            18.05,
            15.44,
            13.06,
            11.16,
            9.97,
            9.26,
        ),
        grams_a_metre=(
            60.95,
            57.26,
            51.71,
            48.94,
            47.1,
            45.25,
            44.33,
            44.33,
            45.25,
            47.1,
            50.79,
            55.41,
            59.1,
        ),
        diameter_mm=_USUAL_MM,
    ),
    _shaft(
        "Otter",
        "about 17 % softer than Linnet everywhere, and light",
        bending=(
            68.06,
            64.74,
            59.76,
            54.78,
            49.8,
            44.41,
            39.42,
            34.45,
            29.88,
            25.31,
            21.58,
            19.5,
            18.26,
        ),
        torsion=(
            31.77,
            30.75,
            28.19,
            25.62,
            23.06,
            20.5,
            17.94,
            15.58,
            13.32,
            11.27,
            9.63,
            8.61,
            8,
        ),
        grams_a_metre=(
            50.13,
            47.62,
            44.28,
            42.61,
            41.77,
            40.94,
            40.94,
            40.94,
            41.77,
            43.44,
            46.79,
            51.8,
            56.81,
        ),
        diameter_mm=_USUAL_MM,
    ),
    _shaft(
        "Ibex",
        "3 to 20 % firmer than Linnet, most in its larger butt of 0.620 in",
        bending=(
            98.4,
            92.98,
            85.25,
            75.41,
            64.05,
            55.11,
            48.93,
            42.75,
            37.08,
            31.41,
            26.78,
            24.21,
            22.66,
        ),
        torsion=(
            44.56,
            43.12,
            39.53,
            35.94,
            32.34,
            28.75,
            25.16,
            21.85,
            18.69,
            15.81,
            13.51,
            12.07,
            11.21,
        ),
        grams_a_metre=(
            77.04,
            72.63,
            63.83,
            58.33,
            56.13,
            53.93,
            52.83,
            52.83,
            53.93,
            56.13,
            60.53,
            66.03,
            70.43,
        ),
        diameter_mm=_LARGE_BUTT_MM,
    ),
    _shaft(
        "Linnet",
        "plain taper; the others are told against it",
        bending=(82, 78, 72, 66, 60, 53.5, 47.5, 41.5, 36, 30.5, 26, 23.5, 22),
        torsion=(38.75, 37.5, 34.38, 31.25, 28.12, 25, 21.88, 19, 16.25, 13.75, 11.75, 10.5, 9.75),
        grams_a_metre=(
            63.05,
            59.23,
            53.5,
            50.63,
            48.72,
            46.81,
            45.86,
            45.86,
            46.81,
            48.72,
            52.54,
            57.32,
            61.14,
        ),
        diameter_mm=_USUAL_MM,
    ),
)
