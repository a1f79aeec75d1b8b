"""A family of shafts: each model against a reference, and which claims its samples bear."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot, sqrt
from statistics import fmean
from typing import Final

from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.sections import Section, bending_apart, scale_apart, seen_share

CLAIMED: Final = 0.95
"""How sure a claim must be, two-sided."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Against:
    """A model against another in one section, over all their samples.

    Attributes
    ----------
    log : float
        Mean logarithm of the ratio of bending stiffness.
    samples, other_samples : int
        That were seen there.
    noise : float
        Standard error of one sample's figure, as the bench gives it.
    margin : float, optional
        Half the width of the range of `CLAIMED`; None where no spread between samples is known.
    """

    log: float
    samples: int
    other_samples: int
    noise: float
    margin: float | None

    @property
    def claimed(self) -> bool:
        """Whether the samples bear the claim that it differs."""
        return self.margin is not None and abs(self.log) > self.margin


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """How much samples of one model differ in a section, pooled over a family.

    Attributes
    ----------
    sd : float
        Of the logarithm; never below what the bench alone would show.
    freedom : int
        Samples beyond the first of each model.
    """

    sd: float
    freedom: int


def spread_of(models: Mapping[str, Sequence[MeasuredProfile]], section: Section) -> Spread | None:
    """Return the spread between samples in a section, pooled over the models of a family.

    Parameters
    ----------
    models : mapping of str to sequence of MeasuredProfile
        One profile a sample.
    section : Section

    Returns
    -------
    Spread or None
        None while no model has two samples that were seen there.
    """
    total, freedom, noises = 0.0, 0, []
    for samples in models.values():
        seen = [one for one in samples if seen_share(one, section) >= 0.5]
        apart = [bending_apart(one, seen[0], section) for one in seen[1:]]
        found = [one for one in apart if one is not None]
        if not found:
            continue
        logs = [0.0, *(one.log for one in found)]
        total += sum((one - fmean(logs)) ** 2 for one in logs)
        freedom += len(logs) - 1
        noises += [one.noise / sqrt(2.0) for one in found]
    if not freedom:
        return None
    return Spread(sd=max(sqrt(total / freedom), fmean(noises)), freedom=freedom)


def against(
    one: Sequence[MeasuredProfile],
    other: Sequence[MeasuredProfile],
    section: Section,
    spread: Spread | None,
) -> Against | None:
    """Return a model against another in a section, over all their samples.

    Parameters
    ----------
    one, other : sequence of MeasuredProfile
        One profile a sample; several of one sample would count it twice.
    section : Section
    spread : Spread, optional
        Between samples of a model of this family.

    Returns
    -------
    Against or None
        None where no pair of samples was seen.

    Notes
    -----
    The margin is Student's t times s sqrt(1/n + 1/m), with the freedom of the pooled spread s, and
    where the benches differ their scale errors beside it, which no number of samples lessens. It
    stands for samples drawn at random from what is sold, of a spread that the models share.
    """
    pairs = [
        (left, right, bending_apart(a, b, section))
        for left, a in enumerate(one)
        for right, b in enumerate(other)
    ]
    seen = [(left, right, told) for left, right, told in pairs if told is not None]
    if not seen:
        return None
    samples, others = len({left for left, _, _ in seen}), len({right for _, right, _ in seen})
    margin = None
    if spread is not None:
        error = spread.sd * sqrt(1.0 / samples + 1.0 / others)
        shared = max(scale_apart(one[left], other[right]) for left, right, _ in seen)
        margin = _students(spread.freedom) * hypot(error, shared)
    return Against(
        log=fmean(told.log for _, _, told in seen),
        samples=samples,
        other_samples=others,
        noise=fmean(told.noise for _, _, told in seen) / sqrt(2.0),
        margin=margin,
    )


def _students(freedom: int) -> float:
    from scipy.special import stdtrit  # noqa: PLC0415 - scipy is slow to import

    return float(stdtrit(freedom, 0.5 + CLAIMED / 2.0))
