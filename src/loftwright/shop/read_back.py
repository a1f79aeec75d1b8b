"""What the shop record says of clubs and fittings beside their balls."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.errors import StoreError
from loftwright.shop.levels import KINDS, LINE, Belongs
from loftwright.shop.leverage import Who
from loftwright.shop.record import columns_in, files

_PARTS: Final = ("head", *LINE, *KINDS)
_SHIFTS: Final = tuple(
    f"shift_{name}" for name in ("head_speed", "attack", "path", "face", "loft")
)
_UNITS: Final = np.array([MILE_PER_HOUR, DEGREE, DEGREE, DEGREE, DEGREE])


def belongs_in(folder: Path) -> dict[tuple[str, str], Belongs]:
    """Return what every club of every fitting of a record belongs to, and who hits it.

    Raises
    ------
    StoreError
        If a file cannot be read.
    """
    found: dict[tuple[str, str], Belongs] = {}
    for row in _different(folder, ("fitting", "club", *_PARTS)):
        told = {name: row[name] or "" for name in _PARTS}
        found[row["fitting"], row["club"]] = Belongs(**told)
    return dict(sorted(found.items()))


def who_in(folder: Path) -> dict[str, Who]:
    """Return who hit in every fitting of a record, on what and where; raises as `belongs_in`."""
    golfers: dict[str, str] = {}
    places: dict[tuple[str, str], set[str]] = {}
    for row in _different(folder, ("fitting", "golfer", "device", "bay")):
        golfers[row["fitting"]] = row["golfer"]
        for name in ("device", "bay"):
            places.setdefault((name, row["fitting"]), set()).add(row[name] or "")
    return {
        fitting: Who(
            golfer=golfer,
            devices=tuple(sorted(places["device", fitting] - {""})),
            bays=tuple(sorted(places["bay", fitting] - {""})),
        )
        for fitting, golfer in golfers.items()
    }


def shifts_in(folder: Path) -> dict[str, FloatArray]:
    """Return what bench and physics expected of every model, against the record's other models.

    Returns
    -------
    dict of str to FloatArray, shape (5,)
        Head speed [mph], attack, path, face, dynamic loft [deg], in the golfer's signs.

    Raises
    ------
    StoreError
        If a file cannot be read, or tells no shift of a model.

    Notes
    -----
    Every fitting expects against its golfer's own club, so only differences within fittings
    count: least squares over a level of each fitting and what each model does. Models that were
    never hit beside one that the bench knows come out at nought.
    """
    told: dict[str, dict[str, FloatArray]] = {}
    names = ["fitting", "model", *_SHIFTS]
    for file in files(folder):
        table = columns_in(file, names)
        means = table.group_by(names[:2]).aggregate([(one, "mean") for one in _SHIFTS])
        for row in means.to_pylist():
            if row["model"]:
                shift = np.array([row[f"{one}_mean"] for one in _SHIFTS], dtype=float) / _UNITS
                if not np.isfinite(shift).all():
                    raise StoreError(
                        f"the shop record has no shift of {row['model']}",
                        place=str(file),
                        mend="Move the file away and make it again: loftwright shop record.",
                    )
                told.setdefault(row["fitting"], {})[row["model"]] = shift
    models = sorted({model for hit in told.values() for model in hit})
    place = {model: number for number, model in enumerate(models)}
    square = np.zeros((len(models), len(models)))
    against = np.zeros((len(models), len(_SHIFTS)))
    for hit in told.values():
        rows = [place[model] for model in hit]
        # Less its mean, a fitting's level is gone.
        square[np.ix_(rows, rows)] += np.eye(len(rows)) - 1.0 / len(rows)
        shifts = np.array(list(hit.values()))
        against[rows] += shifts - shifts.mean(axis=0)
    found = np.linalg.pinv(square, hermitian=True) @ against
    return {model: frozen_array(one) for model, one in zip(models, found, strict=True)}


def _different(folder: Path, names: Sequence[str]) -> list[dict[str, Any]]:
    """Return what differs between the rows of a record in some columns."""
    found: list[dict[str, Any]] = []
    for file in files(folder):
        table = columns_in(file, names)
        found += table.group_by(list(names)).aggregate([]).to_pylist()
    return found
