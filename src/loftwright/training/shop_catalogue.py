"""The invented shafts of a simulated shop: what each truly does, and what of it is shared.

A shaft does what its family, generation, model and sample do together; the rest is what one
golfer makes of one shaft, which no other fitting can tell.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.clubs import SHARED_BY_SHAFT
from loftwright.shop.levels import Belongs

FAMILIES: Final = 8
"""Those after the first `OLD_FAMILIES` came after the record."""
OLD_FAMILIES: Final = 5
GENERATIONS: Final = 2
MODELS: Final = 3
"""In a generation; the last came after the record."""
OLD_MODELS: Final = 2
PIECES: Final = 2

SHAFT_LEVELS: Final = ("family", "generation", "model", "piece")
SHARES: Final[Mapping[str, float]] = MappingProxyType(
    {"family": 0.15, "generation": 0.10, "model": 0.20, "piece": 0.05}
)
"""Of the variance of what clubs do, by what they belong to (judgement); half of it goes with the
shaft, as the comparison believes, and the rest is golfer and club together."""

PIECE_ALONE: Final[Mapping[str, float]] = MappingProxyType(
    {"family": 0.0, "generation": 0.0, "model": 0.0, "piece": SHARED_BY_SHAFT}
)
NOTHING_SHARED: Final[Mapping[str, float]] = MappingProxyType(dict.fromkeys(SHAFT_LEVELS, 0.0))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Catalogue:
    """Shafts and what they truly do.

    Attributes
    ----------
    old : tuple of Belongs
        Every sample that fittings of the record may have hit.
    later_models : tuple of Belongs
        Samples of models that came later, of families that the record knows.
    later_families : tuple of Belongs
        Samples of families that came later.
    does : mapping of (str, str) to FloatArray
        What every member of every level does; its sum over the levels is the shaft's.
    by_loading : mapping of str to FloatArray
        What a model does more for golfers of one loading and less for those of the other.
    own_sd : FloatArray
        Of what one golfer makes of one shaft.
    """

    old: tuple[Belongs, ...]
    later_models: tuple[Belongs, ...]
    later_families: tuple[Belongs, ...]
    does: Mapping[tuple[str, str], FloatArray]
    by_loading: Mapping[str, FloatArray]
    own_sd: FloatArray

    def shared(self, shaft: Belongs, loading: float) -> FloatArray:
        """Return what a shaft does for any golfer of a loading.

        Parameters
        ----------
        shaft : Belongs
            With every level told.
        loading : float
            One or minus one.
        """
        levels = [self.does[level, getattr(shaft, level)] for level in SHAFT_LEVELS]
        return np.asarray(np.sum(levels, axis=0) + loading * self.by_loading[shaft.model])


def draw_catalogue(
    spread: FloatArray,
    shares: Mapping[str, float],
    loading: float,
    rng: np.random.Generator,
) -> Catalogue:
    """Draw every shaft.

    Parameters
    ----------
    spread : FloatArray, shape (k,)
        Standard deviation of what clubs do to each of k columns.
    shares : mapping of str to float
        Of the variance, by level; what is left goes to golfer and club together.
    loading : float
        Standard deviation of what a model does by loading, as a share of the spread.
    rng : numpy.random.Generator
    """
    shafts = _shafts()
    does: dict[tuple[str, str], FloatArray] = {}
    for level in SHAFT_LEVELS:
        for name in dict.fromkeys(getattr(one, level) for one in shafts):
            drawn = rng.standard_normal(len(spread))
            does[level, name] = np.sqrt(shares[level]) * spread * drawn
    models = dict.fromkeys(one.model for one in shafts)
    by_loading = {name: loading * spread * rng.standard_normal(len(spread)) for name in models}
    later = [_is_later(one) for one in shafts]
    return Catalogue(
        old=tuple(
            one
            for one, (family, model) in zip(shafts, later, strict=True)
            if not family and not model
        ),
        later_models=tuple(
            one for one, (family, model) in zip(shafts, later, strict=True) if not family and model
        ),
        later_families=tuple(
            one for one, (family, _) in zip(shafts, later, strict=True) if family
        ),
        does=does,
        by_loading=by_loading,
        own_sd=np.sqrt(1.0 - sum(shares.values())) * spread,
    )


def with_head(shaft: Belongs, head: str) -> Belongs:
    """Return what a club with this shaft in a head belongs to."""
    return replace(shaft, head=head)


def _shafts() -> tuple[Belongs, ...]:
    found = []
    for family in range(FAMILIES):
        for generation in range(GENERATIONS):
            line = f"family {family} generation {generation}"
            for model in range(MODELS):
                name = f"{line} model {model}"
                found += [
                    Belongs(
                        family=f"family {family}",
                        generation=line,
                        model=name,
                        piece=f"{name} sample {piece}",
                    )
                    for piece in range(PIECES)
                ]
    return tuple(found)


def _is_later(shaft: Belongs) -> tuple[bool, bool]:
    """Return whether family and model came after the record."""
    family, model = int(shaft.family.split()[-1]), int(shaft.model.split()[-1])
    return family >= OLD_FAMILIES, model >= OLD_MODELS
