"""Solve a build from its file, and turn a sleeve."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import atan, sin, tan
from pathlib import Path
from typing import Final

from loftwright.constants import GRAM, INCH
from loftwright.domain.build_sheet import BuildSheet, Mind, SolvedBuild, TurnedSleeve
from loftwright.domain.built import Checked, swingweight_from
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Reading
from loftwright.errors import InputError, UsageError
from loftwright.intake.build_files import read_build
from loftwright.physics.build.club import LENGTHS, MASSES
from loftwright.physics.build.forecast import Forecast, forecast
from loftwright.physics.build.solve import Answer, Quantity, solve
from loftwright.physics.build.swingweight import (
    USUAL_SCALE,
    SwingweightScale,
    calibrated_scale,
    index_of,
)
from loftwright.physics.build.trades import nearest_trades
from loftwright.physics.build.uncertainty import NINETY_FIVE, ClubErrors, club_errors
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.mount import Mount
from loftwright.physics.sleeve import Bore, Convention, turned
from loftwright.services.bench import Dressing, measure_file

SAME_MASS: Final = 1.0 * GRAM
__all__ = [
    "BenchSetUp",
    "Bore",
    "errors_of",
    "scale_of",
    "solve_file",
    "solve_sheet",
    "targets_of",
    "those",
    "turn_sleeve",
    "weigh_swing",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchSetUp:
    """Readings of the raw shaft, and the clamp and weight to forecast its frequency with."""

    readings: Path
    clamp: float
    tip_mass: float


def solve_file(path: Path, bench: BenchSetUp | None = None) -> SolvedBuild:
    """Return what a build file's parts need to meet its targets.

    Parameters
    ----------
    path : Path
    bench : BenchSetUp, optional
        To forecast what the cuts do to the shaft's frequency.

    Returns
    -------
    SolvedBuild

    Raises
    ------
    IntakeError
        If a file cannot be read.
    InputError
        If a part or target cannot be.
    ConvergenceError
        If the targets cannot be told apart.
    """
    return solve_sheet(read_build(path), bench)


def solve_sheet(sheet: BuildSheet, bench: BenchSetUp | None = None) -> SolvedBuild:
    """Return what the parts of a sheet need to meet its targets.

    Parameters
    ----------
    sheet : BuildSheet
    bench : BenchSetUp, optional
        To forecast what the cuts do to the shaft's frequency.

    Raises
    ------
    InputError
        If a part or target cannot be.
    ConvergenceError
        If the targets cannot be told apart.
    """
    answer = solve(sheet.parts, sheet.target)
    errors = errors_of(sheet, answer)
    tight = _tight(sheet, errors)
    found, other = _forecast(sheet, answer, bench)
    minds = {
        Mind.UNCALIBRATED: not sheet.target.scale.calibrated,
        Mind.TIGHT: bool(tight),
        Mind.OTHER_SHAFT: other,
    }
    return SolvedBuild(
        sheet=sheet,
        answer=answer,
        trades=nearest_trades(sheet.parts, answer, _sizes(sheet.tolerances)),
        errors=errors,
        frequency=found,
        clamp=None if bench is None else bench.clamp,
        tip_mass=None if bench is None else bench.tip_mass,
        minds=those(minds),
        tight=tight,
    )


def turn_sleeve(loft: float, lie: float, face: float, bore: Bore) -> TurnedSleeve:
    """Return what a sleeve does to a head under the three conventions.

    Parameters
    ----------
    loft, lie, face : float
        Of the head with a straight hosel, soled flat; face open positive [rad].
    bore : Bore

    Returns
    -------
    TurnedSleeve

    Notes
    -----
    The design lie is that of the shaft seen along the target line: lie - atan(tan bore sin
    azimuth). It is the same whatever is held.
    """
    kept, soled, squared = (turned(loft, lie, face, bore, one) for one in Convention)
    return TurnedSleeve(
        kept=kept,
        soled=soled,
        squared=squared,
        design_lie=lie - atan(tan(bore.angle) * sin(bore.azimuth)),
    )


def scale_of(mass: float | None, balance: float | None, reads: str | None) -> SwingweightScale:
    """Return the usual swingweight scale, or the shop's own by a calibration club.

    Parameters
    ----------
    mass, balance : float, optional
        Of the calibration club [kg, m].
    reads : str, optional
        What the shop's scale reads of it, such as D0.

    Raises
    ------
    UsageError
        If some of the three are given and not all.
    InputError
        If they cannot be.
    """
    if mass is None and balance is None and reads is None:
        return USUAL_SCALE
    if mass is None or balance is None or reads is None:
        raise UsageError(
            "half a calibration club was given",
            place="--reference-mass, --reference-balance, --reference-reads",
            mend="Give all three, or none.",
        )
    return calibrated_scale(mass, balance, index_of(reads))


def weigh_swing(
    mass: float, balance: float, scale: SwingweightScale, mass_doubt: float, balance_doubt: float
) -> Reading:
    """Return the points above A0 of a club that was weighed and balanced, with their doubt.

    Parameters
    ----------
    mass, balance : float
        Its balance point from the top of the grip [kg, m].
    scale : SwingweightScale
    mass_doubt, balance_doubt : float
        Half-widths that hold 95 times in 100 [kg, m].

    Raises
    ------
    InputError
        If no club weighs so much or balances there.
    """
    if not MASSES[0] <= mass <= MASSES[1]:
        raise InputError(
            f"a club of {mass / GRAM:g} g is outside {MASSES[0] / GRAM:g} to "
            f"{MASSES[1] / GRAM:g} g",
            place="mass",
            mend="Check the unit: g, or another behind the figure.",
        )
    if not 0.4 * LENGTHS[0] <= balance <= 0.95 * LENGTHS[1]:
        raise InputError(
            f"a club that balances {balance / INCH:.2f} in from its butt cannot be",
            place="balance",
            mend="Measure from the top of the grip; check the unit: inches.",
        )
    return swingweight_from(
        Reading(value=mass, half_width=mass_doubt),
        Reading(value=balance, half_width=balance_doubt),
        scale,
    )


def those(minds: dict[Mind, bool]) -> frozenset[Mind]:
    """Return what is to be minded."""
    return frozenset(one for one, there in minds.items() if there)


def _sizes(tolerances: Tolerances) -> dict[Quantity, float]:
    return {
        Quantity.SWINGWEIGHT: tolerances.swingweight,
        Quantity.MASS: tolerances.mass,
        Quantity.INERTIA: tolerances.inertia,
    }


def errors_of(sheet: BuildSheet, answer: Answer) -> ClubErrors | None:
    """Return how sure a solved club's figures are; None where it cannot be built."""
    if not answer.feasible or answer.cuts is None:
        return None
    return club_errors(
        sheet.parts,
        answer.cuts.kept,
        sheet.errors,
        answer.head_added or 0.0,
        answer.butt_added or 0.0,
    )


