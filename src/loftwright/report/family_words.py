"""What changed from one generation to the next, in a sentence that the samples bear."""

from collections.abc import Mapping
from math import exp

from loftwright.domain.family import Against
from loftwright.domain.sections import Section
from loftwright.report.likeness_words import at, percent
from loftwright.report.numbers import count, listed, signed


def changed(old: str, new: str, found: Mapping[Section, Against]) -> str:
    """Return what changed from an old model to the new one.

    Parameters
    ----------
    old, new : str
        What the two are called.
    found : mapping of Section to Against
        The new one against the old one.

    Notes
    -----
    Only what the samples bear is claimed; everything else is said to be within their spread, or
    refused for want of samples.
    """
    if not found:
        return f"From {old} to {new} nothing is said: one of the two was not measured."
    borne = [(section, told) for section, told in found.items() if told.claimed]
    borne.sort(key=lambda pair: -abs(pair[1].log))
    claims = [f"{_softer(told)} {at(section)}" for section, told in borne]
    if claims:
        noises = listed([percent(told.noise) for _, told in borne])
        return f"{new} is {listed(claims)} than {old}; bench noise {noises}."
    reason = refusal(found)
    return f"From {old} to {new} no change is claimed: {reason}."


def refusal(found: Mapping[Section, Against]) -> str:
    """Return why no difference is claimed."""
    if all(told.margin is None for told in found.values()):
        return "no model of the family has two measured samples, so their spread is not known"
    section, told = max(found.items(), key=lambda pair: abs(pair[1].log))
    many = f"{count(told.samples, 'sample')} against {told.other_samples}"
    if told.margin is None:
        return f"the spread of samples is not known {at(section)}"
    return (
        f"the widest, {percent(abs(exp(told.log) - 1.0))} {at(section)}, is within what {many} "
        f"may differ by, {percent(told.margin)}"
    )


def cell_words(told: Against | None) -> tuple[str, str]:
    """Return a section's difference in per cent, and what it rests on."""
    if told is None:
        return "–", "mostly not seen"
    share = 100.0 * (exp(told.log) - 1.0)
    margin = "spread not known" if told.margin is None else f"within {percent(told.margin)}"
    return (
        f"{signed(share, 1)} %",
        f"{margin}; {told.samples} against {told.other_samples}, noise {percent(told.noise)}",
    )


def _softer(told: Against) -> str:
    share = exp(told.log) - 1.0
    return f"{percent(abs(share))} {'softer' if share < 0.0 else 'stiffer'}"
