"""Where the record says otherwise than a shaft's label, than the bench, or than its sisters."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby, permutations
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.evidence.shop_beliefs import SWING_EFFECTS
from loftwright.shop.columns import FEATURES, RESPONSES
from loftwright.shop.label_words import said_by, stiffness_by
from loftwright.shop.learned import ShopLearned
from loftwright.shop.levels import Belongs

MARGIN: Final = {"launch": 0.375, "spin": 0.5}
"""By how much a range must miss what was claimed, in units of the sums: 0.3 degrees of launch,
100 rpm of spin (judgement)."""
FEWEST: Final = 3
"""Fittings in which a shaft was hit before it is held against its label (judgement)."""
_SURE: Final = 1.96
_SAME: Final = "one head for all"
_FROM_SWING: Final = [FEATURES.index(name) for name in SWING_EFFECTS]
_PLACES: Final = {one.column: place for place, one in enumerate(RESPONSES)}
_UNITS: Final = {one.column: one.unit for one in RESPONSES}


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradiction:
    """A shaft that does otherwise than is said or measured of it, as golfers swing it.

    Attributes
    ----------
    kind : {"label", "stiffness", "physics", "sample"}
        What it contradicts: the label's words, the order of labels within a family, what bench
        and physics expect, or the other samples of its model.
    level, member : str
    response : {"launch", "spin"}
    mean, low, high : float
        Against `against`, or else the middle of the others, with its 95 % range: of
        all that it does for a label, of what is beyond the bench for physics and samples, SI.
    fittings : int
        In which it was hit.
    claim : str
        As printed.
    against : str
        The softer model of a family, else empty.
    """

    kind: str
    level: str
    member: str
    response: str
    mean: float
    low: float
    high: float
    fittings: int
    claim: str = ""
    against: str = ""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Claims:
    """What is said of a shop's shafts, by model.

    Attributes
    ----------
    labels : dict of str to str
        What is printed.
    bench : dict of str to FloatArray
        What bench and physics expect each to change in launch, as golfers swing it, shape (R,) in
        units of the sums; nought of a model that is not in it.
    """

    labels: Mapping[str, str] = field(default_factory=dict)
    bench: Mapping[str, FloatArray] = field(default_factory=dict)


def contradictions(
    learned: ShopLearned, shafts: Sequence[Belongs], slopes: FloatArray, claims: Claims
) -> tuple[Contradiction, ...]:
    """Return where a shop's record says otherwise than what is said of its shafts.

    Parameters
    ----------
    learned : ShopLearned
    shafts : sequence of Belongs
        The shop's samples.
    slopes : FloatArray, shape (P, R)
        Of launch on the features, physics and all, at the shop's usual golfer.
    claims : Claims

    Notes
    -----
    A model does what the shop's samples of it do on average, for all golfers together. Only how
    shafts differ is known well, so each stands against the middle (median) of the others, which
    one odd shaft does not move. With a margin beyond a range of 95 %, chance alone seldom says
    anything.
    """
    known = _known(learned, shafts)
    if not known:
        return ()
    does = _does(learned, known, slopes)
    found = [
        *_of_models(learned, does, claims),
        *_of_stiffness(learned, does, claims),
        *_of_samples(learned, shafts, slopes),
    ]
    return tuple(sorted(found, key=lambda one: (one.member, one.kind, one.response)))


def as_swung(
    learned: ShopLearned, clubs: Sequence[Belongs], slopes: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return what clubs do to launch, by themselves and through the swing, beyond the bench.

    Parameters
    ----------
    learned : ShopLearned
    clubs : sequence of Belongs
    slopes : FloatArray, shape (P, R)

    Returns
    -------
    FloatArray, shape (S, R)
    FloatArray, shape (S, R, S, R)
        In units of the sums; strike counts by its straight slopes alone.
    """
    own, own_doubt = learned.effects.joint(clubs, everyone=True)
    swing, swing_doubt = learned.swing_effects.joint(clubs, everyone=True)
    ways = slopes[_FROM_SWING]
    doubt = np.einsum("sqtp,qr,pu->srtu", swing_doubt, ways, ways, optimize=True)
    return own + swing @ ways, np.asarray(own_doubt + doubt)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Does:
    """What models do beyond the bench, as the shop's samples of them do it."""

    models: tuple[Belongs, ...]
    means: FloatArray
    doubt: FloatArray

    def with_bench(self, claims: Claims) -> FloatArray:
        nothing = np.zeros(len(RESPONSES))
        return self.means + np.array([claims.bench.get(one.model, nothing) for one in self.models])


def _known(learned: ShopLearned, shafts: Sequence[Belongs]) -> dict[str, list[Belongs]]:
    """Return the samples that were hit of every model that was hit often enough.

    Where they are no longer here, the model stands for itself, with how samples differ as doubt.
    """
    hit = learned.effects.fittings
    found: dict[str, list[Belongs]] = {}
    every: dict[str, Belongs] = {}
    for one in sorted(shafts, key=lambda one: (one.model, one.piece)):
        if one.model and hit.get(("model", one.model), 0) >= FEWEST:
            every[one.model] = replace(one, head=_SAME, piece="")
            if hit.get(("piece", one.piece), 0):
                found.setdefault(one.model, []).append(replace(one, head=_SAME))
    return {model: found.get(model, [itself]) for model, itself in every.items()}


