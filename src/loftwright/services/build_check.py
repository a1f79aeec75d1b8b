"""Hold a finished club against its sheet and the published limits."""

from dataclasses import replace
from pathlib import Path
from typing import Final

from loftwright.constants import GRAM, MILLIMETRE
from loftwright.domain.build_sheet import (
    BuildSheet,
    CheckedBuild,
    LengthMethod,
    MeasuredClub,
    Mind,
)
from loftwright.domain.built import (
    Checked,
    Sheet,
    TargetLine,
    contradictions,
    reading_of,
    swingweight_from,
    target_lines,
)
from loftwright.domain.limits import Rules, limit_lines, not_measured
from loftwright.domain.verdict import Fit, Reading
from loftwright.errors import InputError
from loftwright.intake.build_files import read_build
from loftwright.intake.measured_file import read_measured
from loftwright.physics.build.club import Club, assembled
from loftwright.physics.build.pendulum import Pendulum, pendulum_error, pendulum_inertia
from loftwright.physics.build.solve import Answer, solve
from loftwright.physics.build.swingweight import FULCRUM, SwingweightScale
from loftwright.physics.build.uncertainty import club_errors
from loftwright.services.build import targets_of, those
from loftwright.workshop.final_mends import as_made

SAME_CLAMP: Final = 1.0 * MILLIMETRE
SAME_WEIGHT: Final = 0.5 * GRAM


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
    return check_sheet(read_build(build), read_measured(measured))


def check_sheet(sheet: BuildSheet, found: MeasuredClub) -> CheckedBuild:
    """Return what was measured of a club beside its sheet and the published limits.

    Parameters
    ----------
    sheet : BuildSheet
    found : MeasuredClub

    Raises
    ------
    InputError
        If a figure cannot be.
    """
    answer = solve(sheet.parts, sheet.target)
    wanted = Sheet(
        targets=targets_of(sheet),
        predicted=_predicted(sheet, answer, found),
        tolerances=sheet.tolerances,
        scale=sheet.target.scale,
    )
    readings = _with_pendulum(found)
    derived = _derived(readings, sheet.target.scale)
    lines = target_lines({**readings, **derived}, wanted)
    other_set_up = _other_set_up(sheet, found)
    rules = _rules(sheet, found)
    minds = {
        Mind.UNCALIBRATED: not sheet.target.scale.calibrated
        and any(line.checked is Checked.SWINGWEIGHT for line in lines),
        Mind.TIGHT: any(line.tight for line in lines),
        Mind.NOT_BUILDABLE: not wanted.predicted,
        Mind.SET_UP: other_set_up,
        Mind.RULER: found.method is not LengthMethod.PLANE,
        Mind.DERIVED: bool(derived),
        Mind.GRIP_OUTSIDE: _grip_outside(sheet, readings),
    }
    return CheckedBuild(
        sheet=sheet,
        measured=found,
        limits=limit_lines(found.limited, sheet.kind, rules),
        targets=tuple(_settled(line, other_set_up=other_set_up) for line in lines),
        contradicted=contradictions(readings, wanted),
        not_measured=not_measured(found.limited, sheet.kind),
        rules=rules,
        minds=those(minds),
        predicted=dict(wanted.predicted),
    )


def _figures(club: Club, scale: SwingweightScale) -> dict[Checked, float]:
    return {
        Checked.LENGTH: club.length,
        Checked.SWINGWEIGHT: scale.index(club.moment_about(FULCRUM)),
        Checked.MASS: club.mass,
        Checked.BALANCE: club.balance,
        Checked.INERTIA: club.inertia,
    }


def _predicted(sheet: BuildSheet, answer: Answer, found: MeasuredClub) -> dict[Checked, Reading]:
    """Return what the parts come to as they were built, or else as the sheet solves them."""
    made = as_made(answer, found)
    told = found.head_added is not None or found.kept is not None
    if made is None or not (answer.feasible or told):
        return {}
    kept, head, butt = made
    club = assembled(sheet.parts, kept, head, butt)
    errors = club_errors(sheet.parts, kept, sheet.errors, head, butt)
    return {
        checked: reading_of(value, getattr(errors, checked.value))
        for checked, value in _figures(club, sheet.target.scale).items()
    }


def _with_pendulum(found: MeasuredClub) -> dict[Checked, Reading]:
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
        gravity=swung.gravity,
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


def _rules(sheet: BuildSheet, found: MeasuredClub) -> Rules:
    """Return the sheet's rules with what was said of them beside the readings."""
    rules = sheet.rules
    if found.edition is not None:
        rules = replace(rules, edition=found.edition)
    if found.local_length is not None:
        rules = replace(rules, local_length=found.local_length)
    return rules


def _grip_outside(sheet: BuildSheet, readings: dict[Checked, Reading]) -> bool:
    grip, made = readings.get(Checked.GRIP), sheet.build_up
    if grip is None or made is None:
        return False
    size = made.size
    return grip.value + grip.half_width < size.low or grip.value - grip.half_width > size.high


def _other_set_up(sheet: BuildSheet, found: MeasuredClub) -> bool:
    if sheet.clamp is None or sheet.tip_mass is None:
        return False
    if found.clamp is None or found.tip_mass is None:
        return False
    return (
        abs(sheet.clamp - found.clamp) > SAME_CLAMP
        or abs(sheet.tip_mass - found.tip_mass) > SAME_WEIGHT
    )


def _settled(line: TargetLine, *, other_set_up: bool) -> TargetLine:
    """Return a line that tells nothing of a frequency that was read in another set-up."""
    if line.checked is Checked.FREQUENCY and other_set_up:
        return replace(line, fit=Fit.CANNOT_TELL)
    return line
