"""Virtual whole clubs: heads on shafts, as hit and as they could be built, and what they truly do.

What a club does to a swing is drawn in three parts: the shaft's, which goes with it into another
head, the assembly's, which stays under a small change of build, and the rest. Heads differ in what
a fitter cannot see, and in launch beyond that, as they are believed to. A neighbour is that club
built: its head and its shaft, what the change of build does on average, and what this golfer makes
of it. A heavier head is one in the impact, with its weight in a place that nobody knows.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE
from loftwright.domain.home import Home
from loftwright.domain.names import OWN, TREES
from loftwright.evidence.build_changes import (
    FOUR_GRAMS,
    FROM_THE_CENTRE,
    HALF_INCH,
    BuildChange,
    head_mass_changed,
    length_changed,
    shaft_mass_changed,
    sleeve_turned,
)
from loftwright.evidence.clubs import HEAD_SPREAD, KEPT_BY_BUILD, SHARED_BY_SHAFT, ClubTraits
from loftwright.evidence.neighbours import Neighbour
from loftwright.evidence.scales import LAUNCH_SCALE
from loftwright.evidence.value import with_holes
from loftwright.physics.head_variation import VARIATIONS, varied_head
from loftwright.physics.heads import REFERENCE_HEAD, Head
from loftwright.physics.sleeve import Bore, Convention, HeadAngles, turned
from loftwright.training.clubs import CLUB_SPREAD
from loftwright.training.device import Device
from loftwright.training.golfer import make_golfer
from loftwright.training.truth import ClubTruth, TrueFigures, true_figures, true_values
from loftwright.training.world import TRUE_SWINGS, SimulatedFitting, World, fitting_of

OWN_HEAD, DEMO_HEAD = "own head", "demo head"
HIT: Final = (
    (OWN_HEAD, "shaft 0"),
    (DEMO_HEAD, "shaft 1"),
    (DEMO_HEAD, "shaft 2"),
    (DEMO_HEAD, "shaft 3"),
)
"""Head and shaft of every club that is hit, the golfer's own first."""

_NOTHING: Final = BuildChange(shift=(0.0,) * 5, doubt=(0.0,) * 7)
_LOFT, _LIE = 10.5 * DEGREE, 58.0 * DEGREE
_BORE: Final = 1.0 * DEGREE
_NO_CHANGE: Final = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Golfers:
    """What golfers truly make of a change of build.

    Attributes
    ----------
    strength : float
        Factor on what shafts and clubs do.
    mean : float
        Share of the expected change of build that golfers deliver on average.
    spread : float
        Factor on how golfers differ in it.
    of_its_own : bool
        Whether a change of build brings a rest of its own, or keeps that of the club it is made
        from.
    """

    strength: float = 1.0
    mean: float = 1.0
    spread: float = 1.0
    of_its_own: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """A club that could be built.

    Attributes
    ----------
    kind : str
        What is changed, in words.
    base : int
        The club that was hit from which it is made.
    shaft : int
        The club that was hit whose shaft it has.
    change : BuildChange
    head_mass : float
        What is put into the head [kg].
    """

    kind: str
    base: int
    shaft: int
    change: BuildChange
    head_mass: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BuiltFitting:
    """A golfer with the clubs that are hit and those that could be built.

    Attributes
    ----------
    simulated : SimulatedFitting
        Of the clubs that are hit.
    traits : tuple of ClubTraits
        Theirs.
    builds : tuple of Build
    neighbours : tuple of Neighbour
        The builds as they are foretold.
    truth : TrueFigures
        Of hit and built clubs.
    worth : FloatArray, shape (S + K,)
        Their true values [m].
    """

    simulated: SimulatedFitting
    traits: tuple[ClubTraits, ...]
    builds: tuple[Build, ...]
    neighbours: tuple[Neighbour, ...]
    truth: TrueFigures
    worth: FloatArray


def builds_of(delivery: FloatArray) -> tuple[Build, ...]:
    """Return what could be built from the clubs of a fitting.

    Parameters
    ----------
    delivery : FloatArray, shape (5,)
        The golfer's head speed [m s^-1], attack, path, face, dynamic loft [rad].

    Notes
    -----
    What a heavier head does is expected of the reference head, whichever the golfer's is.
    """
    head_speed = float(delivery[0])
    found = [Build(kind="new shaft", base=0, shaft=club, change=_NOTHING) for club in (1, 2, 3)]
    found.append(Build(kind="new head", base=1, shaft=0, change=_NOTHING))
    for base in (0, 1):
        for way in (1.0, -1.0):
            lean = 0.0 if way > 0.0 else 180.0 * DEGREE
            found += [
                Build(kind="click", base=base, shaft=base, change=_clicked(lean)),
                Build(
                    kind="half an inch",
                    base=base,
                    shaft=base,
                    change=length_changed(way * HALF_INCH, head_speed),
                ),
                Build(
                    kind="four grams of shaft",
                    base=base,
                    shaft=base,
                    change=shaft_mass_changed(way * FOUR_GRAMS, head_speed),
                ),
                Build(
                    kind="four grams of head",
                    base=base,
                    shaft=base,
                    change=head_mass_changed(way * FOUR_GRAMS, delivery, REFERENCE_HEAD),
                    head_mass=way * FOUR_GRAMS,
                ),
            ]
    return tuple(found)


