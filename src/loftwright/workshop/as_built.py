"""A club as it was built, beside what its sheet asks for, and the mend. The target stays."""

from dataclasses import dataclass, replace

from loftwright.physics.build.club import Club, assembled
from loftwright.physics.build.parts import BuildParts
from loftwright.physics.build.solve import Answer, Quantity, Target, solve, value_of
from loftwright.physics.build.swingweight import POINT


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What a sheet asks a workshop to do to the parts: cut so long, add so much.

    Attributes
    ----------
    kept : float
        Of the cut shaft [m].
    head_added, butt_added : float
        [kg]
    """

    kept: float
    head_added: float
    butt_added: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AsBuilt:
    """A club of the parts as they are, with the cut and the added masses of its sheet.

    Attributes
    ----------
    club : Club
        Nothing is solved anew for it.
    length_apart : float
        From the target's length [m].
    apart : dict of Quantity to float
        From every other target: points of swingweight, kg, kg m^2.
    mend : Answer
        What the same targets need of these parts. Where the butt is cut already, the length that
        is there stands for the one asked for.
    """

    club: Club
    length_apart: float
    apart: dict[Quantity, float]
    mend: Answer


def made_of(answer: Answer) -> Made:
    """Return what a solved sheet asks for.

    Parameters
    ----------
    answer : Answer
        That can be built.
    """
    kept = 0.0 if answer.cuts is None else answer.cuts.kept
    head, butt = answer.head_added or 0.0, answer.butt_added or 0.0
    return Made(kept=kept, head_added=max(head, 0.0), butt_added=max(butt, 0.0))


def as_built(parts: BuildParts, target: Target, made: Made, *, cut: bool = False) -> AsBuilt:
    """Return what parts come to when a sheet is followed that was made for others.

    Parameters
    ----------
    parts : BuildParts
        As they are.
    target : Target
        Of the sheet; it is never moved.
    made : Made
        What the sheet asks for, or what was done instead.
    cut : bool
        Whether the butt is cut, so that a mend cannot change the length.

    Raises
    ------
    InputError
        If the parts make no club, such as a shaft that is too short for the cut.
    ConvergenceError
        If the targets cannot be told apart.
    """
    club = assembled(parts, made.kept, made.head_added, made.butt_added)
    apart = {}
    for one, wanted in target.wanted.items():
        off = value_of(one, club) - wanted
        apart[one] = off / POINT if one is Quantity.SWINGWEIGHT else off
    mended = solve(parts, replace(target, length=club.length) if cut else target)
    return AsBuilt(club=club, length_apart=club.length - target.length, apart=apart, mend=mended)
