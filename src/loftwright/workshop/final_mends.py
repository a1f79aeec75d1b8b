"""What would bring a finished club back to its sheet, from what was measured of it."""

from dataclasses import dataclass
from math import sqrt
from typing import Final

from loftwright.domain.build_sheet import CheckedBuild, MeasuredClub
from loftwright.domain.built import Checked, TargetLine
from loftwright.domain.verdict import Fit
from loftwright.physics.build.club import assembled
from loftwright.physics.build.grip import BuildUp
from loftwright.physics.build.solve import Answer, Quantity, amounts, places_of, solve, value_of

_BY_MASS: Final = {
    Quantity.SWINGWEIGHT: Checked.SWINGWEIGHT,
    Quantity.MASS: Checked.MASS,
    Quantity.INERTIA: Checked.INERTIA,
}
LEAST_MASS: Final = 1e-4
"""Less is not weighed in a workshop [kg]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """What one reading that is out asks for.

    Attributes
    ----------
    checked : Checked
        What is out; the first of them where one change of masses mends several.
    off : float
        How far above its target it is [SI, swingweight in points].
    asked : bool
        Whether the target was asked for; else it is what the parts come to.
    head, butt : float or None
        To put in, below nothing to take out [kg]; None where masses do not mend it.
    there : tuple of float
        What is in head and butt now and could be taken out [kg].
    turns : tuple of float or None
        Turns of tape to lay on, by either way of reckoning, where that mends it.
    """

    checked: Checked
    off: float
    asked: bool
    head: float | None = None
    butt: float | None = None
    there: tuple[float, float] = (0.0, 0.0)
    turns: tuple[float, float] | None = None

    @property
    def possible(self) -> bool:
        """Whether what has to come out is in it."""
        wanted = (self.head or 0.0, self.butt or 0.0)
        return all(
            one + there >= -LEAST_MASS for one, there in zip(wanted, self.there, strict=True)
        )


def mends(checked: CheckedBuild) -> tuple[Mend, ...]:
    """Return what every reading that is out asks for, in the order of the sheet.

    Parameters
    ----------
    checked : CheckedBuild

    Notes
    -----
    Swingweight, mass and inertia are mended together: the masses are those that the sheet's own
    equations give for what is lacking of the club as it was measured, not as it was planned. Where
    one of them was not measured, what the parts come to stands for it.
    """
    out = [line for line in checked.targets if line.fit is Fit.OUT]
    by_mass = [one for one in out if one.asked and one.checked in _solved(checked)]
    found = [] if not by_mass else [_masses(checked, by_mass[0])]
    found += [_other(checked, line) for line in out if line not in by_mass]
    order = list(Checked)
    return tuple(sorted(found, key=lambda one: order.index(one.checked)))


def as_made(answer: Answer, found: MeasuredClub) -> tuple[float, float, float] | None:
    """Return cut length and what is in head and butt, as built or as solved [m, kg, kg].

    None where the shaft is too short for its sheet and nobody measured how long it is.
    """
    kept = found.kept
    if kept is None:
        if answer.cuts is None:
            return None
        kept = answer.cuts.kept
    if found.head_added is not None:
        return kept, found.head_added, found.butt_added or 0.0
    return kept, answer.head_added or 0.0, answer.butt_added or 0.0


def _solved(checked: CheckedBuild) -> dict[Checked, Quantity]:
    return {_BY_MASS[one]: one for one in checked.sheet.target.wanted}


def _masses(checked: CheckedBuild, line: TargetLine) -> Mend:
    bare = Mend(checked=line.checked, off=line.reading.value - line.target, asked=True)
    sheet, found = checked.sheet, checked.measured
    made = as_made(solve(sheet.parts, sheet.target), found)
    if made is None:
        return bare
    kept, *there = made
    club = assembled(sheet.parts, kept, *there)
    lacking = {one: _lacking(checked, name) for name, one in _solved(checked).items()}
    wanted = {one: value_of(one, club) + lacking[one] for one in sheet.target.wanted}
    places = places_of(sheet.parts, club)[: len(wanted)]
    masses = [float(one) for one in amounts(club, wanted, places)]
    return Mend(
        checked=line.checked,
        off=bare.off,
        asked=True,
        head=masses[0],
        butt=masses[1] if len(masses) > 1 else 0.0,
        there=(there[0], there[1]),
    )


def _lacking(checked: CheckedBuild, name: Checked) -> float:
    """Return what is lacking of a target: a moment for the swingweight, SI."""
    line = next((one for one in checked.targets if one.checked is name), None)
    scale = checked.sheet.target.scale
    if line is None:
        comes_to, target = checked.predicted.get(name), _asked(checked, name)
        if comes_to is None:
            return 0.0
        off, base = target - comes_to.value, target
    else:
        off, base = line.target - line.reading.value, line.target
    if name is Checked.SWINGWEIGHT:
        return scale.moment(base) - scale.moment(base - off)
    return off


def _asked(checked: CheckedBuild, name: Checked) -> float:
    target = checked.sheet.target
    asked = {
        Checked.SWINGWEIGHT: target.swingweight,
        Checked.MASS: target.mass,
        Checked.INERTIA: target.inertia,
    }
    return asked[name] or 0.0


def _other(checked: CheckedBuild, line: TargetLine) -> Mend:
    off = line.reading.value - line.target
    made = checked.sheet.build_up
    turns = None
    if line.checked is Checked.GRIP and made is not None:
        turns = _turns(made, line.reading.value, line.target)
    return Mend(checked=line.checked, off=off, asked=line.asked, turns=turns)


def _turns(made: BuildUp, size: float, target: float) -> tuple[float, float]:
    """Return the turns of tape from one size of a grip to another: few and many."""
    rubber = made.nominal**2 - made.core**2
    under, wanted = (sqrt(max(one**2 - rubber, 0.0)) for one in (size, target))
    added, stretched = (target - size) / (2.0 * made.tape), (wanted - under) / (2.0 * made.tape)
    few, many = sorted((added, stretched), key=abs)
    return few, many