def _clicked(lean: float) -> BuildChange:
    straight, bent = Bore(angle=0.0, azimuth=0.0), Bore(angle=_BORE, azimuth=lean)

    def angles(bore: Bore, convention: Convention) -> HeadAngles:
        return turned(_LOFT, _LIE, _NO_CHANGE, bore, convention)

    return sleeve_turned(
        angles(straight, Convention.C),
        angles(bent, Convention.C),
        angles(straight, Convention.B),
        angles(bent, Convention.B),
    )


def build_fitting(ability: str, seed: int, device: Device, golfers: Golfers) -> BuiltFitting:
    """Draw a golfer, two heads, four shafts, every ball, and every club that could be built.

    Parameters
    ----------
    ability : str
    seed : int
    device : Device
    golfers : Golfers
        What they make of clubs; the same draws for all.
    """
    rng = np.random.default_rng(np.random.PCG64(seed))
    for_golfer, for_clubs, for_heads, for_balls, for_weights = rng.spawn(5)
    golfer = make_golfer(ability, for_golfer)
    other = varied_head(golfer.head, for_heads.standard_normal(len(VARIATIONS)))
    heads_by_name = {OWN_HEAD: golfer.head, DEMO_HEAD: other}
    adds = HEAD_SPREAD * LAUNCH_SCALE * for_heads.standard_normal((2, 5))
    adds_by_name = {OWN_HEAD: adds[0], DEMO_HEAD: adds[1]}
    builds = builds_of(golfer.mean[:5])
    shifts = _shifts(builds, golfers, for_clubs)
    names = [HIT[base][0] for base in (*range(len(HIT)), *(one.base for one in builds))]
    heads = (
        *(heads_by_name[head] for head, _ in HIT),
        *(
            _weighted(heads_by_name[HIT[one.base][0]], one.head_mass, for_weights)
            for one in builds
        ),
    )
    beyond = np.array([adds_by_name[name] for name in names])
    truth = true_figures(golfer, shifts, Home(), TRUE_SWINGS, heads, beyond)
    worth = true_values(truth, with_holes(Home(), float(truth.total[0])))
    hit = len(HIT)
    return BuiltFitting(
        simulated=fitting_of(
            World(device=device, clubs=hit),
            golfer,
            shifts[:hit],
            heads[:hit],
            ClubTruth(as_you_swing_it=truth, from_the_same_swing=None),
            for_balls,
            beyond[:hit],
        ),
        traits=tuple(ClubTraits(head=head, shaft=shaft) for head, shaft in HIT),
        builds=builds,
        neighbours=tuple(_told(place, one) for place, one in enumerate(builds)),
        truth=truth,
        worth=worth,
    )


def _weighted(head: Head, by: float, rng: np.random.Generator) -> Head:
    """Return a head with a weight put into it somewhere, or taken out."""
    where = rng.standard_normal(3)
    if by == 0.0:
        return head
    heavier = head.mass + by
    return replace(head, mass=heavier, cg=head.cg + FROM_THE_CENTRE * by / heavier * where)


def _shifts(builds: tuple[Build, ...], golfers: Golfers, rng: np.random.Generator) -> FloatArray:
    """Return what every club does to a swing: its shaft's part, its assembly's, and its own."""
    spread = golfers.strength * CLUB_SPREAD
    hit, count = len(HIT), len(HIT) + len(builds)
    shafts, assemblies, own, made = (
        np.sqrt(share) * rng.standard_normal((size, 7))
        for share, size in (
            (SHARED_BY_SHAFT, hit),
            (KEPT_BY_BUILD - SHARED_BY_SHAFT, count),
            (1.0 - KEPT_BY_BUILD, count),
            (1.0, count),
        )
    )
    shifts = [spread * (shafts[club] + assemblies[club] + own[club]) for club in range(hit)]
    for place, build in enumerate(builds, start=hit):
        assembled = build.base if build.base == build.shaft else place
        kept = build.base if assembled == build.base and not golfers.of_its_own else place
        change = np.append(np.array(build.change.shift), [0.0, 0.0])
        doubt = golfers.spread * np.array(build.change.doubt)
        of_club = spread * (shafts[build.shaft] + assemblies[assembled] + own[kept])
        shifts.append(of_club + golfers.mean * change + doubt * made[place])
    return np.array(shifts)


def _told(place: int, build: Build) -> Neighbour:
    head, shaft = HIT[build.base][0], HIT[build.shaft][1]
    base = OWN if build.base == 0 else TREES[build.base - 1]
    return Neighbour(
        name=f"{base}, {build.kind} {place}",
        traits=ClubTraits(head=head, shaft=shaft, shift=build.change.shift),
        base=base if build.base == build.shaft else "",
        doubt=build.change.doubt,
        launch=build.change.launch,
        launch_doubts=build.change.launch_doubts,
    )