def targets_of(sheet: BuildSheet) -> dict[Checked, float]:
    """Return every target of a build file, SI, swingweight in points."""
    wanted: Iterable[tuple[Checked, float | None]] = (
        (Checked.LENGTH, sheet.target.length),
        (Checked.SWINGWEIGHT, sheet.target.swingweight),
        (Checked.MASS, sheet.target.mass),
        (Checked.INERTIA, sheet.target.inertia),
    )
    return {**{one: value for one, value in wanted if value is not None}, **sheet.also}


def _tight(sheet: BuildSheet, errors: ClubErrors | None) -> tuple[Checked, ...]:
    if errors is None:
        return ()
    return tuple(
        checked
        for checked in targets_of(sheet)
        if hasattr(errors, checked.value)
        and getattr(sheet.tolerances, checked.value) < NINETY_FIVE * getattr(errors, checked.value)
    )


def _forecast(
    sheet: BuildSheet, answer: Answer, bench: BenchSetUp | None
) -> tuple[Forecast | None, bool]:
    """Return the forecast, and whether its readings are of a shaft of another weight."""
    if bench is None or answer.cuts is None:
        return None, False
    found = measure_file(bench.readings, answer.cuts.raw, Dressing())
    piece = found.measured.piece
    other = abs(piece.mass.value - sheet.parts.shaft.rod.whole.mass) > SAME_MASS
    made = forecast(
        piece.profile(),
        Mount(clamp=bench.clamp),
        TipBody(mass=bench.tip_mass),
        tip_trim=answer.cuts.tip_trim,
        butt_cut=answer.cuts.butt_cut,
        covariance=piece.bending.covariance,
    )
    return made, other
