"""An invented shop: fittings whose balls follow the physics, with shafts that do what is told."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from loftwright.arrays import FloatArray, IntArray, frozen_array, frozen_index
from loftwright.constants import MILLIMETRE
from loftwright.evidence.balls import Balls
from loftwright.shop.columns import DELIVERY, FEATURES, RESPONSES
from loftwright.shop.levels import Belongs
from loftwright.shop.physics_start import USUAL_DELIVERY, physics_population
from loftwright.shop.record import Recorded, table_of
from loftwright.shop.sums import sums_of

CLUBS = ("Own", "Ash", "Birch", "Cedar")
BELIEF = physics_population(USUAL_DELIVERY)
_DF = 6.0


def shaft_effects(seed: int, shafts: int = 8) -> dict[str, FloatArray]:
    """Return what invented shafts do to launch, in the units of the sums."""
    rng = np.random.default_rng(seed)
    spread = np.sqrt(np.diag(BELIEF.clubs))
    return {f"S{one}": spread * rng.standard_normal(5) for one in range(shafts)}


def sums(recorded: Sequence[Recorded]) -> list[dict[str, Any]]:
    """Return the sums over fittings, by the engine that is there by default."""
    import ibis  # noqa: PLC0415 - beside the engine
    import pyarrow as pa  # noqa: PLC0415 - beside the engine

    table = pa.concat_tables([table_of(one) for one in recorded]).replace_schema_metadata(None)
    connection = ibis.duckdb.connect(threads=1)
    rows: list[dict[str, Any]] = connection.to_pyarrow(sums_of(ibis.memtable(table))).to_pylist()
    return rows


def belongings(recorded: Sequence[Recorded]) -> dict[tuple[str, str], Belongs]:
    """Return what every club of fittings belongs to."""
    return {(one.fitting, club): told for one in recorded for club, told in one.belongs.items()}


def a_fitting(
    seed: int,
    effects: dict[str, FloatArray],
    balls: int = 40,
    *,
    head: str = "H",
    more: FloatArray | None = None,
    heavy: bool = False,
) -> Recorded:
    """Return the balls of an invented golfer with four of the shafts.

    With `more` the slopes of launch, the constant first, are by that much larger; `heavy` tails
    are those of a t with 6 degrees of freedom, and balls then bear the weights of such tails.
    """
    rng = np.random.default_rng(1000 + seed)
    chosen = rng.choice(sorted(effects), len(CLUBS), replace=False)
    slopes = (
        BELIEF.slopes
        + np.array(
            [
                0.3 * np.sqrt(np.diag(one)) * rng.standard_normal(len(FEATURES))
                for one in BELIEF.spread
            ]
        ).T
    )
    slopes = slopes + (0.0 if more is None else more)
    strike = rng.normal(0.0, (8.0, 6.0), (balls, 2)) / 10.0
    delivery = rng.normal(0.0, (1.5, 1.0, 2.0, 2.0), (balls, 4))
    order = np.arange(balls, dtype=float)
    features = np.column_stack(
        [np.ones(balls), strike, strike**2, delivery, np.exp(-order / 8.0), order / 60.0]
    )
    club = np.arange(balls) % len(CLUBS)
    noise = rng.multivariate_normal(np.zeros(5), BELIEF.left, balls)
    weights = None
    if heavy:
        noise /= np.sqrt(rng.gamma(_DF / 2.0, 2.0 / _DF, balls))[:, None]
        squares = np.einsum("nr,rs,ns->n", noise, np.linalg.inv(BELIEF.left), noise)
        weights = _DF / (_DF + squares)
    said = features @ slopes + np.array([effects[chosen[one]] for one in club]) + noise
    launch = np.array([one.origin for one in RESPONSES]) + said * [one.unit for one in RESPONSES]
    told = dict(zip([one.column for one in DELIVERY], delivery.T, strict=True))
    figures = {one.column: one.origin + told[one.column] * one.unit for one in DELIVERY}
    path = figures["face"] - figures["face_to_path"]
    marks = 10.0 * MILLIMETRE * strike + rng.normal(0.0, 1.75 * MILLIMETRE, (balls, 2))
    return Recorded(
        fitting=f"f{seed:04d}",
        golfer=f"g{seed:04d}",
        left_handed=seed % 5 == 0,
        weights=weights,
        bays=("Bay 1",),
        devices=("Slate",),
        balls=_mirrored(
            launch,
            np.column_stack([figures["head_speed"], figures["attack"], path, figures["face"]]),
            marks,
            order,
            club,
            left=seed % 5 == 0,
        ),
        belongs={
            name: Belongs(head=head, family="F", model=str(shaft), piece=f"{shaft}-1")
            for name, shaft in zip(CLUBS, chosen, strict=True)
        },
    )


def _mirrored(
    launch: FloatArray,
    delivery: FloatArray,
    marks: FloatArray,
    order: FloatArray,
    club: IntArray,
    *,
    left: bool,
) -> Balls:
    """Return balls in world signs, which for a left-hander are the mirrored ones."""
    side = -1.0 if left else 1.0
    return Balls(
        clubs=CLUBS,
        own=0,
        club=frozen_index(club),
        row=frozen_index(np.arange(len(club))),
        order=frozen_array(order),
        launch=frozen_array(launch * [1.0, 1.0, 1.0, side, side]),
        delivery=frozen_array(delivery * [1.0, 1.0, side, side]),
        marks=frozen_array(marks * [side, 1.0]),
        mark_set=frozen_index(np.full(len(club), -1)),
        carry=frozen_array(np.full(len(club), np.nan)),
    )
