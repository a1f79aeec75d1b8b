"""What a shop knows of shafts and heads: family, generation, model and sample each do a share.

A club's expected effect is the sum of what its head does, of what its shaft's family,
generation, model and sample do, and of what the model does otherwise for golfers of one kind,
each shrunk to nought by how much such things differ at all.
"""

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import product
from typing import Final, TypeAlias

import numpy as np

from loftwright.arrays import FloatArray, frozen_array, frozen_index
from loftwright.shop.alike import Alike, carried, correlation_of, like_members
from loftwright.shop.grams import Gram
from loftwright.shop.level_learning import Everything, learned_levels
from loftwright.shop.population import Population
from loftwright.shop.told import told_by, told_of_one

Member: TypeAlias = tuple[str, str]
"""A level and the name of what is of it."""

KINDS: Final = ("speed", "loading", "ability")
"""Of golfers: a model may do something else to each."""
LINE: Final = ("family", "generation", "model", "piece")
"""Of shafts, from the widest to the sample in hand."""
_WITHOUT_KINDS: Final = ("head", *LINE)
LEVELS: Final = (*_WITHOUT_KINDS, *KINDS)
"""What a club's parts belong to, and what its shaft's model does for one kind of golfers."""
START: Final = 0.04
"""Variance at each level where nobody says how much its things differ [scaled units squared]; a
quarter of it of what a model does otherwise for a kind of golfers."""
_FEWEST_OF_A_KIND: Final = 3
_MOST_KINDS: Final = 200
"""Of models by golfers, those hit most: learning takes a time that grows with their cube."""
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Where a member's figures come from.

    Attributes
    ----------
    fittings : int
        In which it was hit.
    like : str
        Of what they are carried over, where it was never hit; else empty.
    likeness : float
        To that, in [0, 1].
    """

    fittings: int
    like: str = ""
    likeness: float = 0.0


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
    like : dict of (str, str) to (str, float)
        Name and likeness of what a member that was never hit is most like, of its own level.
    counted : dict of str to float
        Share at which a fitting counts that would decide too much; all others count whole.
    """

    members: tuple[Member, ...]
    means: FloatArray
    covariance: FloatArray
    variances: FloatArray
    fittings: dict[Member, int]
    like: dict[Member, tuple[str, float]] = field(default_factory=dict)
    counted: dict[str, float] = field(default_factory=dict)

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

    def joint(
        self, belongs: Sequence[Belongs], *, everyone: bool = False
    ) -> tuple[FloatArray, FloatArray]:
        """Return what clubs are expected to do, and the doubt that they share.

        Parameters
        ----------
        belongs : sequence of Belongs
        everyone : bool
            Of all golfers together rather than of one: what kinds of golfers do otherwise is
            left out.

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
            for level in _WITHOUT_KINDS if everyone else LEVELS:
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

    def source(self, member: Member) -> "Source":
        """Return where what is believed of a member comes from.

        Raises
        ------
        KeyError
            If nothing is known of it.
        """
        old, likeness = self.like.get(member, ("", 0.0))
        return Source(fittings=self.fittings[member], like=old, likeness=likeness)

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
    *,
    start: FloatArray | None = None,
    alike: Alike | None = None,
    golfers: Mapping[str, str] | None = None,
) -> Effects:
    """Return what everything that clubs belong to does.

    Parameters
    ----------
    grams : sequence of Gram
    belief : Population
    belongs : mapping of (fitting, club) to Belongs
    rounds : int
        Of expectation-maximisation for how much things of a level differ.
    start : FloatArray, shape (L, R), optional
        How much they differ before anything was learned; `START` without it.
    alike : mapping, optional
        How alike members of one level are; those that were never hit are then known by them.
    golfers : mapping of str to str, optional
        Whose each fitting is; without it every fitting is a golfer's only one.

    Notes
    -----
    What a model does otherwise for a kind of golfers is asked only where golfers of two kinds hit
    it, in three fittings each: it cannot be told from the model before. In a large shop it is
    asked of the 200 that were hit most.
    """
    shares = [[0.25 if one in KINDS else 1.0] for one in LEVELS]
    usual = START * np.repeat(shares, belief.slopes.shape[1], axis=1)
    kept = _told_apart(belongs)
    members = tuple(sorted({one for told in kept.values() for one in told}, key=_in_order))
    place = {member: number for number, member in enumerate(members)}
    chosen = {key: [place[one] for one in own] for key, own in kept.items()}
    everything = Everything(
        told=told_by(grams, belief, chosen),
        alone=tuple(
            told_of_one(grams, belief, chosen, one) for one in range(belief.slopes.shape[1])
        ),
        level_of=frozen_index([LEVELS.index(level) for level, _ in members]),
        start=frozen_array(usual if start is None else start),
        correlation=correlation_of(members, alike or {}),
    )
    found = learned_levels(everything, golfers or {}, rounds)
    fittings = {member: _hit_in(member, kept) for member in members}
    effects = Effects(
        members=members,
        means=found.means,
        covariance=found.covariance,
        variances=found.variances,
        fittings=fittings,
        counted=found.counted,
    )
    return _with_like(effects, alike or {})


def _with_like(effects: Effects, alike: Alike) -> Effects:
    """Return effects with what was never hit but is like something that was."""
    like = like_members(effects.members, alike)
    if not like:
        return effects
    members = (*effects.members, *sorted(like, key=_in_order))
    levels = [LEVELS.index(level) for level, _ in members]
    means, covariance = carried(
        effects.means,
        effects.covariance,
        effects.variances[levels],
        correlation_of(members, alike),
    )
    return replace(
        effects,
        members=members,
        means=frozen_array(means),
        covariance=frozen_array(covariance),
        fittings={**effects.fittings, **dict.fromkeys(like, 0)},
        like=like,
    )


def _told_apart(
    belongs: Mapping[tuple[str, str], Belongs],
) -> dict[tuple[str, str], tuple[Member, ...]]:
    """Return what clubs belong to, less kinds of golfers that cannot be told from the model."""
    kinds: dict[tuple[str, str], dict[Member, set[str]]] = {}
    for (fitting, _), told in belongs.items():
        for level in KINDS:
            if name := told.name(level):
                hit = kinds.setdefault((level, told.model), {})
                hit.setdefault((level, name), set()).add(fitting)
    asked = {
        member
        for hit in kinds.values()
        if sum(len(those) >= _FEWEST_OF_A_KIND for those in hit.values()) >= 2
        for member, those in hit.items()
        if len(those) >= _FEWEST_OF_A_KIND
    }
    times = {
        member: len(those)
        for hit in kinds.values()
        for member, those in hit.items()
        if member in asked
    }
    asked = set(sorted(times, key=lambda one: (-times[one], one))[:_MOST_KINDS])
    return {
        key: tuple(one for one in told.members if one[0] not in KINDS or one in asked)
        for key, told in belongs.items()
    }


def _hit_in(member: Member, kept: Mapping[tuple[str, str], tuple[Member, ...]]) -> int:
    return len({fitting for (fitting, _), members in kept.items() if member in members})


def _in_order(name: Member) -> tuple[int, str]:
    return LEVELS.index(name[0]), name[1]
