"""A family of invented shafts: three generations in two weights, told by their samples."""

from dataclasses import replace
from datetime import timedelta
from typing import Final

import numpy as np

from loftwright.constants import GRAM
from loftwright.domain.rack import Piece, ShaftModel
from loftwright.physics.shaft.profile import Profile
from loftwright.services.demo_bench import demo_profile
from loftwright.services.demo_shafts import DEMO_SHAFTS, MAKER, DemoShaft
from loftwright.services.measuring import keep_profile
from loftwright.services.rack import add_item
from loftwright.services.studio import Studio

FAMILY: Final = "Curlew"
SAMPLE_SPREAD: Final = 0.012
"""By how much EI differs between samples of one model."""

_PLAIN: Final = next(shaft for shaft in DEMO_SHAFTS if shaft.name == "Linnet")
_WEIGHTS: Final = ((55.0, "light"), (65.0, "medium"))
# generation, EI at butt, 0.4 m, 0.7 m and tip against the plain shaft, samples of each weight
_GENERATIONS: Final = (
    ("first", (1.00, 1.00, 1.00, 1.00), (3, 2)),
    ("second", (1.04, 1.00, 0.97, 0.90), (2, 2)),
    ("third", (1.04, 1.08, 1.00, 0.90), (2, 1)),
)
_STIFFER_A_GRAM: Final = 0.008
_PLACES: Final = (0.0, 0.40, 0.70, 1.168)
_MEASURED_BEFORE: Final = 400
_BETWEEN: Final = 150
_FIRST_SEED: Final = 101


def fill_family(studio: Studio) -> None:
    """Put the family into a studio's rack, every sample measured in its year."""
    before: dict[str, str] = {}
    seed = _FIRST_SEED
    for age, (generation, factors, samples) in enumerate(_GENERATIONS):
        for (grams, label), count in zip(_WEIGHTS, samples, strict=True):
            model = add_item(
                studio,
                ShaftModel(
                    id="",
                    maker=MAKER,
                    name=FAMILY,
                    paper_mass=grams * GRAM,
                    paper_label=label,
                    family=FAMILY,
                    generation=generation,
                    replaces=before.get(label),
                ),
            )
            before[label] = model.id
            for number in range(1, count + 1):
                _sample(studio, model, number, factors, age, seed)
                seed += 1


def _sample(
    studio: Studio,
    model: ShaftModel,
    number: int,
    factors: tuple[float, ...],
    age: int,
    seed: int,
) -> None:
    rng = np.random.default_rng(seed)
    mass = (model.paper_mass or 0.0) + rng.normal(0.0, 0.5) * GRAM
    piece = add_item(
        studio,
        Piece(
            id="",
            model=model.id,
            label=f"{FAMILY} {(model.paper_mass or 0.0) / GRAM:.0f} {model.generation} {number}",
            mass=round(mass / GRAM, 1) * GRAM,
            place="Drawer 3",
        ),
    )
    level = 1.0 + _STIFFER_A_GRAM * (mass - _PLAIN.profile.mass) / GRAM
    spread = float(np.exp(rng.normal(0.0, SAMPLE_SPREAD)))
    shaft = _made(level * spread * np.array(factors), mass)
    day = studio.today() - timedelta(days=_MEASURED_BEFORE - _BETWEEN * age)
    keep_profile(studio, demo_profile(shaft, piece=piece.id, day=day, seed=seed))


def _made(factors: np.ndarray, mass: float) -> DemoShaft:
    plain = _PLAIN.profile
    along = np.interp(plain.stations, _PLACES, factors)
    profile = Profile(
        stations=plain.stations,
        bending=plain.bending * along,
        torsion=plain.torsion * along,
        line_density=plain.line_density * (mass / plain.mass),
    )
    return replace(_PLAIN, name=FAMILY, profile=profile)
