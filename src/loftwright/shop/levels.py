"""What a shop knows of shafts and heads: family, generation, model and sample each do a share.

A club's expected effect is the sum of what its head does, of what its shaft's family,
generation, model and sample do, and of what the model does otherwise for golfers of one kind,
each shrunk to nought by how much such things differ at all.
"""

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final, TypeAlias

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.shop.grams import Gram
from loftwright.shop.population import Population, posterior

Member: TypeAlias = tuple[str, str]
"""A level and the name of what is of it."""

KINDS: Final = ("speed", "loading", "ability")
"""Of golfers: a model may do something else to each."""
LINE: Final = ("family", "generation", "model", "piece")
"""Of shafts, from the widest to the sample in hand."""
LEVELS: Final = ("head", *LINE, *KINDS)
"""What a club's parts belong to, and what its shaft's model does for one kind of golfers."""
_START: Final = 0.04
"""Variance at each level before anything was learned [scaled units squared]."""
_LEAST: Final = 1e-6
_OF: Final = " | "


@dataclass(frozen=True, slots=True, kw_only=True)
class Belongs:
    """To what a club's parts belong, and who hits it; empty where nobody knows.

    Attributes
    ----------
    head, family, generation, model, piece : str
    speed, loading, ability : str
        What kind of golfer hits it.
    """

    head: str = ""
    family: str = ""
    generation: str = ""
    model: str = ""
    piece: str = ""
    speed: str = ""
    loading: str = ""
    ability: str = ""

    def name(self, level: str) -> str:
        """Return the name of what it belongs to at a level; empty where nobody knows."""
        told: str = getattr(self, level)
        if level not in KINDS:
            return told
        return f"{self.model}{_OF}{told}" if self.model and told else ""

    @property
    def members(self) -> tuple[Member, ...]:
        """Level and name of everything known that it belongs to."""
        told = ((level, self.name(level)) for level in LEVELS)
        return tuple((level, name) for level, name in told if name)


def model_and_kind(name: str) -> tuple[str, str]:
    """Return the model and the kind of golfers in the name of a member of one of `KINDS`."""
    model, _, kind = name.rpartition(_OF)
    return model, kind


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Effects:
    """What everything that clubs belong to is believed to do, in the units of the sums.

    Attributes
    ----------
    members : tuple of (str, str)
        Level and name.
    means : FloatArray, shape (M, R)
    covariance : FloatArray, shape (M, R, M, R)
    variances : FloatArray, shape (L, R)
        How much things of a level differ; nought at a level of which nothing was hit, since that
        is then part of what differs between clubs.
    fittings : dict of (str, str) to int
        In how many each was hit.
    """

    members: tuple[Member, ...]
    means: FloatArray
    covariance: FloatArray
    variances: FloatArray
    fittings: dict[Member, int]

    def of(self, belongs: Belongs) -> tuple[FloatArray, FloatArray]:
        """Return what a club is expected to do and its covariance, of what is known of it.

        Returns
        -------
        FloatArray, shape (R,)
        FloatArray, shape (R, R)
            What is not known of its parts adds how much such things differ.
        """
        means, covariance = self.joint([belongs])
        return means[0], covariance[0, :, 0, :]

    def joint(self, belongs: Sequence[Belongs]) -> tuple[FloatArray, FloatArray]:
        """Return what clubs are expected to do, and the doubt that they share.

        Returns
        -------
        FloatArray, shape (S, R)
        FloatArray, shape (S, R, S, R)
            Clubs that share a part share its doubt; a part that was never hit adds how much such
            parts differ, once for all clubs that name it.
        """
        clubs, responses = len(belongs), self.means.shape[1]
        place = {member: number for number, member in enumerate(self.members)}
        chosen = np.zeros((clubs, len(self.members)))
        strange: dict[tuple[str, object], list[int]] = {}
        for club, told in enumerate(belongs):
            for level in LEVELS:
                member = (level, told.name(level))
                if member in place:
                    chosen[club, place[member]] = 1.0
                elif (what := _strange(told, level, place)) is not None:
                    strange.setdefault((level, what or (club,)), []).append(club)
        used = np.flatnonzero(chosen.any(axis=0))
        ways = chosen[:, used]
        doubt = self.covariance[used][:, :, used]
        covariance = np.einsum("sm,mrnq,tn->srtq", ways, doubt, ways, optimize=True)
        for (level, _), those in strange.items():
            differ = np.diag(self.variances[LEVELS.index(level)])
            for one, other in product(those, those):
                covariance[one, :, other, :] += differ
        means = ways @ self.means[used]
        return np.asarray(means), np.asarray(covariance).reshape(
            clubs, responses, clubs, responses
        )

    def seen(self, belongs: Belongs) -> tuple[str, str, int]:
        """Return level, name and fittings of the narrowest part of a shaft that was hit."""
        for level in reversed(LINE):
            name = belongs.name(level)
            hit = self.fittings.get((level, name), 0) if name else 0
            if hit:
                return level, name, hit
        return "", "", 0