def _does(
    learned: ShopLearned, known: Mapping[str, Sequence[Belongs]], slopes: FloatArray
) -> _Does:
    samples = [one for those in known.values() for one in those]
    means, doubt = as_swung(learned, samples, slopes)
    names = [one.model for one in samples]
    ways = np.array(
        [[(name == model) / len(those) for name in names] for model, those in known.items()]
    )
    return _Does(
        models=tuple(those[0] for those in known.values()),
        means=ways @ means,
        doubt=np.einsum("ms,srtq,nt->mrnq", ways, doubt, ways, optimize=True),
    )


def _of_models(learned: ShopLearned, does: _Does, claims: Claims) -> list[Contradiction]:
    if len(does.models) < 2:
        return []
    whole_means = does.with_bench(claims)
    found = []
    for place, shaft in enumerate(does.models):
        for response in MARGIN:
            beyond = _Range.against_others(place, does.means, does.doubt, response)
            if beyond.misses(0.0):
                found.append(beyond.told("physics", learned, ("model", shaft.model)))
            for says in said_by(claims.labels.get(shaft.model, "")):
                whole = _Range.against_others(place, whole_means, does.doubt, response)
                if says.response == response and whole.lies_beyond(-says.sign):
                    found.append(
                        whole.told("label", learned, ("model", shaft.model), claim=says.words)
                    )
    return found


def _of_stiffness(learned: ShopLearned, does: _Does, claims: Claims) -> list[Contradiction]:
    """Return models that launch higher or spin more than a softer label of their family."""
    labels = [claims.labels.get(one.model, "") for one in does.models]
    steps = [stiffness_by(one) for one in labels]
    whole_means = does.with_bench(claims)
    found = []
    for stiff, soft in permutations(range(len(does.models)), 2):
        one, other = does.models[stiff], does.models[soft]
        line = (one.family, one.generation) == (other.family, other.generation)
        step, softer = steps[stiff], steps[soft]
        if step is None or softer is None or step <= softer or not one.family or not line:
            continue
        ways = np.zeros(len(does.models))
        ways[[stiff, soft]] = 1.0, -1.0
        for response in MARGIN:
            size = float(ways @ whole_means[:, _PLACES[response]])
            apart = _Range.of(size, ways, does.doubt, response)
            if apart.lies_beyond(1):
                member = ("model", one.model)
                found.append(
                    apart.told(
                        "stiffness", learned, member, claim=labels[stiff], against=other.model
                    )
                )
    return found


def _of_samples(
    learned: ShopLearned, shafts: Sequence[Belongs], slopes: FloatArray
) -> list[Contradiction]:
    """Return samples that do otherwise than the other samples of their model."""
    hit = [
        one
        for one in sorted(shafts, key=lambda one: (one.model, one.piece))
        if one.model and learned.effects.fittings.get(("piece", one.piece), 0) >= FEWEST
    ]
    found = []
    for _, those in groupby(hit, key=lambda one: one.model):
        samples = [Belongs(head=_SAME, model=one.model, piece=one.piece) for one in those]
        if len(samples) < 2:
            continue
        means, doubt = as_swung(learned, samples, slopes)
        for place, sample in enumerate(samples):
            for response in MARGIN:
                apart = _Range.against_others(place, means, doubt, response)
                if apart.misses(0.0):
                    found.append(apart.told("sample", learned, ("piece", sample.piece)))
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class _Range:
    response: str
    mean: float
    half: float

    @classmethod
    def of(cls, mean: float, ways: FloatArray, doubt: FloatArray, response: str) -> "_Range":
        place = _PLACES[response]
        variance = float(ways @ doubt[:, place, :, place] @ ways)
        return cls(response=response, mean=mean, half=_SURE * variance**0.5)

    @classmethod
    def against_others(
        cls, one: int, means: FloatArray, doubt: FloatArray, response: str
    ) -> "_Range":
        """Return one against the middle of the others, as sure as against their mean."""
        said = means[:, _PLACES[response]]
        ways = np.full(len(said), -1.0 / (len(said) - 1))
        ways[one] = 1.0
        return cls.of(float(said[one] - np.median(np.delete(said, one))), ways, doubt, response)

    def misses(self, claim: float) -> bool:
        return abs(self.mean - claim) > self.half + MARGIN[self.response]

    def lies_beyond(self, sign: int) -> bool:
        return sign * self.mean > self.half + MARGIN[self.response]

    def told(
        self,
        kind: str,
        learned: ShopLearned,
        member: tuple[str, str],
        *,
        claim: str = "",
        against: str = "",
    ) -> Contradiction:
        unit = _UNITS[self.response]
        return Contradiction(
            kind=kind,
            level=member[0],
            member=member[1],
            response=self.response,
            mean=self.mean * unit,
            low=(self.mean - self.half) * unit,
            high=(self.mean + self.half) * unit,
            fittings=learned.effects.fittings[member],
            claim=claim,
            against=against,
        )
