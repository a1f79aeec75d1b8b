"""The sums of one fitting as matrices."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.shop.columns import FEATURES, RESPONSES


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Gram:
    """What a fitting's marked balls tell of slopes and clubs; P features, R responses, S clubs.

    Attributes
    ----------
    clubs : tuple of str
    balls : int
        Rows that were summed.
    gram : FloatArray, shape (P + S, P + S)
        Of features and of who was hit.
    cross : FloatArray, shape (P + S, R)
    squares : FloatArray, shape (R, R)
    """

    fitting: str
    clubs: tuple[str, ...]
    balls: int
    gram: FloatArray
    cross: FloatArray
    squares: FloatArray


def grams_of(rows: Iterable[Mapping[str, Any]], *, marked: bool = True) -> tuple[Gram, ...]:
    """Return the matrices of every fitting among rows of sums, in the order of their names.

    Parameters
    ----------
    rows : iterable of mappings
        As `sums_of` gives them.
    marked : bool
        Of marked balls, or of those without a mark.

    Notes
    -----
    A fitting whose balls hit one club tells nothing of clubs, but of slopes.
    """
    by_fitting: dict[str, list[Mapping[str, Any]]] = {}
    for row in rows:
        if row["marked"] is marked:
            by_fitting.setdefault(row["fitting"], []).append(row)
    return tuple(_gram(name, by_fitting[name]) for name in sorted(by_fitting))


def _gram(fitting: str, rows: list[Mapping[str, Any]]) -> Gram:
    rows = sorted(rows, key=lambda row: str(row["club"]))
    features, responses = len(FEATURES), [one.column for one in RESPONSES]
    size = features + len(rows)
    gram, cross = np.zeros((size, size)), np.zeros((size, len(responses)))
    squares = np.zeros((len(responses), len(responses)))
    for place, row in enumerate(rows, features):
        own = np.array([_sum(row, "one", name) for name in FEATURES])
        gram[:features, :features] += [
            [_sum(row, one, other) for other in FEATURES] for one in FEATURES
        ]
        gram[:features, place] = gram[place, :features] = own
        gram[place, place] = row["weight"]
        said = np.array([_sum(row, "one", name) for name in responses])
        cross[:features] += [[_sum(row, one, other) for other in responses] for one in FEATURES]
        cross[place] = said
        squares += [[_sum(row, one, other) for other in responses] for one in responses]
    return Gram(
        fitting=fitting,
        clubs=tuple(str(row["club"]) for row in rows),
        balls=sum(int(row["n"]) for row in rows),
        gram=frozen_array(gram),
        cross=frozen_array(cross),
        squares=frozen_array(squares),
    )


def _sum(row: Mapping[str, Any], one: str, other: str) -> float:
    if one == "one" and other == "one":
        return float(row["weight"])
    if one == "one" or other == "one":
        return float(row[other if one == "one" else one])
    name = f"{one}__{other}"
    return float(row[name] if name in row else row[f"{other}__{one}"])