def _strange(belongs: Belongs, level: str, known: Container[Member]) -> str | None:
    """Return what stands for a part that was never hit: empty for one of the club alone.

    None where nothing is to be added: a shaft that nobody put into a family does by itself what
    its family would.
    """
    name = belongs.name(level)
    if name:
        return name
    if level in KINDS:
        return belongs.model
    if level in LINE:
        narrower = LINE[LINE.index(level) + 1 :]
        if any((one, belongs.name(one)) in known for one in narrower):
            return None
        return next((f"{one} {belongs.name(one)}" for one in narrower if belongs.name(one)), "")
    return ""


def known_effects(
    grams: Sequence[Gram],
    belief: Population,
    belongs: Mapping[tuple[str, str], Belongs],
    rounds: int = 25,
) -> Effects:
    """Return what everything that clubs belong to does.

    Parameters
    ----------
    grams : sequence of Gram
    belief : Population
    belongs : mapping of (fitting, club) to Belongs
    rounds : int
        Of expectation-maximisation for how much things of a level differ.

    Notes
    -----
    A fitting's own slopes and club effects are integrated out: with P the precision of club
    effects about what is expected of them and C their posterior covariance, a fitting tells of
    these expectations with information P - P C P, at P times what it would find if all were
    nought. Only contrasts within a fitting tell anything, since its level is the golfer's.
    """
    members = tuple(
        sorted({one for told in belongs.values() for one in told.members}, key=_in_order)
    )
    responses = belief.slopes.shape[1]
    information, pull = _told_by(grams, belief, belongs, members)
    variances = np.full((len(LEVELS), responses), _START)
    level_of = np.array([LEVELS.index(level) for level, _ in members], dtype=np.int64)
    size = len(members) * responses
    for _ in range(rounds):
        own = np.diag(1.0 / variances[level_of].ravel())
        covariance = np.linalg.inv(information + own)
        means = (covariance @ pull).reshape(len(members), responses)
        doubt = np.diag(covariance).reshape(len(members), responses)
        squares = means**2 + doubt
        for number in range(len(LEVELS)):
            there = level_of == number
            if there.any():
                variances[number] = np.maximum(squares[there].mean(axis=0), _LEAST)
            else:
                variances[number] = 0.0
    shaped = covariance.reshape(len(members), responses, len(members), responses)
    return Effects(
        members=members,
        means=frozen_array(means),
        covariance=frozen_array(shaped if size else np.zeros((0, responses, 0, responses))),
        variances=frozen_array(variances),
        fittings={name: _hit_in(name, belongs) for name in members},
    )


def _told_by(
    grams: Sequence[Gram],
    belief: Population,
    belongs: Mapping[tuple[str, str], Belongs],
    members: tuple[Member, ...],
) -> tuple[FloatArray, FloatArray]:
    place = {name: number for number, name in enumerate(members)}
    features, responses = belief.slopes.shape
    size = len(members) * responses
    information, pull = np.zeros((size, size)), np.zeros(size)
    between = np.linalg.inv(belief.clubs)
    for gram in grams:
        clubs = len(gram.clubs)
        found = posterior(gram, belief, np.zeros((clubs, responses)))
        chosen = np.zeros((clubs, len(members)))
        for row, club in enumerate(gram.clubs):
            for name in belongs[gram.fitting, club].members:
                chosen[row, place[name]] = 1.0
        # Club-major, so that effects and members run alike.
        doubt = found.covariance[:, features:, :, features:].transpose(1, 0, 3, 2)
        flat = doubt.reshape(clubs * responses, clubs * responses)
        precision = np.kron(np.eye(clubs), between)
        told = precision - precision @ flat @ precision
        ways = np.kron(chosen, np.eye(responses))
        information += ways.T @ told @ ways
        pull += ways.T @ (precision @ found.effects.ravel())
    return information, pull


def _hit_in(name: Member, belongs: Mapping[tuple[str, str], Belongs]) -> int:
    return len({fitting for (fitting, _), told in belongs.items() if name in told.members})


def _in_order(name: Member) -> tuple[int, str]:
    return LEVELS.index(name[0]), name[1]
