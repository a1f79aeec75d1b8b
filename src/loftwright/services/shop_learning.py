"""Learn from the shop record, and keep what was learned as a readable file of its own version."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

import numpy as np

from loftwright import __version__
from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.errors import StoreError
from loftwright.services.shop_record import record_folder
from loftwright.services.studio import Studio
from loftwright.shop.columns import FEATURES, RESPONSES
from loftwright.shop.engine import sums_in
from loftwright.shop.grams import grams_of
from loftwright.shop.levels import Effects, known_effects
from loftwright.shop.physics_start import physics_population
from loftwright.shop.population import Population, learn
from loftwright.shop.read_back import belongs_in, who_in

LEARNED: Final = "learned"
USUAL_DELIVERY: Final[FloatArray] = frozen_array(
    [101.0 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 13.0 * DEGREE]
)
"""At which physics says what slopes are, until golfers' own are averaged."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ShopLearned:
    """What a shop's fittings teach.

    Attributes
    ----------
    version : int
        From 1; 0 for physics alone.
    fittings, balls : int
        That taught it.
    population : Population
    effects : Effects
    """

    version: int
    fittings: int
    balls: int
    population: Population
    effects: Effects


def learn_shop(
    studio: Studio, *, engine: str = "duckdb", master: str = "", memory: str = ""
) -> ShopLearned:
    """Learn from a studio's shop record and keep it under the next version.

    Raises
    ------
    EvidenceError
        If there are too few fittings to learn from.
    InputError
        If the engine is not there.
    StoreError
        If what was learned cannot be written.
    """
    folder = record_folder(studio)
    rows = sums_in(folder, engine=engine, master=master, memory=memory)
    grams = grams_of(rows)
    population = learn(grams, physics_population(USUAL_DELIVERY))
    golfers = {fitting: one.golfer for fitting, one in who_in(folder).items()}
    effects = known_effects(grams, population, belongs_in(folder, grams), golfers=golfers)
    learned = ShopLearned(
        version=len(_versions(folder)) + 1,
        fittings=len(grams),
        balls=sum(gram.balls for gram in grams),
        population=population,
        effects=effects,
    )
    _keep(folder, learned)
    return learned


def _versions(folder: Path) -> list[Path]:
    return sorted((folder / LEARNED).glob("[0-9]*.json"))


def _keep(folder: Path, learned: ShopLearned) -> None:
    place = folder / LEARNED / f"{learned.version:04d}.json"
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        draft = place.with_suffix(".new")
        draft.write_text(json.dumps(_record(learned), indent=1), encoding="utf-8")
        draft.replace(place)
    except OSError as error:
        raise StoreError(
            f"what was learned cannot be kept: {error.strerror}",
            place=str(place),
            mend="Make the folder writable and free some space; the version before stands.",
        ) from error


def _record(learned: ShopLearned) -> dict[str, Any]:
    """Return what was learned in words and SI, with the units of the sums beside."""
    population, effects = learned.population, learned.effects
    names = [one.column for one in RESPONSES]
    units = {one.column: one.unit for one in RESPONSES}
    return {
        "version": learned.version,
        "program": __version__,
        "fittings": learned.fittings,
        "balls": learned.balls,
        "units": units,
        "slopes": _table(population.slopes, FEATURES, names),
        "slopes_differ": {
            name: dict(
                zip(FEATURES, np.sqrt(np.diag(population.spread[place])).tolist(), strict=True)
            )
            for place, name in enumerate(names)
        },
        "clubs_differ": _table(population.clubs, names, names),
        "left_over": _table(population.left, names, names),
        "effects": [
            {
                "level": level,
                "name": name,
                "fittings": effects.fittings[level, name],
                "mean": dict(zip(names, effects.means[place].tolist(), strict=True)),
                "sd": dict(
                    zip(
                        names,
                        np.sqrt(np.diag(effects.covariance[place, :, place, :])).tolist(),
                        strict=True,
                    )
                ),
            }
            for place, (level, name) in enumerate(effects.members)
        ],
    }


def _table(
    values: FloatArray, rows: Sequence[str], columns: Sequence[str]
) -> Mapping[str, Mapping[str, float]]:
    return {
        row: dict(zip(columns, line, strict=True))
        for row, line in zip(rows, values.tolist(), strict=True)
    }
