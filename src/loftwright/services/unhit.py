"""What is told, without a ball, of the clubs that could be built from those of a fitting."""

from dataclasses import dataclass, replace

from loftwright.domain.golfer import Hand
from loftwright.domain.rack import Rack
from loftwright.evidence.neighbours import beside, p_keep
from loftwright.evidence.result import ClubResult, Estimate
from loftwright.evidence.run_band import RunBand, run_bands
from loftwright.physics.sleeve import Convention
from loftwright.services.could_be_built import Maker
from loftwright.services.evidence import Compared
from loftwright.services.not_hit import Made, Unhit, better_ways

__all__ = ["Beside", "Made", "Unhit", "beside_those_hit"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Beside:
    """The clubs that were not hit, with what is told of them.

    Of a change that goes two ways the better one stands for both.

    Attributes
    ----------
    results : dict of str to ClubResult
        What is told, by label, of both ways of a change; nothing of those that nothing can be
        told of.
    above_leader : dict of str to float
        Probability of being worth more than the club that leads, by label.
    on_leader : dict of str to Estimate
        What each is worth more than the club that leads [m], by label.
    put_forward : str, optional
        The one that should be hit before anything is decided.
    runs : dict of str to RunBand
        Of clubs hit and not hit.
    p_keep : float, optional
        Probability that no ranked club is worth a change from the own one; None where the own
        club is not ranked.
    """

    unhit: tuple[Unhit, ...]
    results: dict[str, ClubResult]
    above_leader: dict[str, float]
    on_leader: dict[str, Estimate]
    put_forward: str | None
    runs: dict[str, RunBand]
    p_keep: float | None


def beside_those_hit(
    found: Compared, rack: Rack, hand: Hand, convention: Convention
) -> Beside | None:
    """Return what could be built beside the clubs that were hit, and what is told of it.

    Parameters
    ----------
    found : Compared
    rack : Rack
        For shafts, sleeves and prices.
    hand : Hand
    convention : Convention
        How a sleeve's setting turns into loft, lie and face.

    Returns
    -------
    Beside, optional
        None while no clubs can be compared.
    """
    comparison = found.comparison
    if comparison is None or comparison.standing is None:
        return None
    maker = Maker(found.now, comparison, rack, hand, convention, found.table.shifts)
    unhit = tuple(maker.everything())
    told = tuple(one.neighbour for one in unhit if one.neighbour is not None)
    traits = found.table.traits
    known = None
    if found.shop is not None:
        pinned = replace(found.pinned, rack=rack)
        known = pinned.beliefs((*traits, *(one.traits for one in told)))
    everyone = beside(comparison, traits, told, known)
    leader = everyone.names[comparison.standing.leader]
    worth = dict(zip(everyone.names, everyone.value.tolist(), strict=True))
    bands = run_bands(everyone.swung.launches, comparison.home)
    return Beside(
        unhit=better_ways(
            unhit, {one.name: worth[one.name] for one in told}, everyone.put_forward
        ),
        results={one.club: one for one in everyone.results},
        above_leader={one.name: everyone.p_above(one.name, leader) for one in told},
        on_leader={one.name: everyone.difference(one.name, leader) for one in told},
        put_forward=everyone.put_forward,
        runs={name: run for name, run in zip(everyone.names, bands, strict=True) if run},
        p_keep=p_keep(comparison),
    )
