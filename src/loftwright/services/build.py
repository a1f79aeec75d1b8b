"""Solve a build from its file, hold the finished club against it, and turn a sleeve."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from math import atan, sin, tan
from pathlib import Path
from typing import Final

from loftwright.constants import GRAM, MILLIMETRE
from loftwright.domain.built import (
    Checked,
    Contradicted,
    Sheet,
    TargetLine,
    contradictions,
    reading_of,
    swingweight_from,
    target_lines,
)
from loftwright.domain.limits import LimitLine, NotMeasured, Rules, limit_lines, not_measured
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Fit, Reading
from loftwright.errors import InputError
from loftwright.intake.build_files import BuildFile, read_build
from loftwright.intake.measured_file import MeasuredFile, read_measured
from loftwright.physics.build.club import Club
from loftwright.physics.build.forecast import Forecast, forecast
from loftwright.physics.build.pendulum import Pendulum, pendulum_error, pendulum_inertia
from loftwright.physics.build.solve import Answer, Quantity, solve
from loftwright.physics.build.swingweight import FULCRUM, SwingweightScale
from loftwright.physics.build.trades import Instead, nearest_trades
from loftwright.physics.build.uncertainty import NINETY_FIVE, ClubErrors, club_errors
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.mount import Mount
from loftwright.physics.sleeve import Bore, Convention, HeadAngles, turned
from loftwright.services.bench import Dressing, measure_file

SAME_CLAMP: Final = 1.0 * MILLIMETRE
SAME_WEIGHT: Final = 0.5 * GRAM
SAME_MASS: Final = 1.0 * GRAM


class Mind(StrEnum):
    """What a fitter has to mind of a solved or checked build.

    Attributes
    ----------
    UNCALIBRATED
        The swingweight scale stands on a figure from memory.
    TIGHT
        A tolerance is tighter than parts or bench can tell.
    NOT_BUILDABLE
        The sheet cannot be built as it is, so that nothing is predicted.
    SET_UP
        The frequency was read in another clamp or with another weight than asked for.
    RULER
        The length was measured by another method than the rules'.
    DERIVED
        The swingweight is worked out from weight and balance point.
    OTHER_SHAFT
        The readings are of a shaft that does not weigh what the sheet says.
    """

    UNCALIBRATED = "uncalibrated"
    TIGHT = "tight"
    NOT_BUILDABLE = "not_buildable"
    SET_UP = "set_up"
    RULER = "ruler"
    DERIVED = "derived"
    OTHER_SHAFT = "other_shaft"


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchSetUp:
    """Readings of the raw shaft, and the clamp and weight to forecast its frequency with."""

    readings: Path
    clamp: float
    tip_mass: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SolvedBuild:
    """A build as it was solved.

    Attributes
    ----------
    file : BuildFile
    answer : Answer
    trades : tuple of Instead
        Where it cannot be built.
    errors : ClubErrors or None
        None where it cannot be built.
    frequency : Forecast or None
        Where readings of the shaft were given.
    set_up : BenchSetUp or None
    minds : frozenset of Mind
    tight : tuple of Checked
        Which tolerances are tighter than the parts can promise.
    """

    file: BuildFile
    answer: Answer
    trades: tuple[Instead, ...]
    errors: ClubErrors | None
    frequency: Forecast | None
    set_up: BenchSetUp | None
    minds: frozenset[Mind]
    tight: tuple[Checked, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckedBuild:
    """A finished club beside its sheet and the published limits.

    Attributes
    ----------
    file : BuildFile
    measured : MeasuredFile
    limits : tuple of LimitLine
    targets : tuple of TargetLine
    contradicted : tuple of Contradicted
    not_measured : tuple of NotMeasured
    rules : Rules
    minds : frozenset of Mind
    """

    file: BuildFile
    measured: MeasuredFile
    limits: tuple[LimitLine, ...]
    targets: tuple[TargetLine, ...]
    contradicted: tuple[Contradicted, ...]
    not_measured: tuple[NotMeasured, ...]
    rules: Rules
    minds: frozenset[Mind]


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnedSleeve:
    """A head with its sleeve as set, under the three conventions; face open positive.

    Attributes
    ----------
    kept, soled, squared : HeadAngles
        Shaft kept, head soled flat, face squared.
    design_lie : float
        Of the shaft seen along the target line [rad].
    """

    kept: HeadAngles
    soled: HeadAngles
    squared: HeadAngles
    design_lie: float


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
    file = read_build(path)
    answer = solve(file.parts, file.target)
    errors = _errors(file, answer)
    tight = _tight(file, answer, errors)
    found, other = _forecast(file, answer, bench)
    minds = {
        Mind.UNCALIBRATED: not file.target.scale.calibrated,
        Mind.TIGHT: bool(tight),
        Mind.OTHER_SHAFT: other,
    }
    return SolvedBuild(
        file=file,
        answer=answer,
        trades=nearest_trades(file.parts, answer, _sizes(file.tolerances)),
        errors=errors,
        frequency=found,
        set_up=bench,
        minds=_those(minds),
        tight=tight,
    )


def check_files(build: Path, measured: Path) -> CheckedBuild:
    """Return a finished club beside its sheet and the published limits.

    Parameters
    ----------
    build, measured : Path

    Returns
    -------
    CheckedBuild

    Raises
    ------
    IntakeError
        If a file cannot be read.
    InputError
        If a key is not known, or a figure cannot be.
    """
    file, found = read_build(build), read_measured(measured)
    answer = solve(file.parts, file.target)
    errors = _errors(file, answer)
    sheet = Sheet(
        targets=_targets(file),
        predicted=_predicted(answer, errors, file.target.scale),
        tolerances=file.tolerances,
        scale=file.target.scale,
    )
    readings = _with_pendulum(found)
    derived = _derived(readings, file.target.scale)
    lines = target_lines({**readings, **derived}, sheet)
    other_set_up = _other_set_up(file, found)
    rules = found.rules or file.rules
    minds = {
        Mind.UNCALIBRATED: not file.target.scale.calibrated
        and any(line.checked is Checked.SWINGWEIGHT for line in lines),
        Mind.TIGHT: any(line.tight for line in lines),
        Mind.NOT_BUILDABLE: not answer.feasible,
        Mind.SET_UP: other_set_up,
        Mind.RULER: found.method.value != "60 degrees",
        Mind.DERIVED: bool(derived),
    }
    return CheckedBuild(
        file=file,
        measured=found,
        limits=limit_lines(found.limited, file.kind, rules),
        targets=tuple(_settled(line, other_set_up=other_set_up) for line in lines),
        contradicted=contradictions(readings, sheet),
        not_measured=not_measured(found.limited, file.kind),
        rules=rules,
        minds=_those(minds),
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


def _those(minds: dict[Mind, bool]) -> frozenset[Mind]:
    return frozenset(one for one, there in minds.items() if there)


def _sizes(tolerances: Tolerances) -> dict[Quantity, float]:
    return {
        Quantity.SWINGWEIGHT: tolerances.swingweight,
        Quantity.MASS: tolerances.mass,
        Quantity.INERTIA: tolerances.inertia,
    }


def _errors(file: BuildFile, answer: Answer) -> ClubErrors | None:
    if not answer.feasible or answer.cuts is None:
        return None
    return club_errors(
        file.parts,
        answer.cuts.kept,
        file.errors,
        answer.head_added or 0.0,
        answer.butt_added or 0.0,
    )


def _targets(file: BuildFile) -> dict[Checked, float]:
    wanted: Iterable[tuple[Checked, float | None]] = (
        (Checked.LENGTH, file.target.length),
        (Checked.SWINGWEIGHT, file.target.swingweight),
        (Checked.MASS, file.target.mass),
        (Checked.INERTIA, file.target.inertia),
    )
    return {**{one: value for one, value in wanted if value is not None}, **file.also}


def _figures(club: Club, scale: SwingweightScale) -> dict[Checked, float]:
    return {
        Checked.LENGTH: club.length,
        Checked.SWINGWEIGHT: scale.index(club.moment_about(FULCRUM)),
        Checked.MASS: club.mass,
        Checked.BALANCE: club.balance,
        Checked.INERTIA: club.inertia,
    }


def _predicted(
    answer: Answer, errors: ClubErrors | None, scale: SwingweightScale
) -> dict[Checked, Reading]:
    if answer.club is None or errors is None:
        return {}
    return {
        checked: reading_of(value, getattr(errors, checked.value))
        for checked, value in _figures(answer.club, scale).items()
    }


def _tight(file: BuildFile, answer: Answer, errors: ClubErrors | None) -> tuple[Checked, ...]:
    if errors is None:
        return ()
    return tuple(
        checked
        for checked in _targets(file)
        if hasattr(errors, checked.value)
        and getattr(file.tolerances, checked.value) < NINETY_FIVE * getattr(errors, checked.value)
    )


def _forecast(
    file: BuildFile, answer: Answer, bench: BenchSetUp | None
) -> tuple[Forecast | None, bool]:
    """Return the forecast, and whether its readings are of a shaft of another weight."""
    if bench is None or answer.cuts is None:
        return None, False
    found = measure_file(bench.readings, answer.cuts.raw, Dressing())
    piece = found.measured.piece
    other = abs(piece.mass.value - file.parts.shaft.rod.whole.mass) > SAME_MASS
    made = forecast(
        piece.profile(),
        Mount(clamp=bench.clamp),
        TipBody(mass=bench.tip_mass),
        tip_trim=answer.cuts.tip_trim,
        butt_cut=answer.cuts.butt_cut,
        covariance=piece.bending.covariance,
    )
    return made, other


def _with_pendulum(found: MeasuredFile) -> dict[Checked, Reading]:
    """Return the readings, the inertia by the pendulum among them."""
    readings, swung = dict(found.checked), found.pendulum
    if swung is None:
        return readings
    mass, balance = readings.get(Checked.MASS), readings.get(Checked.BALANCE)
    if Checked.INERTIA in readings or mass is None or balance is None:
        raise InputError(
            "a pendulum gives the inertia only with weight and balance point, and once",
            place="pendulum",
            mend="Give mass_g and balance_inch too, and leave out club_moi_kgcm2.",
        )
    pendulum = Pendulum(
        mass=mass.value,
        balance=balance.value,
        pivot=swung.pivot,
        period=swung.period.value,
        swing=swung.swing,
    )
    half_width = pendulum_error(
        pendulum,
        period=swung.period.half_width,
        mass=mass.half_width,
        balance=balance.half_width,
    )
    inertia = Reading(value=pendulum_inertia(pendulum), half_width=half_width)
    return {**readings, Checked.INERTIA: inertia}


def _derived(readings: dict[Checked, Reading], scale: SwingweightScale) -> dict[Checked, Reading]:
    mass, balance = readings.get(Checked.MASS), readings.get(Checked.BALANCE)
    if mass is None or balance is None or Checked.SWINGWEIGHT in readings:
        return {}
    return {Checked.SWINGWEIGHT: swingweight_from(mass, balance, scale)}


def _other_set_up(file: BuildFile, found: MeasuredFile) -> bool:
    if file.clamp is None or file.tip_mass is None:
        return False
    if found.clamp is None or found.tip_mass is None:
        return False
    return (
        abs(file.clamp - found.clamp) > SAME_CLAMP
        or abs(file.tip_mass - found.tip_mass) > SAME_WEIGHT
    )


def _settled(line: TargetLine, *, other_set_up: bool) -> TargetLine:
    """Return a line that tells nothing of a frequency that was read in another set-up."""
    if line.checked is Checked.FREQUENCY and other_set_up:
        return replace(line, fit=Fit.CANNOT_TELL)
    return line
